from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.patients import (
    KnownStateFactory,
    PatientFactory,
    SensitivityFactory,
    StomaFactory,
)


def patient() -> dict[str, Any]:
    return {"patient": PatientFactory().uuid}


def sensitivity() -> dict[str, Any]:
    one = SensitivityFactory()
    return {"patient": one.patient.uuid, "sensitivity": one.uuid}


def stoma() -> dict[str, Any]:
    one = StomaFactory()
    return {"patient": one.patient.uuid, "stoma": one.uuid}


def known() -> dict[str, Any]:
    one = KnownStateFactory()
    return {"patient": one.stoma.patient.uuid, "known": one.uuid}


ROWS = {
    "patients:find": Row(Right.SEE_IDENTITY),
    "patients:results": Row(Right.SEE_IDENTITY),
    "patients:register": Row(Right.EDIT_IDENTITY),
    "patients:record": Row(Right.SEE_IDENTITY, patient),
    "patients:correct": Row(Right.EDIT_IDENTITY, patient),
    "patients:open_restricted": Row(Right.SEE_IDENTITY, patient),
    "patients:restrict": Row(Right.RESTRICT, patient),
    "patients:lift_restriction": Row(Right.LIFT_RESTRICTION, patient),
    "patients:contacts": Row(Right.EDIT_IDENTITY, patient),
    "patients:sensitivities_asked": Row(Right.CHART, patient),
    "patients:sensitivity_add": Row(Right.CHART, patient),
    "patients:sensitivity_remove": Row(Right.CHART, sensitivity),
    "patients:stoma_add": Row(Right.CHART, patient),
    "patients:stoma_correct": Row(Right.CHART, stoma),
    "patients:stoma_close": Row(Right.CHART, stoma),
    "patients:known_agree": Row(Right.AGREE_KNOWN, stoma),
    "patients:known_end": Row(Right.AGREE_KNOWN, known),
}

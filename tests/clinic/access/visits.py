from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.clinic.plans.signed_visits import signed
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory, PhotoFactory


def draft() -> dict[str, Any]:
    return {"visit": AssessmentFactory().visit.uuid}


def draft_and_other_stoma() -> dict[str, Any]:
    visit = AssessmentFactory().visit
    return {"visit": visit.uuid, "stoma": StomaFactory(patient=visit.patient).uuid}


def stoma() -> dict[str, Any]:
    return {"stoma": StomaFactory().uuid}


def assessment() -> dict[str, Any]:
    return {"assessment": AssessmentFactory().uuid}


def signed_visit() -> dict[str, Any]:
    return {"visit": signed().visit.uuid}


def photo() -> dict[str, Any]:
    return {"photo": PhotoFactory().pk}


ROWS = {
    "visits:start": Row(Right.CHART, stoma),
    "visits:also": Row(Right.CHART, draft_and_other_stoma),
    "visits:discard": Row(Right.CHART, draft),
    "visits:addendum": Row(Right.CHART, signed_visit),
    "visits:history": Row(Right.SEE_CLINICAL, signed_visit),
    "visits:photo_add": Row(Right.CHART, assessment),
    "visits:photo": Row(Right.SEE_CLINICAL, photo),
    "visits:photo_small": Row(Right.SEE_CLINICAL, photo),
    "visits:photo_remove": Row(Right.CHART, photo),
    "visits:wear_log": Row(Right.SEE_CLINICAL, stoma),
    "visits:wear_save": Row(Right.CHART, stoma),
    "visits:wear_read": Row(Right.CHART, stoma),
}

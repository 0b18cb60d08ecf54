from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.clinic.plans.signed_visits import signed
from tests.factories.visits import AssessmentFactory, PhotoFactory


def draft() -> dict[str, Any]:
    return {"assessment": AssessmentFactory(leaking=True).uuid}


def visit() -> dict[str, Any]:
    return {"visit": signed().visit.uuid}


def photo() -> dict[str, Any]:
    return {"photo": PhotoFactory().pk}


ROWS = {
    "charting:visit": Row(Right.SEE_CLINICAL, visit),
    "charting:chart": Row(Right.CHART, draft),
    "charting:save": Row(Right.CHART, draft),
    "charting:conflict": Row(Right.CHART, draft),
    "charting:measure_photo": Row(Right.CHART, photo),
    "charting:propose_marks": Row(Right.CHART, photo),
}

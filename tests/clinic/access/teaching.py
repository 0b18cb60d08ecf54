from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.patients import StomaFactory
from tests.factories.teaching import TaughtPointFactory
from tests.factories.visits import AssessmentFactory


def stoma() -> dict[str, Any]:
    return {"stoma": StomaFactory().uuid}


def at_visit() -> dict[str, Any]:
    one = AssessmentFactory()
    return {"stoma": one.stoma.uuid, "visit": one.visit.uuid}


def point() -> dict[str, Any]:
    return {"point": TaughtPointFactory().uuid}


ROWS = {
    "teaching:show": Row(Right.SEE_CLINICAL, stoma),
    "teaching:add": Row(Right.CHART, stoma),
    "teaching:add_at_visit": Row(Right.CHART, at_visit),
    "teaching:withdraw": Row(Right.CHART, point),
}

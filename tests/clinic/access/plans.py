from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.visits import AssessmentFactory


def draft() -> dict[str, Any]:
    return {"assessment": AssessmentFactory(leaking=True).uuid}


def recommendation() -> dict[str, Any]:
    return {**draft(), "key": "opening"}


ROWS = {
    "plans:what_if": Row(Right.CHART, recommendation),
    "plans:rules": Row(Right.SEE_CLINICAL),
}

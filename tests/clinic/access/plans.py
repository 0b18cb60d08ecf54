from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.clinic.plans.signed_visits import signed
from tests.factories.visits import AssessmentFactory


def draft() -> dict[str, Any]:
    return {"assessment": AssessmentFactory(leaking=True).uuid}


def recommendation() -> dict[str, Any]:
    return {**draft(), "key": "opening"}


def signed_assessment() -> dict[str, Any]:
    return {"assessment": signed().uuid}


ROWS = {
    "plans:what_if": Row(Right.CHART, recommendation),
    "plans:suspected": Row(Right.CHART, signed_assessment),
    "plans:rules": Row(Right.SEE_CLINICAL),
}

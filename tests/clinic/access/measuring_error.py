from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.repeats import RepeatFactory
from tests.factories.visits import AssessmentFactory


def assessment() -> dict[str, Any]:
    return {"assessment": AssessmentFactory().uuid}


def repeat() -> dict[str, Any]:
    return {"repeat": RepeatFactory().uuid}


ROWS = {
    "measuring_error:clinic": Row(Right.SEE_MEASURES),
    "measuring_error:chart": Row(Right.CHART, assessment),
    "measuring_error:show": Row(Right.SEE_CLINICAL, repeat),
    "measuring_error:withdraw": Row(Right.CHART, repeat),
}

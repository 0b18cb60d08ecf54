from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.patient_answers import AnswersFactory
from tests.factories.visits import AssessmentFactory


def assessment() -> dict[str, Any]:
    return {"assessment": AssessmentFactory().uuid}


def answers() -> dict[str, Any]:
    return {"answers": AnswersFactory().uuid}


ROWS = {
    "patient_answers:ask": Row(Right.CHART, assessment),
    "patient_answers:withdraw": Row(Right.CHART, answers),
}

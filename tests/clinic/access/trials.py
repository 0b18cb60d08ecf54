from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.patients import StomaFactory
from tests.factories.trials import EarlierTrialFactory


def stoma() -> dict[str, Any]:
    return {"stoma": StomaFactory().uuid}


def trial() -> dict[str, Any]:
    return {"trial": EarlierTrialFactory().uuid}


ROWS = {
    "trials:add": Row(Right.CHART, stoma),
    "trials:correct": Row(Right.CHART, trial),
    "trials:remove": Row(Right.CHART, trial),
}

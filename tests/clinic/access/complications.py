from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.complications import ComplicationFactory
from tests.factories.patients import StomaFactory


def stoma() -> dict[str, Any]:
    return {"stoma": StomaFactory().uuid}


def row() -> dict[str, Any]:
    return {"complication": ComplicationFactory().uuid}


ROWS = {
    "complications:of_stoma": Row(Right.SEE_CLINICAL, stoma),
    "complications:add": Row(Right.CHART, stoma),
    "complications:correct": Row(Right.CHART, row),
    "complications:remove": Row(Right.CHART, row),
}

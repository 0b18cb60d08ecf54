from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.patients import StomaFactory


def stoma() -> dict[str, Any]:
    return {"stoma": StomaFactory().uuid}


ROWS = {
    "trends:stoma": Row(Right.SEE_CLINICAL, stoma),
    "trends:tried": Row(Right.SEE_CLINICAL, stoma),
}

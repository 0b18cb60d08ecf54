from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.clinic.plans.signed_visits import signed


def signed_assessment() -> dict[str, Any]:
    return {"assessment": signed().uuid}


ROWS = {
    "follow_up:reschedule": Row(Right.MOVE_FOLLOW_UP, signed_assessment),
}

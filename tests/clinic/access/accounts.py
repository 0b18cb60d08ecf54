from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Open, Row
from tests.factories.accounts import UserFactory


def somebody() -> dict[str, Any]:
    return {"user": UserFactory().uuid}


ROWS = {
    "accounts:security": Row(Open.SIGNED_IN),
    "accounts:first_steps": Row(Open.SIGNED_IN),
    "accounts:session_end": Row(Open.SIGNED_IN, lambda: {"session": 1}),
    "accounts:sessions_end_others": Row(Open.SIGNED_IN),
    "accounts:users": Row(Right.MANAGE_USERS),
    "accounts:user_add": Row(Right.MANAGE_USERS),
    "accounts:user_change": Row(Right.MANAGE_USERS, somebody),
    "accounts:user_password": Row(Right.MANAGE_USERS, somebody),
    "accounts:user_try_again": Row(Right.MANAGE_USERS, somebody),
}

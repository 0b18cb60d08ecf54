"""Whose sheets may be printed by whom: the visit's state and the person's rights together."""

from clinic.accounts.models import User
from clinic.accounts.permissions import Right, may
from clinic.visits.models import Visit


def may_print(user: User, visit: Visit) -> bool:
    """A signed visit's sheet by whoever prints; a draft's only by whoever may chart it."""
    return may(user, Right.PRINT) and (visit.is_signed or may(user, Right.CHART))

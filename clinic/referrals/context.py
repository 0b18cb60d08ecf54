"""What every page's header knows of referrals: that something urgent waits for an answer."""

from collections.abc import Callable
from typing import Any

from django.http import HttpRequest
from django.utils import timezone

from clinic.accounts.permissions import Right, may
from clinic.capped_count import Count, counted
from clinic.referrals.queries import alarms, pressing


def urgent(request: HttpRequest) -> dict[str, Callable[[], Count]]:
    """``urgent_unanswered``: how many emergencies, or questions for the day past it, have no
    answer. ``alarms_unsigned``: how many unsigned visits found a danger, so that no one was asked.
    Asked only where a template shows it; nothing for the front desk."""
    user: Any = getattr(request, "user", None)
    if user is None or not may(user, Right.SEE_CLINICAL):
        return {}
    return {
        "urgent_unanswered": lambda: counted(pressing(timezone.localdate())),
        "alarms_unsigned": lambda: counted(alarms()),
    }

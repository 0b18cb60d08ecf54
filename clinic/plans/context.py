"""What every page's header knows of plans: that something urgent waits for an answer."""

from collections.abc import Callable
from typing import Any

from django.http import HttpRequest
from django.utils import timezone

from clinic.accounts.permissions import Right, may
from clinic.plans.queries import Count, counted, pressing


def urgent(request: HttpRequest) -> dict[str, Callable[[], Count]]:
    """``urgent_unanswered``: how many emergencies, or same-day questions past their day, have no
    answer. Asked only where a template shows it; nothing for the front desk."""

    def number() -> Count:
        user: Any = getattr(request, "user", None)
        if user is None or not may(user, Right.SEE_CLINICAL):
            return Count(0)
        return counted(pressing(timezone.localdate()))

    return {"urgent_unanswered": number}

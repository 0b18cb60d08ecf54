"""What is known and accepted in a stoma, as of a day."""

from __future__ import annotations

from datetime import date

from django.db.models import Q

from clinic.one_reading import once_a_reading
from clinic.patients.models import KnownState


@once_a_reading
def known_on(stoma: int, day: date) -> tuple[KnownState, ...]:
    """Of a stoma by its id: agreed by ``day`` and not ended by then, the last agreed last. One
    query."""
    agreed = KnownState.objects.filter(stoma=stoma, agreed_on__lte=day)
    return tuple(agreed.filter(Q(ended_on__isnull=True) | Q(ended_on__gt=day)))

"""The clinic's repeats. One query, however many there are."""

from __future__ import annotations

from datetime import datetime

from django.db.models import Q, QuerySet

from clinic.repeats.models import RepeatMeasurement


def stored_repeats() -> QuerySet[RepeatMeasurement]:
    """With all that a page shows of one; those of a discarded visit are left out."""
    return RepeatMeasurement.objects.exclude(assessment__visit__state="discarded").select_related(
        "assessment__visit__patient", "assessment__stoma", "measured_by", "first_by", "recorded_by"
    )


def counted_repeats(at: datetime | None = None) -> list[RepeatMeasurement]:
    """What counts towards the error of measuring as known ``at`` a moment (None: now), the oldest
    first: what was recorded by then and withdrawn later still counts."""
    rows = RepeatMeasurement.objects.exclude(assessment__visit__state="discarded").filter(
        known_before=False, first_by__isnull=False
    )
    if at is None:
        rows = rows.filter(withdrawn_at__isnull=True)
    else:
        standing = Q(withdrawn_at__isnull=True) | Q(withdrawn_at__gt=at)
        rows = rows.filter(standing, recorded_at__lte=at)
    return list(rows.order_by("recorded_at", "pk"))

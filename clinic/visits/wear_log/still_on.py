"""The barrier that was on at the last visit: offered for closing."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils import timezone

from clinic.visits.choices import RemovalReason
from clinic.visits.models import Assessment
from clinic.visits.wear_log.whole_log import log_of


@dataclass(frozen=True)
class StillOn:
    """A barrier put on on day ``on`` that no one recorded as off; ``reasons`` why it may have come
    off, as (value, words); ``today``: the day of the visit."""

    on: date
    today: date
    reasons: tuple[tuple[str, str], ...] = tuple((r.value, r.label) for r in RemovalReason)


def still_on(assessment: Assessment) -> StillOn | None:
    """The barrier to be closed at this visit; None where there is none, or its end is charted
    here. Two queries."""
    today = timezone.localdate(assessment.visit.happened_at)
    here = {row.on for row in assessment.wear_rows.all()}
    for barrier in reversed(log_of(assessment.stoma) or ()):
        if barrier.off is None and not barrier.superseded and barrier.on <= today:
            return None if barrier.on in here else StillOn(barrier.on, today)
    return None

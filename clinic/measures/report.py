"""All measures of one period, in the order of the page."""

from __future__ import annotations

from datetime import datetime

from django.utils import timezone

from clinic.measures.barriers import barriers
from clinic.measures.complications import complications
from clinic.measures.healing import healing
from clinic.measures.measure_types import Measure
from clinic.measures.overdue import overdue
from clinic.measures.period import Period
from clinic.measures.referral_response_time import answers
from clinic.measures.wear import leaks, wear


def measures(period: Period, now: datetime) -> tuple[Measure, ...]:
    """A constant number of queries, each counted in the database."""
    worn = barriers(period)
    return (
        complications(period),
        healing(period),
        wear(worn),
        leaks(worn),
        overdue(timezone.localdate(now)),
        answers(period, now),
    )

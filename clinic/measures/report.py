"""All measures of one period and group, in the order of the page."""

from __future__ import annotations

from datetime import date, datetime

from django.utils import timezone

from clinic.measures.at_risk import KINDS, Span, counts
from clinic.measures.barriers import barriers
from clinic.measures.graded import graded, register
from clinic.measures.group import EVERYONE, Group
from clinic.measures.healing import healing
from clinic.measures.incidence import incidence
from clinic.measures.measure_types import Measure
from clinic.measures.over_time import kinds_measure, quarters_measure
from clinic.measures.overdue import overdue
from clinic.measures.period import Period
from clinic.measures.prevalence import prevalence
from clinic.measures.referral_response_time import answers
from clinic.measures.tried import Tried, before_record, by_need
from clinic.measures.wear import leaks, wear


def measures(period: Period, now: datetime, group: Group = EVERYONE) -> tuple[Measure, ...]:
    """As many queries whatever the clinic's size, each counted in the database: one more for each
    thing that the group is narrowed by."""
    own = counts(period, group)
    beside = [counts(period, group, by, widened=True) for by in group.asked]
    worn = barriers(period, group)
    return (
        incidence(own, beside),
        prevalence(own, beside),
        graded(register(period, group)),
        healing(period, group),
        wear(worn),
        leaks(worn),
        overdue(timezone.localdate(now)),
        answers(period, now, group),
    )


def tried_measures(found: Tried | None) -> tuple[Measure, ...]:
    """What was tried, by plans and before this record."""
    if found is None:
        return ()
    return by_need(found.plans), before_record(found.earlier)


def over_time_measures(
    kind: str, cut: dict[date, Span], period: Period, group: Group = EVERYONE
) -> tuple[Measure, ...]:
    """One finding by quarter, as ``cut``, and by kind of stoma."""
    words = KINDS[kind]
    return quarters_measure(kind, words, cut), kinds_measure(kind, words, period, group)


def for_file(found: tuple[Measure, ...], group: Group) -> list[Measure]:
    """What may leave the clinic: of a part of its stomas, only what hides what the rest of them
    would give away."""
    return [one for one in found if one.beside_groups or not group.asked]

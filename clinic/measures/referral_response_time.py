"""How long referrals wait for an answer, by urgency."""

from __future__ import annotations

from datetime import datetime

from clinic.measures import small_numbers
from clinic.measures.group import EVERYONE, Group
from clinic.measures.measure_types import NO_DATA, Line, Measure, of_quantile, unless_shown
from clinic.measures.period import Period
from clinic.measures.sql import counted
from clinic.referrals.models import Referral, Urgency
from clinic.referrals.models.referral import ReferralQuerySet
from clinic.referrals.queries import for_list
from planning.statistics.survival import SurvivalCurve, kaplan_meier_counted

#: Hours begun, answered or not (then up to now); a count of each.
QUERY = """
WITH /* chosen */
SELECT urgency,
    ceil(extract(epoch FROM coalesce(answered_at, %(now)s) - made_at) / 3600)::int,
    answered_at IS NOT NULL, count(*)
FROM referrals_referral
    JOIN visits_assessment a ON a.id = assessment_id JOIN chosen ON chosen.id = a.stoma_id
WHERE made_at >= %(begins)s AND made_at < %(ends)s AND made_at <= %(now)s
GROUP BY 1, 2, 3 ORDER BY 1, 2, 3
"""
_STOMAS = """
WITH /* chosen */
SELECT id FROM chosen
"""
#: What its lists are called.
LISTS = {"asked": "asked", "answered": "answered", "waiting": "no answer yet"}
Waited = tuple[int, bool, int]


def answers(period: Period, now: datetime, group: Group = EVERYONE) -> Measure:
    """One line an urgency: asked, answered, without an answer, median hours."""
    found: dict[str, list[Waited]] = {urgency: [] for urgency in Urgency.values}
    for urgency, *waited in counted(QUERY, period, group, now=now):
        found[urgency].append((waited[0], waited[1], waited[2]))
    return Measure(
        key="answers",
        title="How long referrals wait for an answer",
        rule=(
            "Referrals made in these dates, from asking to the answer in this record, in hours "
            "begun. Without an answer they count up to now (Kaplan-Meier, 95 % interval from the "
            "log-log band)."
        ),
        not_counted="Answers given by phone and not recorded; whether the answer was in time.",
        source="Kaplan and Meier 1958; Kalbfleisch and Prentice 1980",
        about="Urgency",
        count_columns=("Asked", "Answered", "No answer yet"),
        figure_columns=("Median hours",),
        units=("hours",),
        lines=tuple(_line(str(u.label), found[u.value], u.value) for u in Urgency),
    )


def _line(words: str, rows: list[Waited], urgency: str) -> Line:
    answered = sum(n for _, done, n in rows if done)
    waiting = sum(n for _, done, n in rows if not done)
    told, asked = small_numbers.parts([answered, waiting])
    figure = unless_shown(answered + waiting)
    known = NO_DATA
    if rows:
        hours, done, many = zip(*rows, strict=True)
        curve = kaplan_meier_counted(hours, done, many)
        known = of_quantile(curve.median) if isinstance(curve, SurvivalCurve) else known
    numbers = (answered + waiting, answered, waiting)
    return Line(
        words,
        (asked, *told),
        (known if small_numbers.can_show(answered + waiting, answered) else figure,),
        inside=(*map(str, numbers), known.words),
        lists=tuple(f"of=answers&kind={urgency}&which={which}" for which in LISTS),
    )


def referrals_behind(
    period: Period, now: datetime, group: Group, urgency: str, which: str
) -> ReferralQuerySet:
    """The referrals of one count, the oldest first; one query for the stomas asked about."""
    stomas = [pk for (pk,) in counted(_STOMAS, period, group)]
    made = {"made_at__gte": period.begins, "made_at__lt": period.ends, "made_at__lte": now}
    found = Referral.objects.filter(urgency=urgency, assessment__stoma__in=stomas, **made)
    answer = {"answered": {"answered_at__isnull": False}, "waiting": {"answered_at__isnull": True}}
    return for_list(found.filter(**answer.get(which, {})).order_by("made_at", "id"))

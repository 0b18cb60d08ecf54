"""How long referrals wait for an answer, by urgency."""

from __future__ import annotations

from datetime import datetime

from clinic.measures import small_numbers
from clinic.measures.measure_types import Line, Measure, of_quantile, unless_shown
from clinic.measures.period import Period
from clinic.measures.sql import counted
from clinic.referrals.models import Urgency
from planning.statistics.survival import SurvivalCurve, kaplan_meier_counted

#: Hours begun, answered or not (then up to now); a count of each.
QUERY = """
SELECT urgency,
    ceil(extract(epoch FROM coalesce(answered_at, %(now)s) - made_at) / 3600)::int,
    answered_at IS NOT NULL, count(*)
FROM referrals_referral
WHERE made_at >= %(begins)s AND made_at < %(ends)s AND made_at <= %(now)s
GROUP BY 1, 2, 3 ORDER BY 1, 2, 3
"""
Waited = tuple[int, bool, int]


def answers(period: Period, now: datetime) -> Measure:
    """One line an urgency: asked, answered, without an answer, median hours."""
    found: dict[str, list[Waited]] = {urgency: [] for urgency in Urgency.values}
    for urgency, *waited in counted(QUERY, period, now=now):
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
        lines=tuple(_line(str(u.label), found[u.value]) for u in Urgency),
    )


def _line(words: str, rows: list[Waited]) -> Line:
    answered = sum(n for _, done, n in rows if done)
    waiting = sum(n for _, done, n in rows if not done)
    told, asked = small_numbers.parts([answered, waiting])
    figure = unless_shown(answered + waiting)
    if small_numbers.can_show(answered + waiting, answered):
        hours, done, many = zip(*rows, strict=True)
        curve = kaplan_meier_counted(hours, done, many)
        figure = of_quantile(curve.median) if isinstance(curve, SurvivalCurve) else figure
    return Line(words, (asked, *told), (figure,))

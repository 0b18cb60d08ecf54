"""The course of a stoma for a letter: the trend's figure, and how each plan did."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import mark_safe

from clinic import formatting
from clinic.plans.course import course_of as rows_of
from clinic.plans.course import course_report
from clinic.trends.figure import figure
from clinic.trends.verdicts import OutcomeRow, outcome_rows
from clinic.visits.models import Assessment

NO_TREND = "No figure: the record holds too little for a trend yet."
NOTHING_TRIED = "No plan has been signed for this stoma yet."
NOTHING_NEW = "nothing new"


@dataclass(frozen=True)
class Tried:
    """One plan: from when to when, what was new in it, how it did."""

    when: str
    what: str
    verdict: str
    how: str


@dataclass(frozen=True)
class Course:
    """``svg`` is "" where there is nothing to draw; ``headline`` says so then. Newest plan first;
    ``note`` where there is none."""

    svg: str = ""
    headline: tuple[str, ...] = (NO_TREND,)
    tried: tuple[Tried, ...] = ()
    note: str = NOTHING_TRIED


def course_of(assessment: Assessment) -> Course:
    """Everything signed and logged of the stoma until now. The figure marks surgery and changes
    of the plan; referrals have the rest of the letter."""
    rows = rows_of(assessment.stoma)
    if not rows.visits:
        return Course()
    report = course_report(rows)
    marked = [event for event in rows.events if event.kind not in {"referral", "answer"}]
    drawn = figure(report.series, marked, today=rows.today)
    empty = drawn.is_empty
    return Course(
        # Our own drawing; every word in it was escaped when it was made.
        svg="" if empty else mark_safe(drawn.on_paper(narrow=True)),  # noqa: S308
        headline=(*report.headline, NO_TREND) if empty else report.headline,
        tried=tuple(_tried(row) for row in outcome_rows(report.outcomes, rows.events)),
    )


def _tried(row: OutcomeRow) -> Tried:
    until = formatting.day(row.until) if row.until else "now"
    return Tried(
        when=f"{formatting.day(row.day)} to {until}",
        what="; ".join(row.changed) or NOTHING_NEW,
        verdict=row.verdict.word,
        how=row.verdict.text,
    )

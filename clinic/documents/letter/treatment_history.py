"""The course of a stoma for a letter: the trend's figure, and how each plan did."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.safestring import mark_safe

from clinic import formatting
from clinic.plans.course import course_of as rows_of
from clinic.plans.course import course_report
from clinic.plans.course_results import without_answers
from clinic.plans.diagnosis_codes import hernia_confirmed
from clinic.trends.figure import figure
from clinic.trends.verdicts import OutcomeRow, called_hernia, outcome_rows
from clinic.trials.choices import KnownFrom, Outcome
from clinic.trials.models import EarlierTrial
from clinic.trials.queries import earlier_trials_of
from clinic.visits.models import Assessment

NO_TREND = "No figure: the record holds too little for a trend yet."
NOTHING_TRIED = "No plan has been signed for this stoma yet."
NOTHING_NEW = "nothing new"


@dataclass(frozen=True)
class Tried:
    """One plan or earlier trial: from when to when, what was new in it, the outcome."""

    when: str
    what: str
    verdict: str
    how: str


@dataclass(frozen=True)
class Course:
    """``svg`` is "" where there is nothing to draw; ``headline`` says so then. Newest plan first,
    then what was tried before this record; ``note`` where there is neither."""

    svg: str = ""
    headline: tuple[str, ...] = (NO_TREND,)
    tried: tuple[Tried, ...] = ()
    note: str = NOTHING_TRIED


def course_of(assessment: Assessment) -> Course:
    """Everything signed and logged of the stoma until now. The figure marks surgery and changes
    of the plan; referrals have the rest of the letter."""
    rows = rows_of(assessment.stoma)
    before = tuple(_before(row) for row in reversed(earlier_trials_of(assessment.stoma_id)))
    if not rows.visits:
        return Course(tried=before)
    report = course_report(rows)
    marked = [event for event in rows.events if event.kind not in {"referral", "answer"}]
    hernia = hernia_confirmed(assessment.stoma_id)
    drawn = figure(without_answers(report.series), marked, today=rows.today, hernia=hernia)
    headline = tuple(map(called_hernia, report.headline)) if hernia else report.headline
    empty = drawn.is_empty
    return Course(
        # Our own drawing; every word in it was escaped when it was made.
        svg="" if empty else mark_safe(drawn.on_paper(narrow=True)),  # noqa: S308
        headline=(*headline, NO_TREND) if empty else headline,
        tried=(*(_tried(row) for row in outcome_rows(report.outcomes, rows.events)), *before),
    )


def _tried(row: OutcomeRow) -> Tried:
    until = formatting.day(row.until) if row.until else "now"
    return Tried(
        when=f"{formatting.day(row.day)} to {until}",
        what="; ".join(row.changed) or NOTHING_NEW,
        verdict=row.verdict.word,
        how=row.verdict.text,
    )


def _before(row: EarlierTrial) -> Tried:
    outcome = Outcome(row.outcome).label
    why = f". Ended: {row.ended_because}" if row.ended_because else ""
    said_by = KnownFrom(row.known_from).label.lower()
    return Tried(
        when=f"Before this record, {row.when_words}",
        what=row.what_words,
        verdict=outcome,
        how=f"{outcome}{why} (from: {said_by})",
    )

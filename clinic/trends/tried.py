"""What was tried: trials from before this record, then every signed plan, in one list."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from uuid import UUID

from django.utils import timezone

from clinic import formatting
from clinic.patients.models import Stoma
from clinic.plans.course import course_of, course_report
from clinic.trends.verdicts import OutcomeRow, Verdict, outcome_rows
from clinic.trials.choices import KnownFrom
from clinic.trials.models import EarlierTrial
from clinic.trials.queries import earlier_trials_of
from clinic.visits.models import Assessment
from clinic.visits.presenters.findings_for_colleagues import worn_words
from clinic.visits.queries import with_parts

NOTHING_NEW = "nothing new"


@dataclass(frozen=True)
class TriedRow:
    """One trial. ``visit``: the signed visit that planned it. ``trial``: the row typed in, of
    which ``source`` says from whom. ``worn``: what was worn when it was next seen, "" where that
    was not recorded."""

    when: str
    what: str
    verdict: Verdict
    ended: str
    source: str
    worn: str = ""
    visit: UUID | None = None
    trial: EarlierTrial | None = None


@dataclass(frozen=True)
class Tried:
    """The newest first. ``first_worn``: what was worn at the first signed visit."""

    rows: tuple[TriedRow, ...]
    first_worn: str = ""
    first_day: date | None = None


def tried_of(stoma: Stoma) -> Tried:
    """Everything tried of one stoma; a constant number of queries."""
    course = course_of(stoma)
    planned: tuple[OutcomeRow, ...] = ()
    if course.visits:
        planned = outcome_rows(course_report(course).outcomes, course.events)
    seen = _seen(stoma)
    rows = [*_planned(planned, seen), *map(_earlier, reversed(earlier_trials_of(stoma.pk)))]
    if not seen:
        return Tried(tuple(rows))
    return Tried(tuple(rows), worn_words(seen[0]), _day(seen[0]))


def _seen(stoma: Stoma) -> list[Assessment]:
    stored = with_parts().filter(stoma=stoma, visit__state="signed")
    return list(stored.order_by("visit__happened_at", "pk"))


def _day(assessment: Assessment) -> date:
    return timezone.localdate(assessment.visit.happened_at)


def _planned(rows: Iterable[OutcomeRow], seen: list[Assessment]) -> list[TriedRow]:
    after: dict[date, tuple[str, ...]] = {}
    found = []
    for row in rows:
        until = formatting.day(row.until) if row.until else "now"
        found.append(
            TriedRow(
                when=f"{formatting.day(row.day)} to {until}",
                what=_sentence("; ".join(row.changed) or NOTHING_NEW),
                verdict=row.verdict,
                ended=_why_ended(row, after),
                source="Plan of a signed visit",
                worn=_next_worn(row.day, seen),
                visit=next((one.visit.uuid for one in seen if _day(one) == row.day), None),
            )
        )
        after[row.day] = row.changed
    return found


def _why_ended(row: OutcomeRow, after: dict[date, tuple[str, ...]]) -> str:
    """By the plan that took its place; ``after``: what the later plans changed."""
    if row.until is None:
        return ""
    changed = "; ".join(after.get(row.until, ()))
    return f"The next plan changed: {changed}" if changed else "The next plan took its place"


def _next_worn(day: date, seen: Iterable[Assessment]) -> str:
    later = next((one for one in seen if _day(one) > day), None)
    return "" if later is None else worn_words(later)


def _earlier(trial: EarlierTrial) -> TriedRow:
    said_by = KnownFrom(trial.known_from).label.lower()
    recorded = f"{trial.recorded_by.display_name}, {formatting.day(trial.recorded_at)}"
    return TriedRow(
        when=_sentence(trial.when_words),
        what=trial.what_words,
        verdict=Verdict(trial.outcome),
        ended=trial.ended_because,
        source=f"Before this record. From: {said_by}. Recorded by {recorded}",
        trial=trial,
    )


def _sentence(words: str) -> str:
    return words[:1].upper() + words[1:]

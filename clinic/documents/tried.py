"""The course of a stoma for a letter: the trend's figure, and how each plan did."""

from __future__ import annotations

from dataclasses import dataclass

from clinic.visits.models import Assessment

NO_TREND = "The record holds too little for a trend."
NOTHING_TRIED = "No earlier plan to judge."


@dataclass(frozen=True)
class Tried:
    """One earlier plan: from when to when, what was new, how it did."""

    when: str
    what: str
    verdict: str
    how: str


@dataclass(frozen=True)
class Course:
    """``svg`` is "" where there is nothing to draw; ``headline`` says so then. Newest plan first;
    ``note`` stands where none can be judged."""

    svg: str = ""
    headline: tuple[str, ...] = (NO_TREND,)
    tried: tuple[Tried, ...] = ()
    note: str = NOTHING_TRIED


def course_of(assessment: Assessment) -> Course:
    """Everything known of the stoma until now."""
    return Course()

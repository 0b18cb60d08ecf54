"""The words of a referral: what is asked, what it rests on, the figures that go with it."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Protocol

from clinic import formatting
from clinic.visits.models import Assessment
from clinic.visits.presenters.findings_for_colleagues import finding_lines

ASK = "What do you advise?"


class Worded(Protocol):
    """Something written in words."""

    @property
    def text(self) -> str: ...


class Flag(Worded, Protocol):
    """A red flag as far as a question needs it: its words and what it rests on."""

    @property
    def because(self) -> Iterable[Worded]: ...


def question_of(flag: Flag, assessment: Assessment, *, instead: str = "") -> str:
    """The red flag, or the clinician's words ``instead`` of it, with the flag's own reasons and
    what the visit found. The figures go along however the question is put."""
    asked = _sentence(instead or flag.text)
    because = [f"- {reason.text}" for reason in flag.because]
    parts = [f"{asked} {ASK}" if "?" not in asked else asked]
    if instead:
        because.insert(0, f"- {flag.text}")
    if because:
        parts.append("\n".join(["Because:", *because]))
    parts.append(_found(assessment))
    return "\n\n".join(parts)


def own_question(assessment: Assessment) -> str:
    """Where a referral of the clinician's own begins: room for the question, then the findings."""
    return f"{ASK}\n\n{_found(assessment)}"


def _found(assessment: Assessment) -> str:
    day = formatting.day(assessment.visit.happened_at)
    lines = [f"- {line}" for line in finding_lines(assessment)] or ["- Nothing recorded yet."]
    return "\n".join([f"{assessment.stoma.short_name}, found on {day}:", *lines])


def _sentence(words: str) -> str:
    words = words.strip()
    return words if words[-1:] in ".!?" else f"{words}."

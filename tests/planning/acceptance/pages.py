"""What a plan says to whom, and whether it advises a thing or advises against it."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from planning import Plan
from planning.results.plan import Reason

#: A clause with one of these words does not advise what it names.
_AGAINST: Final = re.compile(
    r"\b(no|not|never|nothing|none|neither|nor|without|cannot|don't|avoid|stop|off|instead of|"
    r"rather than|against|keep out|leave out|worse)\b",
    re.I,
)
_CLAUSES: Final = re.compile(r"(?<=[.;:!?])\s+")


def person_page(plan: Plan) -> tuple[str, ...]:
    """Every text of the plan that the person is meant to read."""
    return tuple(text for text in _to_the_person(plan) if text)


def clinician_page(plan: Plan) -> tuple[str, ...]:
    """Every text of the plan that is meant for the clinician."""
    return tuple(text for text in _to_the_clinician(plan) if text)


def waiting(plan: Plan) -> tuple[str, ...]:
    """Every step that is not for today, with what would bring it."""
    return tuple(f"{step.text}, {step.trigger}" for step in plan.next_steps)


def page(plan: Plan, name: str) -> tuple[str, ...]:
    """``person``, ``clinician`` or ``either`` of them; ``later``: what waits, which meets nothing
    that is due today."""
    if name == "later":
        return waiting(plan)
    person = person_page(plan) if name in ("person", "either") else ()
    clinician = clinician_page(plan) if name in ("clinician", "either") else ()
    if not person + clinician:
        raise ValueError(f"No page is called {name!r}.")
    return person + clinician


def mentions(texts: tuple[str, ...], pattern: str) -> str | None:
    """The first text that holds ``pattern``, whatever it says about it."""
    return next((text for text in texts if re.search(pattern, text, re.I)), None)


def advises(texts: tuple[str, ...], pattern: str) -> str | None:
    """The first clause that holds ``pattern`` and does not advise against it."""
    return next((c for c in _clauses(texts, pattern) if not _AGAINST.search(c)), None)


def advises_against(texts: tuple[str, ...], pattern: str) -> str | None:
    """The first clause that holds ``pattern`` and advises against it."""
    return next((c for c in _clauses(texts, pattern) if _AGAINST.search(c)), None)


def _clauses(texts: tuple[str, ...], pattern: str) -> Iterator[str]:
    for text in texts:
        for clause in _CLAUSES.split(text):
            if re.search(pattern, clause, re.I):
                yield clause


def _to_the_person(plan: Plan) -> Iterator[str | None]:
    texts = [flag.patient_text for flag in plan.red_flags]
    texts += [item.patient_text for item in plan.recommendations]
    texts += [step.patient_text for step in plan.steps]
    texts += [line.patient_text for line in plan.call_when]
    texts.append(plan.follow_up.patient_text)
    yield from (text.english() for text in texts if text)


def _to_the_clinician(plan: Plan) -> Iterator[str | None]:
    yield plan.headline
    yield from (answer.text for answer in (plan.well, plan.fit) if answer is not None)
    for flag in plan.red_flags:
        yield from (flag.text, flag.refer_to, flag.do, *_words(flag.because))
    for item in plan.recommendations:
        yield from (item.text, item.caution, *_words(item.because))
    yield from (step.text for step in plan.steps)
    yield from _words(plan.notices)
    yield from _words(plan.missing)
    yield plan.follow_up.text
    yield from _words(plan.follow_up.because)


def _words(reasons: tuple[Reason, ...]) -> Iterator[str]:
    return (reason.text for reason in reasons)

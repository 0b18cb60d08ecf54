"""A finished plan as the lines it says, each with what it is about."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property, lru_cache
from itertools import chain
from typing import NamedTuple

from planning.ranked_facts import RankedFacts
from planning.results.message import Text
from planning.results.plan import Change, Plan, Recommendation
from planning.supplies.catalogue import SUPPLIES
from planning.supplies.worn import worn_now


class Part(StrEnum):
    """Where in a plan a line is."""

    HEADLINE = "headline"
    SUPPLY = "supply"
    ADVICE = "advice"
    DANGER = "danger"
    STEP = "step"
    NOTICE = "notice"
    LATER = "later"


class Line(NamedTuple):
    """``key`` of a recommendation, step or later step; "" for a notice. ``text`` to the clinician,
    ``plain`` to the patient ("" where nothing is said). ``at``: the finding it rests on."""

    part: Part
    key: str
    text: str
    plain: str = ""
    at: str = ""

    @property
    def texts(self) -> tuple[str, str]:
        return self.text, self.plain


@dataclass(frozen=True, slots=True)
class Fault:
    """What contradicts the plan: ``line`` as it is there, ``why`` in a few words."""

    check: str
    line: Line
    why: str


@dataclass(frozen=True)
class Said:
    """The plan, what it was made from, and its lines."""

    plan: Plan
    situation: RankedFacts

    @cached_property
    def lines(self) -> tuple[Line, ...]:
        return tuple(_lines(self.plan))

    def of(self, *parts: Part) -> Iterator[Line]:
        """The lines in these parts, one part after the other."""
        return chain.from_iterable(self._by_part.get(part, ()) for part in parts)

    @cached_property
    def _by_part(self) -> dict[Part, list[Line]]:
        found: dict[Part, list[Line]] = {}
        for line in self.lines:
            found.setdefault(line.part, []).append(line)
        return found

    @cached_property
    def chosen(self) -> frozenset[str]:
        return frozenset(self.plan.supplies)

    @cached_property
    def at_hand(self) -> frozenset[str]:
        """Chosen, or worn until now: these a plan may name."""
        return self.chosen | worn_now(self.situation.facts).keys


def _lines(plan: Plan) -> Iterator[Line]:
    yield Line(Part.HEADLINE, "headline", plan.headline)
    for item in plan.recommendations:
        yield _recommended(item)
    for step in plan.steps:
        yield Line(Part.STEP, step.key, step.text, _plain(step.patient_text))
    for notice in plan.notices:
        yield Line(Part.NOTICE, "", notice.text, at=notice.finding)
    for later in plan.next_steps:
        yield Line(Part.LATER, later.key, later.text)


@lru_cache(maxsize=4096)
def _plain(words: Text | None) -> str:
    return "" if words is None else words.english()


def _recommended(item: Recommendation) -> Line:
    plain = _plain(item.patient_text)
    at = item.because[0].finding if item.because else ""
    if item.key.startswith("refer_"):
        return Line(Part.DANGER, item.key, item.text, plain, at)
    if item.key not in SUPPLIES:
        return Line(Part.ADVICE, item.key, item.text, plain, at)
    # Its own name is no mention; what may be worn for now is no longer there where it stops.
    stopped = item.change is Change.STOP
    return Line(Part.SUPPLY, item.key, "" if stopped else item.caution or "", "", at)

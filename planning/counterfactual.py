"""The smallest change of one finding that would change a recommendation: searched, not written.

Numbers are moved up and down in doubling steps until the recommendation changes, then halved back
to the least whole step that still changes it; other findings are tried with each of their values.
Changes that end in an emergency are left out: there every recommendation gives way. Under 16 there
is nothing to search: no figure decides.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from enum import StrEnum
from typing import Any, Final

from planning.inputs.age import AgeGroup
from planning.inputs.clock import NOWHERE
from planning.inputs.errors import InvalidFindings
from planning.inputs.findings import Contour, Findings, Firmness, History, LumenPosition
from planning.pipeline import recommend
from planning.results.plan import Change, Plan, Urgency
from planning.supplies.catalogue import SUPPLIES


@dataclass(frozen=True, slots=True)
class Counterfactual:
    """``path`` of the finding, its ``value`` in words, and the sentence that says what follows."""

    path: str
    value: str
    text: str


@dataclass(frozen=True, slots=True)
class _Number:
    path: str
    label: str
    unit: str
    step: float
    least: float
    most: float


_NUMBERS: Final = (
    _Number("measurement.protrusion_mm", "a stoma height of", "mm", 1, -30, 80),
    _Number("measurement.length_mm", "a stoma", "mm long", 1, 10, 90),
    _Number("system.opening_length_mm", "an opening in use of", "mm", 1, 10, 100),
    _Number("output.volume_ml_24h", "an output of", "mL in 24 hours", 50, 0, 3000),
    _Number("stoma.days_since_surgery", "surgery", "days ago", 1, 0, 4000),
    _Number("abdomen.creases[0].depth_mm", "a crease", "mm deep", 1, 0, 40),
    _Number("abdomen.bulges[0].height_mm", "a bulge", "mm high", 1, 0, 80),
    _Number("skin[0].outer_mm", "the first skin finding reaching", "mm out", 1, 1, 60),
)

_WORDS: Final[tuple[tuple[str, str, tuple[object, ...]], ...]] = (
    ("abdomen.firmness", "the abdomen", tuple(Firmness)),
    ("abdomen.contour", "the abdomen", tuple(Contour)),
    ("measurement.lumen", "the lumen", (LumenPosition.CENTRE, LumenPosition.SKIN_LEVEL)),
    ("system.leak", "leak under the used barrier", (NOWHERE,)),
    ("skin", "skin findings", ((),)),
    ("abdomen.creases", "creases", ((),)),
    ("abdomen.bulges", "bulges", ((),)),
    ("measurement.prolapse", "prolapse", ((),)),
)


def counterfactuals(findings: Findings, history: History, key: str) -> tuple[Counterfactual, ...]:
    """For the recommendation ``key``, one change for every finding that can change it alone."""
    plan = recommend(findings, history)
    change = _change_of(plan, key)
    if change is None or plan.made_for is not AgeGroup.ADULT:
        return ()
    search = _Search(findings, history, key, change)
    return (*search.numbers(), *search.words())


def _change_of(plan: Plan, key: str) -> Change | None:
    return next((r.change for r in plan.recommendations if r.key == key), None)


@dataclass(frozen=True)
class _Search:
    findings: Findings
    history: History
    key: str
    change: Change

    def numbers(self) -> Iterator[Counterfactual]:
        for number in _NUMBERS:
            now = _get(self.findings, number.path)
            if isinstance(now, float | int):
                for sign in (1, -1):
                    steps = self._least_steps(number, float(now), sign)
                    if steps is not None:
                        yield self._moved(number, float(now), sign, steps)

    def words(self) -> Iterator[Counterfactual]:
        for path, label, values in _WORDS:
            now = _get(self.findings, path)
            for value in values:
                plan = None if value == now or now is None else self._differs(path, value)
                if plan is not None:
                    words = _in_words(value)
                    text = f"With {label} {words}" if words != "none" else f"Without {label}"
                    yield Counterfactual(path, words, f"{text} {self._instead(plan)}")

    def _least_steps(self, number: _Number, now: float, sign: int) -> int | None:
        """Fewest steps from ``now`` that change the recommendation; None within the range."""
        reach = number.most - now if sign > 0 else now - number.least
        most = int(reach / number.step)
        low, high = 0, 1
        while high <= most and self._at(number, now, sign * high) is None:
            low, high = high, high * 2
        if high > most:
            high = most
            if high <= low or self._at(number, now, sign * high) is None:
                return None
        while high - low > 1:
            middle = (low + high) // 2
            if self._at(number, now, sign * middle) is None:
                low = middle
            else:
                high = middle
        return high

    def _at(self, number: _Number, now: float, steps: int) -> Plan | None:
        value = now + steps * number.step
        kept: float | int = int(value) if number.path == "stoma.days_since_surgery" else value
        return self._differs(number.path, kept)

    def _differs(self, path: str, value: object) -> Plan | None:
        """The plan with this one finding changed, where the recommendation is another."""
        try:
            plan = recommend(_set(self.findings, path, value), self.history)
        except InvalidFindings:
            return None
        if plan.urgency is Urgency.EMERGENCY or _change_of(plan, self.key) is self.change:
            return None
        return plan

    def _moved(self, number: _Number, now: float, sign: int, steps: int) -> Counterfactual:
        plan = self._at(number, now, sign * steps)
        value = f"{now + sign * steps * number.step:g} {number.unit}"
        side = "or more" if sign > 0 else "or less"
        instead = self._instead(plan) if plan is not None else ""
        text = f"With {number.label} {value} {side} {instead}"
        return Counterfactual(number.path, value, text)

    def _instead(self, plan: Plan) -> str:
        """What the plan would say in this place."""
        change = _change_of(plan, self.key)
        if change is not None:
            return f"this would read: {change.value}."
        here = SUPPLIES.get(self.key)
        other = [k for k in plan.supplies if here is not None and SUPPLIES[k].slot is here.slot]
        if other:
            return f"this would be: {SUPPLIES[other[0]].name}."
        return "this would not be recommended."


def _in_words(value: object) -> str:
    if value in ((), NOWHERE):
        return "none"
    return value.replace("_", " ") if isinstance(value, StrEnum) else str(value)


def _parts(path: str) -> list[str | int]:
    out: list[str | int] = []
    for part in path.split("."):
        name, _, index = part.partition("[")
        out.append(name)
        if index:
            out.append(int(index.rstrip("]")))
    return out


def _get(findings: Findings, path: str) -> object:
    """The value at ``path``; None where a part on the way was not recorded."""
    value: Any = findings
    for part in _parts(path):
        if isinstance(part, int):
            value = value[part] if value else None
        elif value is not None:
            value = getattr(value, part)
    return value


def _set(findings: Findings, path: str, value: object) -> Findings:
    changed: Findings = _changed(findings, _parts(path), value)
    return changed


def _changed(part: Any, path: list[str | int], value: object) -> Any:
    """``part`` with the value at ``path`` changed, everything else the same."""
    if not path:
        return value
    first, rest = path[0], path[1:]
    if isinstance(first, int):
        return (*part[:first], _changed(part[first], rest, value), *part[first + 1 :])
    return replace(part, **{first: _changed(getattr(part, first), rest, value)})

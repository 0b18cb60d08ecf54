"""Which rules compare with a figure, or name one: found from their code and their words."""

from __future__ import annotations

import re
import types
from collections.abc import Callable, Iterator
from typing import Any

from planning.evidence.thresholds import Threshold

#: How soon somebody is seen: what an urgency means, at any age.
_LEVELS = re.compile(r"within (three days|two weeks)|in the same hour")
_FIGURE = re.compile(
    r"\d|\b(two|three|four|five|six|seven|eight|nine|ten|twelve|half)\b"
    r"|\b(more than|over|under|less than|for) (a|an|one) (day|hour|week|litre)\b",
    re.IGNORECASE,
)
#: Charted as a number: what a rule does with it compares it with something.
_NUMBERS = {
    "volume_ml_24h",
    "hours_without_output",
    "watery_for_hours",
    "pain_0_10",
    "depth_mm",
    "inner_mm",
    "outer_mm",
    "extra_length_mm",
    "height_mm",
    "width_mm",
    "protrusion_mm",
    "days_since_surgery",
    "burden_mm2",
    "height",
}
#: Counting from nothing, one more, and the hours of the clock face.
_COUNTING = (0, 1, -1, 12)


def figures_named(words: str | None) -> list[str]:
    """Figures in ``words``, as digits or written out."""
    return [found[0] for found in _FIGURE.finditer(_LEVELS.sub("", words or ""))]


def figures_read(judge: Callable[..., Any]) -> set[str]:
    """Thresholds, numbers charted and bare numbers that ``judge`` and what it calls read."""
    return set(_read(judge, set()))


def _read(function: Callable[..., Any], seen: set[Any]) -> Iterator[str]:
    code = getattr(function, "__code__", None)
    if code is None or code in seen:
        return
    seen.add(code)
    yield from _of_code(code, function.__globals__, seen)
    for cell in function.__closure__ or ():
        if isinstance(cell.cell_contents, types.FunctionType):
            yield from _read(cell.cell_contents, seen)


def _of_code(code: types.CodeType, names: dict[str, Any], seen: set[Any]) -> Iterator[str]:
    yield from _NUMBERS.intersection(code.co_names)
    for constant in code.co_consts:
        if isinstance(constant, types.CodeType):
            yield from _of_code(constant, names, seen)
        elif type(constant) in (int, float) and constant not in _COUNTING:
            yield str(constant)
    for name in code.co_names:
        value = names.get(name)
        if isinstance(value, Threshold):
            yield name
        elif isinstance(value, types.FunctionType) and value.__module__.startswith(
            "planning.safety"
        ):
            yield from _read(value, seen)

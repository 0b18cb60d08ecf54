"""The clinic's own error of measuring: its repeats handed to the planner, and what comes back."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime

from clinic.one_reading import once_a_reading
from clinic.repeats.models import RepeatMeasurement
from clinic.repeats.queries import counted_repeats
from planning.course.errors import (
    LEAST,
    ONE_NURSE,
    TWO_NURSES,
    Estimate,
    MeasuringErrors,
    Pair,
    Repeat,
    amount,
    errors_of,
    estimates,
)
from planning.statistics.too_few import TooFew

__all__ = ["LEAST", "EstimateRow", "errors_at", "estimates_now"]

#: The names of the measures for people.
NAMES = {"size": "Length and width", "height": "Protrusion", "area": "Damaged skin, share of it"}


@once_a_reading
def errors_at(at: datetime | None = None) -> MeasuringErrors:
    """What judgements over time use, as known ``at`` a moment (None: now). One query."""
    return errors_of(_once_a_visit(row for row in counted_repeats(at) if not row.same_nurse))


def _once_a_visit(rows: Iterable[RepeatMeasurement]) -> list[Repeat]:
    """The first of each assessment: several second readings of one first are not independent."""
    first: dict[int, RepeatMeasurement] = {}
    for row in rows:
        first.setdefault(row.assessment_id, row)
    return [
        Repeat(
            _pair(row, "length_mm"),
            _pair(row, "width_mm"),
            _pair(row, "protrusion_mm"),
            _pair(row, "area_mm2"),
        )
        for row in first.values()
    ]


def _pair(row: RepeatMeasurement, name: str) -> Pair | None:
    one, other = getattr(row, f"first_{name}"), getattr(row, name)
    return None if one is None or other is None else (float(one), float(other))


# --- for the lead -----------------------------------------------------------------------------
@dataclass(frozen=True)
class EstimateRow:
    """One measure in words. ``used``: the error in use, "" for one nurse's, which nothing uses."""

    name: str
    assumed: str
    repeats: int
    own: str
    used: str
    words: str


def estimates_now() -> tuple[tuple[EstimateRow, ...], tuple[EstimateRow, ...]]:
    """Of two nurses, then of one. One query."""
    rows = counted_repeats()
    two = estimates(_once_a_visit(row for row in rows if not row.same_nurse), TWO_NURSES)
    one = estimates(_once_a_visit(row for row in rows if row.same_nurse), ONE_NURSE)
    return _rows(two, used=True), _rows(one, used=False)


def _rows(found: Sequence[Estimate], *, used: bool) -> tuple[EstimateRow, ...]:
    return tuple(
        EstimateRow(
            name=NAMES[each.measure],
            assumed=amount(each.measure, each.assumed),
            repeats=each.found.have if isinstance(each.found, TooFew) else each.found.pairs,
            own=_own(each),
            used=amount(each.measure, each.used.sem) if used else "",
            words=each.used.words if used else "",
        )
        for each in found
    )


def _own(each: Estimate) -> str:
    if isinstance(each.found, TooFew):
        words = each.found.words
    else:
        value, low, high = (
            amount(each.measure, end) for end in (each.found.value, each.found.low, each.found.high)
        )
        words = f"{value} (95 % interval {low} to {high})"
    if each.left_out:
        words += f"; {each.left_out} left out: one of the two found no damage"
    return words

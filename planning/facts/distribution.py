"""Where on the face a finding lies: computed from the painted hours, not from a chosen label."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planning.evidence.thresholds import ALL_ROUND, CREASE_SHARE, LOWEST_SHARE, ONE_SIDED
from planning.inputs.clock import LOWEST_HOURS, NOWHERE, ClockHours
from planning.inputs.findings import SkinFinding
from planning.statistics.circular import direction


class Shape(StrEnum):
    """How a finding is spread round the stoma."""

    LOWEST_SIDE = "lowest_side"
    ALL_ROUND = "all_round"
    BARRIER_SHAPED = "barrier_shaped"
    ALONG_CREASE = "along_crease"
    ONE_SIDE = "one_side"
    PATCHY = "patchy"

    @property
    def words(self) -> str:
        return _WORDS[self]


_WORDS = {
    Shape.LOWEST_SIDE: "at the lowest side",
    Shape.ALL_ROUND: "all round",
    Shape.BARRIER_SHAPED: "all round, in the outline of a product",
    Shape.ALONG_CREASE: "along a crease",
    Shape.ONE_SIDE: "on one side",
    Shape.PATCHY: "in patches",
}


@dataclass(frozen=True, slots=True)
class Spread:
    """``mean_hour`` None without a direction; ``concentration`` 0 (even) to 1 (one hour)."""

    shape: Shape
    mean_hour: float | None
    concentration: float
    lowest_share: float
    crease_share: float


def spread_of(finding: SkinFinding, creases: ClockHours = NOWHERE) -> Spread:
    """Shape and figures of one finding; ``creases`` are all hours a crease reaches."""
    hours = finding.hours
    figures = direction(dict.fromkeys(hours, 1.0))
    lowest = _share(hours, LOWEST_HOURS)
    along = _share(hours, creases)
    return Spread(
        shape=_shape(finding, figures.corrected, lowest, along),
        mean_hour=hours.mean_hour,
        concentration=figures.corrected,
        lowest_share=lowest,
        crease_share=along,
    )


def _share(hours: ClockHours, of: ClockHours) -> float:
    return len(hours & of) / len(hours) if hours else 0.0


def _shape(finding: SkinFinding, concentration: float, lowest: float, along: float) -> Shape:
    if len(finding.hours) >= ALL_ROUND.value:
        return Shape.BARRIER_SHAPED if finding.product_outline else Shape.ALL_ROUND
    if along >= CREASE_SHARE.value:
        return Shape.ALONG_CREASE
    if lowest >= LOWEST_SHARE.value and concentration >= ONE_SIDED.value:
        return Shape.LOWEST_SIDE
    if concentration >= ONE_SIDED.value and len(finding.hours.arcs()) == 1:
        return Shape.ONE_SIDE
    return Shape.PATCHY

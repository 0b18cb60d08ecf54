"""The abdomen round the stoma: shape, creases, bulges, another stoma on it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planning.inputs.clock import ClockHours


class Contour(StrEnum):
    FLAT = "flat"
    ROUNDED = "rounded"
    PENDULOUS = "pendulous"
    HOLLOW = "hollow"


class Firmness(StrEnum):
    SOFT = "soft"
    FIRM = "firm"


class Posture(StrEnum):
    LYING = "lying"
    SITTING = "sitting"
    STANDING = "standing"
    BENDING = "bending"


@dataclass(frozen=True, slots=True)
class Crease:
    """A crease, scar or dip reaching the stoma at ``hours``; shown by the named postures."""

    hours: ClockHours
    depth_mm: float | None = None
    postures: frozenset[Posture] | None = None


@dataclass(frozen=True, slots=True)
class Bulge:
    """A bulge beside the stoma: height above the skin plane and width, mm. ``new``: not known
    before. ``hard``, ``skin_changed``: hard to the touch; red or dark skin over it."""

    hours: ClockHours
    height_mm: float | None = None
    width_mm: float | None = None
    reducible: bool | None = None
    painful: bool | None = None
    new: bool | None = None
    hard: bool | None = None
    skin_changed: bool | None = None


@dataclass(frozen=True, slots=True)
class Abdomen:
    contour: Contour | None = None
    firmness: Firmness | None = None
    creases: tuple[Crease, ...] | None = None
    bulges: tuple[Bulge, ...] | None = None


@dataclass(frozen=True, slots=True)
class OtherStoma:
    """Another stoma on the same abdomen, ``distance_mm`` from edge to edge. ``rests``: a mucous
    fistula or another opening that gives only mucus."""

    hours: ClockHours
    distance_mm: float | None = None
    length_mm: float | None = None
    width_mm: float | None = None
    rests: bool | None = None

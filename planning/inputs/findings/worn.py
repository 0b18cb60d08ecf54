"""The pouching system in use, and how long each barrier held."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planning.inputs.clock import ClockHours
from planning.inputs.findings.skin import Product


class ConvexDepth(StrEnum):
    """The depth of a dome that is known by its class alone."""

    SHALLOW = "shallow"
    MODERATE = "moderate"
    DEEP = "deep"


@dataclass(frozen=True, slots=True)
class LeakCount:
    """Leaks among the last barriers, counted without their days."""

    leaks: int
    barriers: int


class Pieces(StrEnum):
    ONE = "one_piece"
    TWO = "two_piece"


class Profile(StrEnum):
    FLAT = "flat"
    CONVEX = "convex"
    CONCAVE = "concave"


class Degree(StrEnum):
    """Compressibility and flexibility are ordinal, with no agreed unit (Beitz 2025)."""

    MORE = "more"
    LESS = "less"


class OpeningKind(StrEnum):
    PRE_CUT = "pre_cut"
    CUT_TO_FIT = "cut_to_fit"
    MOULDABLE = "mouldable"


class PouchKind(StrEnum):
    DRAINABLE = "drainable"
    CLOSED = "closed"
    TAP = "tap"
    HIGH_OUTPUT = "high_output"


class Accessory(StrEnum):
    RING = "ring"
    HALF_RING = "half_ring"
    STRIP = "strip"
    PASTE = "paste"
    POWDER = "powder"
    ANTIFUNGAL_POWDER = "antifungal_powder"
    PROTECTANT = "protectant"
    ADHESIVE_REMOVER = "adhesive_remover"
    BELT = "belt"
    SUPPORT_GARMENT = "support_garment"
    THICKENER = "thickener"
    NIGHT_BAG = "night_bag"
    TAPE = "tape"
    POUCH_COVER = "pouch_cover"
    LUBRICANT = "lubricant"


@dataclass(frozen=True, slots=True)
class Begun:
    """When a product worn now was first used: ``days`` before this visit; None: not known."""

    product: Product
    days: float | None = None


@dataclass(frozen=True, slots=True)
class PouchingSystem:
    """What the person arrived in, and the reading of the used barrier.

    ``accessories_not_asked``: not in the list when it was charted, so neither worn nor not worn.
    ``erosion`` where the barrier melted, ``leak`` where effluent got under it:
    None not read, ``ClockHours()`` read and intact. ``accessories`` None: not recorded.
    ``belt_tight``: less than two fingers fit under it. ``load``: hours at which clothing, a strap
    or another load lies across the barrier. ``lifts``: where the barrier lifts, with or without a
    leak. ``placed_towards``: hour towards which it was put on off centre. ``presses``: the opening
    or coupling is tight on the stoma. ``leak_count`` and ``usual_wear_days``: counted or usual,
    where no log was kept.
    """

    pieces: Pieces | None = None
    profile: Profile | None = None
    convex_depth_mm: float | None = None
    compressibility: Degree | None = None
    flexibility: Degree | None = None
    opening_length_mm: float | None = None
    opening_width_mm: float | None = None
    opening_kind: OpeningKind | None = None
    pouch: PouchKind | None = None
    accessories: frozenset[Accessory] | None = None
    erosion: ClockHours | None = None
    leak: ClockHours | None = None
    tape_border: bool | None = None
    begun: tuple[Begun, ...] | None = None
    belt_tight: bool | None = None
    load: ClockHours | None = None
    convex_depth: ConvexDepth | None = None
    lifts: ClockHours | None = None
    placed_towards: int | None = None
    presses: bool | None = None
    clear_pouch: bool | None = None
    filter: bool | None = None
    leak_count: LeakCount | None = None
    usual_wear_days: float | None = None
    accessories_not_asked: frozenset[Accessory] = frozenset()


class RemovalReason(StrEnum):
    PLANNED = "planned"
    LEAK = "leak"
    ITCH_OR_PAIN = "itch_or_pain"
    FELL_OFF = "fell_off"


class Circumstance(StrEnum):
    """What else was the matter when a barrier failed: not the system's doing, or over."""

    OVERFULL = "overfull"
    SOAKED = "soaked"
    PASSING_ILLNESS = "passing_illness"
    OTHER_SYSTEM = "other_system"
    PULLED_OFF = "pulled_off"
    LOAD_ACROSS = "load_across"


@dataclass(frozen=True, slots=True)
class WearEpisode:
    """One barrier: days worn and why it came off (None: still on)."""

    days: float
    reason: RemovalReason | None
    circumstance: Circumstance | None = None

"""The skin round the stoma, and wounds near it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planning.inputs.clock import ClockHours


class SkinKind(StrEnum):
    """What is seen, not why."""

    ERYTHEMA = "erythema"
    EROSION = "erosion"
    ULCER = "ulcer"
    UNDERMINED_ULCER = "undermined_ulcer"
    BLISTERS = "blisters"
    SATELLITES = "satellites"
    HAIR_PUSTULES = "hair_pustules"
    MACERATION = "maceration"
    STRIPPING = "stripping"
    PRESSURE_MARK = "pressure_mark"
    WARTY = "warty"
    GRANULOMA = "granuloma"
    HARD_LUMP = "hard_lump"
    DILATED_VEINS = "dilated_veins"
    SCALE = "scale"
    SPREADING_WARMTH = "spreading_warmth"
    ABSCESS = "abscess"
    FISTULA = "fistula"
    WEAL = "weal"
    PIGMENTED_SPOT = "pigmented_spot"
    BRUISE = "bruise"
    SETTLED_SCAR = "settled_scar"


class Product(StrEnum):
    """What lies on the skin, by where it lies."""

    BARRIER = "barrier"
    TAPE_BORDER = "tape_border"
    RING = "ring"
    PASTE = "paste"
    POWDER = "powder"
    FILM = "film"
    REMOVER = "remover"
    BELT = "belt"
    GARMENT = "garment"
    POUCH = "pouch"
    POUCH_COVER = "pouch_cover"


@dataclass(frozen=True, slots=True)
class SkinFinding:
    """One kind at some hours, from ``inner_mm`` to ``outer_mm`` beyond the stoma's edge.

    ``moist``: weeping. ``product_outline``: a sharp edge in the shape of a product.
    ``enlarging``: quickly. ``outline_of``: which product. ``hours_to_spread``: time in which
    it visibly spread.
    ``fades_min``: minutes until a mark has gone after the pressure is off; ``stays`` at least so
    long where it has not gone. ``changing``: grew, changed colour or bled since it was last seen.
    ``numb_or_crackling``: numb, crackling or grey-purple. ``minutes_after_contact``: until weals
    came. ``days``: how long it has been there. ``across_mm``: its largest width.
    ``flat_edge``: punched out, its edge not undermined. ``pain_0_10``: of this place.
    """

    kind: SkinKind
    hours: ClockHours
    inner_mm: float | None = None
    outer_mm: float | None = None
    itch: bool | None = None
    pain: bool | None = None
    burning: bool | None = None
    moist: bool | None = None
    product_outline: bool | None = None
    enlarging: bool | None = None
    outline_of: Product | None = None
    hours_to_spread: float | None = None
    fades_min: float | None = None
    stays_min: float | None = None
    changing: bool | None = None
    numb_or_crackling: bool | None = None
    minutes_after_contact: float | None = None
    days: float | None = None
    across_mm: float | None = None
    flat_edge: bool | None = None
    pain_0_10: int | None = None


@dataclass(frozen=True, slots=True)
class Wound:
    """An open wound near the stoma, ``distance_mm`` from its edge to the stoma's."""

    hours: ClockHours
    distance_mm: float | None = None
    length_mm: float | None = None
    width_mm: float | None = None
    depth_mm: float | None = None
    pus: bool | None = None
    effluent_reaches: bool | None = None
    comes_free: bool | None = None

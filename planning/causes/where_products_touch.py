"""Where each product touches the skin: the one table that suspicion goes by.

Places are mm beyond the edge of the stoma; figures are in
``planning.evidence.thresholds``. No study gives them: all are design values.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from planning.evidence.thresholds import PASTE_REACH, RING_INNER, RING_OUTER, TAPE_BORDER
from planning.facts.derive import Facts, Seen
from planning.facts.distribution import Shape
from planning.geometry.barrier import BELT_LINE, barrier_reach
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Accessory, Material, SkinFinding
from planning.inputs.findings import Product as Worn


class Place(StrEnum):
    """Where a product lies."""

    PASTE = "paste"
    RING = "ring"
    CREASE = "crease"
    BARRIER = "barrier"
    BORDER = "border"
    BELT = "belt"
    GARMENT = "garment"
    COVER = "cover"


@dataclass(frozen=True, slots=True)
class Product:
    """``worn_as`` None: part of every system. ``named``: as an outline or a start names it.
    ``wet``: it may run as far as the barrier reaches. ``prescribed``: only the prescriber stops
    it."""

    worn_as: Accessory | None
    material: Material
    place: Place
    named: Worn
    wet: bool = False
    prescribed: bool = False


#: In order of suspicion where nothing else tells: what is wet before the adhesive, which few can
#: do without (products for wetting and fixing were the most frequent culprits: ``contactderm``;
#: paste: ``landis2012``; the order is a design value).
PRODUCTS: Final = (
    Product(Accessory.PROTECTANT, Material.PROTECTANT, Place.BARRIER, Worn.FILM, wet=True),
    Product(
        Accessory.ADHESIVE_REMOVER, Material.ADHESIVE_REMOVER, Place.BARRIER, Worn.REMOVER, wet=True
    ),
    Product(Accessory.PASTE, Material.PASTE, Place.PASTE, Worn.PASTE, wet=True),
    Product(Accessory.RING, Material.RING, Place.RING, Worn.RING),
    Product(Accessory.HALF_RING, Material.RING, Place.RING, Worn.RING),
    Product(Accessory.STRIP, Material.RING, Place.CREASE, Worn.RING),
    Product(Accessory.POWDER, Material.POWDER, Place.BARRIER, Worn.POWDER),
    Product(
        Accessory.ANTIFUNGAL_POWDER, Material.POWDER, Place.BARRIER, Worn.POWDER, prescribed=True
    ),
    Product(None, Material.BARRIER_ADHESIVE, Place.BARRIER, Worn.BARRIER),
    Product(None, Material.TAPE, Place.BORDER, Worn.TAPE_BORDER),
    Product(Accessory.BELT, Material.LATEX, Place.BELT, Worn.BELT),
    Product(Accessory.SUPPORT_GARMENT, Material.LATEX, Place.GARMENT, Worn.GARMENT),
    Product(Accessory.POUCH_COVER, Material.POUCH_COVER, Place.COVER, Worn.POUCH_COVER),
)


def extent(place: Place, facts: Facts) -> tuple[float, float]:
    """From where to where ``place`` reaches, mm beyond the stoma's edge."""
    rim = barrier_reach(facts.outline)
    return {
        Place.PASTE: (0.0, PASTE_REACH.value),
        Place.RING: (0.0, (RING_OUTER.value - RING_INNER.value) / 2),
        Place.CREASE: (0.0, rim),
        Place.BARRIER: (0.0, rim),
        Place.BORDER: (rim - TAPE_BORDER.value, rim + TAPE_BORDER.value),
        Place.BELT: (rim, math.inf),
        Place.GARMENT: (rim, math.inf),
        Place.COVER: (rim, math.inf),
    }[place]


def _hours(place: Place, facts: Facts) -> ClockHours:
    if place is Place.BELT:
        return BELT_LINE
    if place is Place.CREASE and facts.crease_hours:
        return facts.crease_hours
    return ClockHours.all_round()


def touches(product: Product, seen: Seen, facts: Facts) -> bool:
    """The finding and the product share some skin. Where it begins or ends is not recorded: it may
    reach that far."""
    start, end = extent(product.place, facts)
    inner, outer = _span(seen.finding)
    shared = inner < end and outer > start
    return shared and bool(seen.finding.hours & _hours(product.place, facts))


def copies(product: Product, seen: Seen, facts: Facts) -> bool:
    """The finding has the outline of the product: as it was named, else no other edge lies nearer
    to its own. What is wet may have run as far as the barrier reaches."""
    if seen.finding.outline_of is not None:
        return seen.finding.outline_of is product.named
    if product.place is Place.CREASE:
        return seen.spread.shape is Shape.ALONG_CREASE
    nearest = _nearest(seen.finding, facts)
    close = product.place in (Place.PASTE, Place.RING) and nearest is Place.PASTE
    return close or nearest is product.place or (product.wet and nearest is Place.BARRIER)


def _nearest(finding: SkinFinding, facts: Facts) -> Place | None:
    """The place whose edges the finding copies: the border only for a frame that lies wholly in it,
    else the nearer of the two ends. None where no end is recorded."""
    inner, outer = _span(finding)
    if math.isinf(outer):
        return None
    start, end = extent(Place.BORDER, facts)
    if inner >= start and outer <= end:
        return Place.BORDER
    return min(Place.PASTE, Place.BARRIER, key=lambda place: abs(outer - extent(place, facts)[1]))


def _span(finding: SkinFinding) -> tuple[float, float]:
    return finding.inner_mm or 0.0, math.inf if finding.outer_mm is None else finding.outer_mm


def lies_outside(seen: Seen, facts: Facts) -> bool:
    """Beyond the barrier's outline, where only a belt, a garment or its border can lie.

    A finding whose start is not recorded lies outside where it has the shape of a belt: along its
    line alone, and ending beyond any border.
    """
    rim = barrier_reach(facts.outline)
    finding = seen.finding
    if finding.inner_mm is not None:
        return finding.inner_mm >= rim
    ends_far = finding.outer_mm is not None and finding.outer_mm > rim + TAPE_BORDER.value
    return ends_far and not finding.hours - BELT_LINE

"""Height of the stoma over the skin, judged by its kind."""

from __future__ import annotations

from enum import StrEnum

from planning.evidence.sources import DESIGN
from planning.evidence.thresholds import (
    COLOSTOMY_LONG,
    COLOSTOMY_TROUBLE,
    FLUSH_TO,
    RETRACTED_AT,
    SPOUT_LONG,
    SPOUT_LOW,
    SPOUT_TROUBLE,
    SPOUT_TROUBLE_URINE,
)
from planning.inputs.findings import StomaKind


class Height(StrEnum):
    """Height of the stoma, by its kind."""

    RETRACTED = "retracted"
    FLUSH = "flush"
    SHORT = "short"
    ADEQUATE = "adequate"
    LONG = "long"


def height_of(kind: StomaKind, protrusion_mm: float | None) -> Height | None:
    """Class of protrusion; retracted from -5 mm down, flush above that and up to 4 mm."""
    if protrusion_mm is None:
        return None
    if protrusion_mm <= RETRACTED_AT.value:
        return Height.RETRACTED
    if protrusion_mm <= FLUSH_TO.value:
        return Height.FLUSH
    if protrusion_mm < trouble_height(kind):
        return Height.SHORT
    longest = COLOSTOMY_LONG if kind is StomaKind.COLOSTOMY else SPOUT_LONG
    return Height.LONG if protrusion_mm > longest.value else Height.ADEQUATE


def height_words(height: Height, protrusion_mm: float) -> str:
    """In the trade's words. Below the skin is retracted, however little: the classes, which leave
    room for the error of measuring, call it so from 5 mm down.

    >>> height_words(Height.FLUSH, -3), height_words(Height.FLUSH, 2), height_words(Height.SHORT, 9)
    ('retracted, below the skin', 'flush with the skin', 'short')
    """
    if protrusion_mm < 0:
        return "retracted, below the skin"
    return "flush with the skin" if height is Height.FLUSH else height.value


def dome_height(kind: StomaKind) -> float:
    """Height (mm) under which a leak of this kind of stoma is first met with a dome.

    A spout (ileostomy, jejunostomy, urostomy) is made to pour 20 to 30 mm out: under 10 mm a soft,
    shallow dome comes first (common practice), from 10 to 20 mm a flat barrier with a ring. A
    colostomy is made 5 to 15 mm high, so that 8 mm is on target: only under 5 mm, where half of
    them leak (Persson 2010), is its height the reason for a dome.
    """
    return (COLOSTOMY_TROUBLE if kind is StomaKind.COLOSTOMY else SPOUT_LOW).value


def height_sources(kind: StomaKind) -> tuple[str, ...]:
    """Who says that this kind of stoma leaks under its height; for a jejunostomy and a urostomy it
    is taken to be as for an ileostomy."""
    published = {
        StomaKind.COLOSTOMY: ("persson2010/colostomy",),
        StomaKind.ILEOSTOMY: ("persson2010/ileostomy",),
    }
    return published.get(kind, (DESIGN,))


def trouble_height(kind: StomaKind) -> float:
    """Height (mm) under which this kind of stoma tends to leak."""
    if kind is StomaKind.COLOSTOMY:
        return COLOSTOMY_TROUBLE.value
    return (SPOUT_TROUBLE_URINE if kind is StomaKind.UROSTOMY else SPOUT_TROUBLE).value

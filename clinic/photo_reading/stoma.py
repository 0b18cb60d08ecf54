"""The stoma's edge, where the photo shows one: redder than the skin round it, and round itself.

Redness alone: no form is learnt and nothing is guessed behind shine or output. Red skin beside the
stoma is red too; where the edge moves with what counts as red, it is not clear, and so not given.
Its figures are design values, tried on painted photos.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

import cv2
import numpy as np

from clinic.photo_reading.edges import LEAST_CHANGE, met
from clinic.photo_reading.pixels import Bytes, Floats, Points, Seen

#: Points given; enough for the figures, few enough to check by eye.
_POINTS: Final = 20
#: Of the searched picture.
_AREA: Final = (0.002, 0.35)
#: Least difference of redness (CIELAB a*) between stoma and skin.
_REDDER: Final = 10.0
#: Its area may change so much when what counts as red is moved by so much of the difference.
_MOVED: Final = 0.15
_CHANGES: Final = 0.12
#: Least share of its hull, and of the oval laid through it, that it fills.
_FULL: Final = 0.9
_OVAL: Final = 0.88
#: Gaps closed and spurs taken off, as shares of the side of a square as large.
_GAP: Final = 0.3
_SPUR: Final = 0.2
#: Share of the points that must lie on a steep change of colour.
_STEEP: Final = 0.9


@dataclass(frozen=True)
class Edge:
    """Points clockwise from the top, pixels; ``off``: how far each may lie from a smooth edge."""

    points: Points
    off: float


def stoma_edge(picture: Seen, *, near: Points | None, without: Points | None) -> Edge | None:
    """The edge of the red thing ``near`` a point, else of the largest; None: not clear. ``without``
    the card's corners: a card may be red too."""
    small = picture.small
    red = np.asarray(cv2.GaussianBlur(small[..., 1], (0, 0), 2.0), np.float32)
    left_out = np.zeros(red.shape, np.uint8)
    if without is not None:
        middle = without.mean(axis=0)
        wider = (middle + 1.08 * (without - middle)) / picture.scale
        cv2.fillConvexPoly(left_out, np.round(wider).astype(np.int32), 1)
    place = None if near is None else near / picture.scale
    level = _level(red, left_out, place)
    if level is None:
        return None
    skin, stoma = level
    wanted = [skin + share * (stoma - skin) for share in (0.5 - _MOVED, 0.5, 0.5 + _MOVED)]
    outlines = [_outline(red, left_out, limit, place) for limit in wanted]
    if any(outline is None for outline in outlines):
        return None
    wide, middle_one, narrow = (float(cv2.contourArea(one)) for one in outlines)  # type: ignore[arg-type]
    outline = outlines[1]
    if outline is None or wide - narrow > _CHANGES * 2 * middle_one or not _round(outline):
        return None
    return _followed(picture, outline.reshape(-1, 2).astype(np.float64) + 0.5)


def _level(red: Floats, left_out: Bytes, place: Points | None) -> tuple[float, float] | None:
    """Redness of the skin and of the stoma; None where they differ too little."""
    seen = red[left_out == 0]
    if not seen.size:
        return None
    skin = float(np.median(seen))
    if place is None:
        reddest = seen[seen > skin + _REDDER]
        if reddest.size < _AREA[0] * seen.size:
            return None
        stoma = float(np.median(reddest))
    else:
        x, y = (int(v) for v in place)
        around = red[max(0, y - 6) : y + 7, max(0, x - 6) : x + 7]
        if not around.size:
            return None
        stoma = float(np.median(around))
    return (skin, stoma) if stoma - skin >= _REDDER else None


def _outline(red: Floats, left_out: Bytes, limit: float, place: Points | None) -> Bytes | None:
    """Of what is redder than ``limit``: the piece at the place, else the largest."""
    mask = ((red > limit) & (left_out == 0)).astype(np.uint8)
    # Shine and a wet spot are holes in it, a hair a gap.
    largest = math.sqrt(max(1, int(mask.sum())))
    for how, share in ((cv2.MORPH_CLOSE, _GAP), (cv2.MORPH_OPEN, _SPUR)):
        side = max(5, round(share * largest))
        brush = cv2.getStructuringElement(cv2.MORPH_ELLIPSE, (side, side))
        mask = np.asarray(cv2.morphologyEx(mask, how, brush), np.uint8)
        whole, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
        cv2.drawContours(mask, whole, -1, 1, cv2.FILLED)
    outlines, _ = cv2.findContours(mask, cv2.RETR_EXTERNAL, cv2.CHAIN_APPROX_NONE)
    found = [one for one in outlines if _fits(one, red.shape)]
    if place is not None:
        x, y = (float(v) for v in place)
        found = [one for one in found if cv2.pointPolygonTest(one, (x, y), False) >= 0]
    found.sort(key=cv2.contourArea)
    if not found:
        return None
    if len(found) > 1 and cv2.contourArea(found[-2]) > 0.5 * cv2.contourArea(found[-1]):
        return None  # two things as red: which one is asked of the person
    return np.asarray(found[-1])


def _fits(outline: Bytes, shape: tuple[int, ...]) -> bool:
    """Of a stoma's size, and whole in the picture."""
    high, wide = shape[:2]
    x, y, w, h = cv2.boundingRect(outline)
    whole = x > 1 and y > 1 and x + w < wide - 1 and y + h < high - 1
    return whole and _AREA[0] <= cv2.contourArea(outline) / (high * wide) <= _AREA[1]


def _round(outline: Bytes) -> bool:
    """One bulging piece, near an oval."""
    area = cv2.contourArea(outline)
    (_, (w, h), _) = cv2.fitEllipse(outline)
    oval = math.pi * w * h / 4
    hull = cv2.contourArea(cv2.convexHull(outline))
    return area >= _FULL * hull and min(area, oval) >= _OVAL * max(area, oval)


def _followed(picture: Seen, outline: Points) -> Edge | None:
    """Points at even turns, each moved to the steepest change near it."""
    rough = outline * picture.scale
    middle = rough.mean(axis=0)
    away = rough - middle
    turns = np.arctan2(away[:, 0], -away[:, 1]) % (2 * math.pi)
    far = np.hypot(away[:, 0], away[:, 1])
    order = np.argsort(turns)
    wanted = 2 * math.pi * np.arange(_POINTS) / _POINTS
    radii = np.interp(wanted, turns[order], far[order], period=2 * math.pi)
    out = np.column_stack([np.sin(wanted), -np.cos(wanted)])
    reach = max(4.0, min(4 * picture.scale, 0.1 * float(radii.min())))
    places = middle + out * radii[:, None]
    edge = met(picture.lab, places, out, reach)
    if (edge.change >= LEAST_CHANGE).mean() < _STEEP:
        return None
    moved = np.einsum("ij,ij->i", edge.at - places, out)
    # One that runs off alone follows shine or a fold: it stays where redness put it.
    usual = float(np.median(moved))
    alone = np.abs(moved - usual) > 0.5 * reach
    points = np.where(alone[:, None], places, edge.at)
    off = float(np.std(np.where(alone, 0.0, moved - usual)))
    return Edge(points, off)

"""The four corners of a card: where the lines of its sides meet, beyond the round corners.

A corner of a card is round, so none is looked for. A rough four-sided shape comes from what differs
from its ground; then each side is followed between its corners, a straight line is laid through
it, and neighbouring lines are made to meet. Its figures are design values, tried on painted photos.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any, Final

import cv2
import numpy as np
import numpy.typing as npt

from clinic.photo_reading.edges import LEAST_CHANGE, met
from clinic.photo_reading.pixels import Bytes, Floats, Points, Seen

#: Share of a side left out at either end: a corner of 3.18 mm is 6 % of the short side.
_ROUND: Final = 0.12
_PLACES: Final = 60
_BORDER_PX: Final = 4.0
#: A side is one where so many of its places lie on one straight line, to so many pixels.
_STRAIGHT: Final = 0.75
_OFF_PX: Final = 1.5
#: Of the searched picture: a card takes between so little and so much of it.
_AREA: Final = (0.01, 0.6)
#: Shapes tried, the clearest first.
_MOST: Final = 40
#: How readings of one thing differ: in sharpness, and in area.
_SHARPER: Final = 1.5
_RIM: Final = 0.93
_ALIKE: Final = 0.5
#: Least steepness of the faintest side, CIELAB units for each pixel.
_CLEAR: Final = 2.0
#: A shadow's rim is looked for so far beside a side, as a share of the short side (about 2.5 mm).
_BESIDE: Final = 0.045
#: So many standard deviations make the whole width of an edge.
_BOUND: Final = 2.0


@dataclass(frozen=True)
class Sides:
    """Four corners clockwise as seen, pixels. ``off``: standard deviation of each corner, pixels;
    ``clear``: how steep and how straight the sides are, to choose among several."""

    corners: Points
    off: float
    clear: float

    @property
    def area(self) -> float:
        return float(cv2.contourArea(self.corners.astype(np.float32)))


def cards(picture: Seen, fits: Callable[[Points], bool]) -> list[Sides]:
    """All that have four straight sides and that ``fits`` says may be a card, the clearest first;
    each thing once."""
    found: list[Sides] = []
    for rough in _rough(picture):
        sides = _followed(picture.lab, rough * picture.scale)
        if sides is not None:
            found.append(sides)
    found.sort(key=lambda sides: -sides.area)
    kept: list[Sides] = []
    while found:
        first = found[0]
        alike = [sides for sides in found if _same(sides, first)]
        found = [sides for sides in found if not any(sides is one for one in alike)]
        chosen = _rim_of(alike)
        if chosen is not None and fits(chosen.corners):
            kept.append(chosen)
    return sorted(kept, key=lambda sides: -sides.clear)


def _rim_of(alike: list[Sides]) -> Sides | None:
    """Of several readings of one thing, the largest first: its rim; None where that is not clear.

    Much sharper and nearly as large, it is the rim within its shadow. Somewhat smaller, it may as
    well be something printed on the card; less sharp, it is.
    """
    chosen = alike[0]
    for sides in alike[1:]:
        if sides.clear > _SHARPER * chosen.clear:
            if sides.area < _RIM * chosen.area:
                return None
            chosen = sides
    return chosen


def _rough(picture: Seen) -> Iterator[Points]:
    """Four-sided shapes of the smaller picture, the largest first, each about once."""
    small = picture.small
    area = small.shape[0] * small.shape[1]
    shapes: list[tuple[float, Points]] = []
    for mask in _masks(small):
        outlines, _ = cv2.findContours(mask, cv2.RETR_LIST, cv2.CHAIN_APPROX_NONE)
        for outline in outlines:
            hull = np.asarray(cv2.convexHull(outline))
            covers = cv2.contourArea(hull)
            if not _AREA[0] * area <= covers <= _AREA[1] * area:
                continue
            four = _four(hull)
            if four is not None and cv2.contourArea(four.astype(np.float32)) > 0.85 * covers:
                shapes.append(
                    (covers, _squared(four, outline.reshape(-1, 2).astype(np.float64) + 0.5))
                )
    shapes.sort(key=lambda shape: -shape[0])
    tried: list[Points] = []
    for _, four in shapes:
        if len(tried) < _MOST and not any(_close(four, other, 4.0) for other in tried):
            tried.append(four)
            yield four


def _masks(small: Floats) -> Iterator[Bytes]:
    """What differs from its ground: edges of several strengths, then light and dark and colours.

    An edge is broken here and there by noise, a level by a shadow; seldom both.
    """
    soft = cv2.GaussianBlur(small, (0, 0), 1.5)
    for channel in cv2.split(soft):
        low, high = np.percentile(channel, (1, 99))
        if high - low < 4:
            continue
        grey = np.clip((channel - low) * (255 / (high - low)), 0, 255).astype(np.uint8)
        for least in (30, 80):
            edges = cv2.Canny(grey, least, 2.5 * least)
            yield np.asarray(cv2.dilate(edges, np.ones((3, 3), np.uint8)), np.uint8)
        _, split = cv2.threshold(grey, 0, 255, cv2.THRESH_BINARY + cv2.THRESH_OTSU)
        yield np.asarray(split, np.uint8)
        yield np.asarray(255 - split, np.uint8)


def _four(hull: npt.NDArray[Any]) -> Points | None:
    """The hull with four corners, its round ones cut or not; None where it has no four sides."""
    around = cv2.arcLength(hull, closed=True)
    for share in (0.01, 0.02, 0.03, 0.04, 0.05, 0.06):
        near = cv2.approxPolyDP(hull, share * around, closed=True)
        if len(near) == 4:
            return _clockwise(near.reshape(4, 2).astype(np.float64) + 0.5)
        if len(near) < 4:
            return None
    return None


def _squared(corners: Points, outline: Points) -> Points:
    """Corners where the middles of the outline's sides would meet; as they were where they do not.
    A round corner is cut off by more than an edge is looked for."""
    lines = []
    for i in range(4):
        start, way = corners[i], corners[(i + 1) % 4] - corners[i]
        length = float(np.hypot(*way))
        away = outline - start
        share = away @ way / length**2
        off = np.abs(away @ np.array([-way[1], way[0]])) / length
        near = outline[(share > 0.2) & (share < 0.8) & (off < 0.06 * length)]
        if len(near) < 10:
            return corners
        lines.append(_line(near))
    met_at = [_meeting(lines[i - 1], lines[i]) for i in range(4)]
    found = [point for point in met_at if point is not None]
    return np.array(found) if len(found) == 4 else corners


def _clockwise(corners: Points) -> Points:
    away = corners - corners.mean(axis=0)
    # y points down: growing angles go clockwise.
    turned: Points = corners[np.argsort(np.arctan2(away[:, 1], away[:, 0]), kind="stable")]
    return turned


def _followed(lab: Floats, rough: Points) -> Sides | None:
    """The shape with its sides where they really are; None where a side is none."""
    corners = rough
    shortest = min(math.dist(corners[i], corners[i - 1]) for i in range(4))
    # Wide at first, for the smaller picture and the round corners; then close.
    for reach in (max(6.0, 0.05 * shortest), 5.0, 3.0):
        tried = [_side(lab, corners[i], corners[(i + 1) % 4], reach) for i in range(4)]
        sides = [side for side in tried if side is not None]
        if len(sides) < 4:
            return None
        lines = [(side.at, side.along) for side in sides]
        met_at = [_meeting(lines[i - 1], lines[i]) for i in range(4)]
        if any(point is None for point in met_at):
            return None
        corners = np.array(met_at, dtype=np.float64)
    off = max(*(side.off for side in sides), _shadowed(lab, corners) / _BOUND)
    clear = min(side.change for side in sides) * min(side.share for side in sides)
    return Sides(corners, off, clear) if clear >= _CLEAR else None


def _shadowed(lab: Floats, corners: Points) -> float:
    """How wide the widest side is, pixels: in a shadow's rim, the line may be on either."""
    shortest = min(math.dist(corners[i], corners[i - 1]) for i in range(4))
    wide = [0.0]
    for i in range(4):
        start, end = corners[i], corners[(i + 1) % 4]
        places, across = _along(start, end)
        wide.append(met(lab, places, across, max(4.0, _BESIDE * shortest)).blurred)
    return max(wide)


def _along(start: Points, end: Points) -> tuple[Points, Points]:
    """Places of a side between its round corners, and the way across it."""
    along = (end - start) / math.dist(start, end)
    shares = np.linspace(_ROUND, 1 - _ROUND, _PLACES)
    return start + shares[:, None] * (end - start), np.tile([-along[1], along[0]], (_PLACES, 1))


@dataclass(frozen=True)
class _Side:
    """A point of the line and its direction; how far its ends may be off, pixels; how steep the
    edge is along it, and over which share of it."""

    at: Points
    along: Points
    off: float
    change: float
    share: float


def _side(lab: Floats, start: Points, end: Points, reach: float) -> _Side | None:
    if math.dist(start, end) < 40:
        return None
    places, across = _along(start, end)
    if not _within(lab, places):
        return None
    edge = met(lab, places, across, reach)
    steep = edge.change >= LEAST_CHANGE
    if steep.mean() < _STRAIGHT:
        return None
    at, way = _line(edge.at[steep])
    far = np.abs((edge.at - at) @ np.array([-way[1], way[0]]))
    on = steep & (far <= max(_OFF_PX, reach / 8))
    if on.mean() < _STRAIGHT:
        return None
    at, way = _line(edge.at[on])
    spread = float(np.std((edge.at[on] - at) @ np.array([-way[1], way[0]])))
    # The line's end beyond its places: about four times as unsure as its middle.
    off = 4 * spread / math.sqrt(int(on.sum()))
    change = float(np.median(edge.change[on]))
    return _Side(at, way, off, change, float(on.mean()))


def _within(lab: Floats, places: Points) -> bool:
    """A side along the picture's border is the border."""
    high, wide = lab.shape[:2]
    least, most = places.min(axis=0), places.max(axis=0)
    near = _BORDER_PX
    return bool((least > near).all() and most[0] < wide - near and most[1] < high - near)


def _line(points: Points) -> tuple[Points, Points]:
    """Through points of which a few may lie far off."""
    x, y, px, py = cv2.fitLine(points.astype(np.float32), cv2.DIST_HUBER, 0, 0.01, 0.01).ravel()
    return np.array([px, py], dtype=np.float64), np.array([x, y], dtype=np.float64)


def _meeting(one: tuple[Points, Points], other: tuple[Points, Points]) -> Points | None:
    """Where two lines, each a point and a direction, meet; None where they hardly do."""
    (at, along), (there, way) = one, other
    cross = float(along[0] * way[1] - along[1] * way[0])
    if abs(cross) < 0.2:
        return None
    away = there - at
    point: Points = at + along * (float(away[0] * way[1] - away[1] * way[0]) / cross)
    return point


def _same(one: Sides, other: Sides) -> bool:
    """Two readings of one thing: its rim, or a frame printed inside it; not what it lies on."""
    if one.area < _ALIKE * other.area:
        return False
    inner = cv2.pointPolygonTest(
        other.corners.astype(np.float32).reshape(-1, 1, 2), one.corners.mean(axis=0).tolist(), False
    )
    return inner >= 0


def _close(one: Points, other: Points, px: float) -> bool:
    return bool(np.abs(one - other).max() < px)

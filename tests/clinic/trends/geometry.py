"""What lies on what in a drawing: the box of every text and of every mark, as it is drawn."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from matplotlib.artist import Artist
from matplotlib.lines import Line2D
from matplotlib.markers import MarkerStyle
from matplotlib.patches import Patch
from matplotlib.text import Text

from clinic.trends.drawing.axes import Sheet
from clinic.trends.drawing.room import Box, overlap

#: Boxes may share so much (drawing units): edges are drawn half on either side.
SHARED = 0.75
MARKS = ("bars-", "faces-", "separation-", "bulge-")


@dataclass(frozen=True)
class Thing:
    """A text, or a mark by the name of its group."""

    what: str
    box: Box
    is_text: bool


def things(sheet: Sheet) -> list[Thing]:
    """Every text and mark of a drawing."""
    sheet.figure.draw_without_rendering()
    every = sheet.figure.findobj()
    keys = {id(artist) for artist in sheet.figure.artists}
    return [*_texts(every), *_points(every), *_shapes(every, keys)]


def collisions(sheet: Sheet) -> list[str]:
    """What lies on what, in words."""
    found = [(thing, _less(thing.box)) for thing in things(sheet)]
    return [
        f"“{a.what}” on “{b.what}”"
        for (a, inner), (b, other) in combinations(found, 2)
        if overlap(inner, other) and not _within_its_face(a, b)
    ]


def _less(box: Box) -> Box:
    return box[0] + SHARED, box[1] + SHARED, box[2] - SHARED, box[3] - SHARED


def _within_its_face(one: Thing, other: Thing) -> bool:
    """The question mark of a face whose hours are not recorded is inside it, on purpose."""
    text, face = (one, other) if one.is_text else (other, one)
    if text.what != "?" or not face.what.startswith(MARKS[1:]):
        return False
    (a, b, c, d), (left, low, right, high) = text.box, face.box
    return left <= (a + c) / 2 <= right and low <= (b + d) / 2 <= high


def _texts(every: list[Artist]) -> Iterator[Thing]:
    for text in every:
        if isinstance(text, Text) and text.get_text().strip() and text.get_visible():
            box = text.get_window_extent()
            yield Thing(text.get_text(), (box.x0, box.y0, box.x1, box.y1), is_text=True)


def _points(every: list[Artist]) -> Iterator[Thing]:
    for line in every:
        if not isinstance(line, Line2D) or not line.get_gid():
            continue
        marker = MarkerStyle(line.get_marker())
        shape = marker.get_path().get_extents(marker.get_transform())
        size = line.get_markersize()
        for x, y in line.get_transform().transform(line.get_xydata()):
            box = x + size * shape.x0, y + size * shape.y0, x + size * shape.x1, y + size * shape.y1
            yield Thing(str(line.get_gid()), box, is_text=False)


def _shapes(every: list[Artist], keys: set[int]) -> Iterator[Thing]:
    for patch in every:
        if not isinstance(patch, Patch):
            continue
        name = patch.get_gid() or ("key" if id(patch) in keys else "")
        if name == "key" or name.startswith(MARKS):
            box = patch.get_window_extent()
            yield Thing(name, (box.x0, box.y0, box.x1, box.y1), is_text=False)

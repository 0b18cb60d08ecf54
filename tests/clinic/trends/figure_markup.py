"""The figure's markup, read back."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from dataclasses import dataclass
from functools import cache

from clinic.trends.drawing.svg import centre, tag
from clinic.trends.figure import TrendFigure

SHAPES = {tag(name) for name in ("use", "path", "g")}


@dataclass(frozen=True)
class Drawn:
    """One mark: whose it is, what it says, where it is (from the upper left)."""

    track: str
    number: int
    words: str
    value: str
    day: str
    x: float
    y: float
    box: tuple[float, float, float, float]


def screen(figure: TrendFigure) -> str:
    """Every panel of the page in one piece of markup."""
    return f"<div>{''.join(one.svg for one in figure.on_screen())}</div>"


def parsed(svg: str) -> ET.Element:
    """Raises where the markup is not well-formed."""
    return ET.fromstring(svg)  # noqa: S314 - our own drawing


def marks(svg: str) -> list[Drawn]:
    """Every mark in the order of the markup."""
    found = [g for g in parsed(svg).iter(tag("g")) if g.get("class") == "trend-mark"]
    return [_drawn(mark) for mark in found]


def of_track(figure: TrendFigure, track: str) -> list[Drawn]:
    """The marks of one kind of data."""
    return [mark for mark in _marks_of(figure) if mark.track == track]


@cache
def _marks_of(figure: TrendFigure) -> list[Drawn]:
    return marks(screen(figure))


def _drawn(mark: ET.Element) -> Drawn:
    shape = next(child for child in mark if child.tag in SHAPES)
    x, y = centre(shape)
    return Drawn(
        track=mark.get("data-track", ""),
        number=int(mark.get("data-number", "")),
        words=mark.findtext(tag("title"), ""),
        value=mark.get("data-value", ""),
        day=mark.get("data-day", ""),
        x=x,
        y=y,
        box=_box(shape),
    )


def _box(shape: ET.Element) -> tuple[float, float, float, float]:
    """Left, right, top and bottom of a path of straight lines."""
    path = next(shape.iter(tag("path")), None)
    if path is None:
        return (0, 0, 0, 0)
    numbers = [float(n) for n in path.get("d", "").split() if n[-1].isdigit()]
    return min(numbers[::2]), max(numbers[::2]), min(numbers[1::2]), max(numbers[1::2])

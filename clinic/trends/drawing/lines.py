"""Values over time as a line with a mark for each visit, over zones and levels."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Any

from matplotlib.axes import Axes
from matplotlib.dates import date2num
from matplotlib.path import Path
from matplotlib.transforms import IdentityTransform

from clinic.plans.course_results import Line, Point, Zone
from clinic.trends.drawing.axes import Sheet, swatch
from clinic.trends.drawing.room import Box, Room
from clinic.trends.drawing.style import LETTER, SMALL, Medium
from clinic.trends.tracks import Track

#: Name a drawn group carries, so that its marks show whose data they are.
GROUP = "track-"
#: What lies under the lines of events.
BACK = -2


@dataclass(frozen=True, slots=True)
class Look:
    """How the lines of a panel differ: by colour, dashes and shape of marks."""

    marker: Path | str
    dashes: str
    second: bool = False

    def of(self, medium: Medium, size: float) -> dict[str, Any]:
        """As the drawing library takes it; ``size`` of a mark across."""
        palette = medium.palette
        colour = palette.second if self.second else palette.first
        thin = min(1.6, size / 4)
        return {
            "color": colour,
            "marker": self.marker,
            "linestyle": self.dashes,
            "linewidth": 1.8,
            "markersize": size - thin,
            "markerfacecolor": palette.paper if self.second else colour,
            "markeredgecolor": colour,
            "markeredgewidth": thin,
        }


#: Both are exactly over their day: of two equal values, each half is seen.
_LEFT = Path.wedge(90, 270)
_RIGHT = Path([(0, -1), (1, -1), (1, 1), (0, 1), (0, -1)])
_DASHES = (0, (4, 2))
ALONE = Look("o", "-")
FIRST = Look(_LEFT, "-")
SECOND = Look(_RIGHT, _DASHES, second=True)  # type: ignore[arg-type]
#: Across, where there is room, and where visits are days apart on an axis of years.
MARK, LEAST_MARK = 8.0, 2.4

Drawn = tuple[Track, tuple[Point, ...], Look]


def draw_lines(axes: Axes, drawn: Iterable[Drawn], medium: Medium) -> Room:
    """One line a track; its marks are in the order of the data. Gives back where they are."""
    drawn = tuple(drawn)
    places = [[_place(axes, point) for point in points] for _, points, _ in drawn]
    size = mark_size(places)
    for track, points, look in drawn:
        axes.plot(
            date2num([p.day for p in points]),
            [p.value for p in points],
            gid=GROUP + track.key,
            clip_on=False,
            zorder=4,
            **look.of(medium, size),
        )
    half = size / 2
    return Room(
        [(x - half, y - half, x + half, y + half) for row in places for x, y in row],
        [box for row in places for one, other in pairwise(row) for box in _along(one, other)],
    )


def _along(one: tuple[float, float], other: tuple[float, float]) -> Iterator[Box]:
    """Small boxes along a piece of a line."""
    steps = max(1, round(math.hypot(other[0] - one[0], other[1] - one[1]) / 4))
    for step in range(steps + 1):
        x, y = (a + (b - a) * step / steps for a, b in zip(one, other, strict=True))
        yield x - 2, y - 2, x + 2, y + 2


def _place(axes: Axes, point: Point) -> tuple[float, float]:
    x, y = axes.transData.transform((float(date2num(point.day)), point.value))
    return float(x), float(y)


def mark_size(places: Sequence[Sequence[tuple[float, float]]]) -> float:
    """As large as keeps the marks of different visits apart."""
    every = sorted({place for row in places for place in row})
    apart = [
        max(abs(x - u), abs(y - v))
        for n, (x, y) in enumerate(every)
        for u, v in every[n + 1 :]
        if u - x < MARK and u > x
    ]
    return max(LEAST_MARK, min([MARK, *(near - 0.4 for near in apart)]))


def draw_zones(axes: Axes, zones: tuple[Zone, ...], room: Room, medium: Medium) -> None:
    """Bands of the value axis, every other one shaded, each named where there is room for it."""
    bottom, top = axes.get_ylim()
    back = _behind(axes)
    per_unit = axes.bbox.height / (top - bottom)
    for number, zone in enumerate(sorted(zones, key=_low)):
        low = max(bottom, zone.low if zone.low is not None else bottom)
        high = min(top, zone.high if zone.high is not None else top)
        if low >= high:
            continue
        ground = medium.palette.band if number % 2 == 0 else medium.palette.paper
        back.axhspan(low, high, color=ground, linewidth=0)
        if zone.low is not None and zone.low > bottom:
            back.axhline(zone.low, color=medium.palette.mark, linewidth=0.8, dashes=(2, 2))
        if (high - low) * per_unit >= NOTE:
            up = axes.transData.transform((0, (low + high) / 2))[1]
            spare = ((high - low) * per_unit - NOTE) / 2
            _note(axes, zone.label, (up, up + spare, up - spare), room, medium, ground)


def _behind(axes: Axes) -> Axes:
    """A second drawing at the same place, under the lines of events."""
    back = axes.figure.add_axes(
        axes.get_position().bounds, xlim=axes.get_xlim(), ylim=axes.get_ylim(), zorder=BACK
    )
    back.set_axis_off()
    return back


def _low(zone: Zone) -> float:
    return float("-inf") if zone.low is None else zone.low


def draw_levels(axes: Axes, lines: tuple[Line, ...], room: Room, medium: Medium) -> None:
    """Levels such as high output, each named under its line; those far above are left out."""
    for line in lines:
        if line.value > axes.get_ylim()[1]:
            continue
        axes.axhline(line.value, color=medium.palette.ink, linewidth=1.2, dashes=(6, 3), zorder=2)
        level = axes.transData.transform((0, line.value))[1]
        under, over = level - NOTE / 2 - 1, level + NOTE / 2 + 1
        _note(axes, line.label, (under, over), room, medium, medium.palette.paper)


#: Height of a line of small words with its ground.
NOTE = SMALL + 2.5


def _note(
    axes: Axes, words: str, middles: Sequence[float], room: Room, medium: Medium, ground: str
) -> None:
    """Words in the first free place, from the left; without one they are only beside the figure,
    where every zone and level is listed."""
    width = LETTER * len(words) + 4
    box = axes.bbox
    steps = [box.x0 + 3 + share * (box.width - width - 6) for share in (0, 1, 0.5, 0.25, 0.75)]
    places = [
        (x, middle - NOTE / 2, x + width, middle + NOTE / 2)
        for middle in middles
        for x in steps
        if box.y0 <= middle - NOTE / 2 + 1 and middle + NOTE / 2 - 1 <= box.y1
    ]
    found = room.first_free(places)
    if found is None:
        return
    axes.text(
        found[0] + 2,
        (found[1] + found[3]) / 2,
        words,
        transform=IdentityTransform(),
        fontsize=SMALL,
        color=medium.palette.soft,
        ha="left",
        va="center",
        zorder=2,
        bbox={"facecolor": ground, "edgecolor": "none", "pad": 1.0},
    )


def key(sheet: Sheet, drawn: Iterable[Drawn]) -> None:
    """Which line is which, at the right of the title."""
    entries = [(track, look) for track, _, look in drawn]
    x = sheet.medium.width - sum(34 + LETTER * len(t.title) + 8 for t, _ in entries)
    for track, look in entries:
        swatch(sheet, x, 10, **look.of(sheet.medium, MARK))
        sheet.text(x + 28, track.title, color=sheet.medium.palette.ink)
        x += 34 + LETTER * len(track.title) + 8

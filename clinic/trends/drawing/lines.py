"""Values over time as a line with a mark for each visit, over zones and levels."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from matplotlib.axes import Axes
from matplotlib.dates import date2num

from clinic.plans.course_results import Line, Point, Zone
from clinic.trends.drawing.axes import Sheet, swatch
from clinic.trends.drawing.style import LETTER, SMALL, Medium
from clinic.trends.tracks import Track

#: Name a drawn group carries, so that its marks can be told whose data they are.
GROUP = "track-"
#: What lies under the lines of events.
BACK = -2


@dataclass(frozen=True, slots=True)
class Look:
    """How one line of a panel is told from the other: by colour, dashes and shape of marks."""

    marker: str
    dashes: str
    second: bool = False

    def of(self, medium: Medium) -> dict[str, Any]:
        """As the drawing library takes it."""
        palette = medium.palette
        colour = palette.second if self.second else palette.first
        return {
            "color": colour,
            "marker": self.marker,
            "linestyle": self.dashes,
            "linewidth": 1.8,
            "markersize": 6.5,
            "markerfacecolor": palette.paper if self.second else colour,
            "markeredgecolor": colour,
            "markeredgewidth": 1.6,
        }


FIRST = Look("o", "-")
SECOND = Look("s", (0, (4, 2)), second=True)  # type: ignore[arg-type]


def draw_lines(
    axes: Axes, drawn: Iterable[tuple[Track, tuple[Point, ...], Look]], medium: Medium
) -> None:
    """One line a track; its marks stand in the order of the data."""
    for track, points, look in drawn:
        axes.plot(
            date2num([p.day for p in points]),
            [p.value for p in points],
            gid=GROUP + track.key,
            clip_on=False,
            zorder=4,
            **look.of(medium),
        )


def draw_zones(
    axes: Axes, zones: tuple[Zone, ...], points: tuple[Point, ...], medium: Medium
) -> None:
    """Bands of the value axis, every other one shaded, each named where no point is in the way."""
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
        if (high - low) * per_unit >= SMALL + 2:
            middle = (low + high) / 2
            right = _in_the_way(axes, zone.label, middle, points)
            _note(axes, zone.label, middle, medium, ground, right=right)


def _in_the_way(axes: Axes, words: str, y: float, points: tuple[Point, ...]) -> bool:
    """Whether a point lies where ``words`` would stand at the left end, and none at the right."""
    width, left, right = LETTER * len(words) + 10, axes.bbox.x0, axes.bbox.x1
    level = axes.transData.transform((0, y))[1]
    near = [
        x
        for x, up in (axes.transData.transform((date2num(p.day), p.value)) for p in points)
        if abs(up - level) < SMALL
    ]
    return any(x < left + width for x in near) and not any(x > right - width for x in near)


def _behind(axes: Axes) -> Axes:
    """A second drawing at the same place, under the lines of events."""
    back = axes.figure.add_axes(
        axes.get_position().bounds, xlim=axes.get_xlim(), ylim=axes.get_ylim(), zorder=BACK
    )
    back.set_axis_off()
    return back


def _low(zone: Zone) -> float:
    return float("-inf") if zone.low is None else zone.low


def draw_levels(axes: Axes, lines: tuple[Line, ...], medium: Medium) -> None:
    """Levels such as high output, each named under its line; those far above are left out."""
    for line in lines:
        if line.value > axes.get_ylim()[1]:
            continue
        axes.axhline(line.value, color=medium.palette.ink, linewidth=1.2, dashes=(6, 3), zorder=2)
        _note(axes, line.label, line.value, medium, medium.palette.paper, below=True)


def _note(
    axes: Axes,
    words: str,
    y: float,
    medium: Medium,
    ground: str,
    *,
    right: bool = False,
    below: bool = False,
) -> None:
    axes.annotate(
        words,
        (1 if right else 0, y),
        xycoords=axes.get_yaxis_transform(),
        xytext=(-4 if right else 4, -2.5 if below else 0),
        textcoords="offset points",
        fontsize=SMALL,
        color=medium.palette.soft,
        ha="right" if right else "left",
        va="top" if below else "center",
        zorder=2,
        bbox={"facecolor": ground, "edgecolor": "none", "pad": 1.0},
    )


def key(sheet: Sheet, drawn: Iterable[tuple[Track, tuple[Point, ...], Look]]) -> None:
    """Which line is which, at the right of the title."""
    entries = [(track, look) for track, _, look in drawn]
    x = sheet.medium.width - sum(34 + LETTER * len(t.title) + 8 for t, _ in entries)
    for track, look in entries:
        swatch(sheet, x, 10, **look.of(sheet.medium))
        sheet.text(x + 28, track.title, color=sheet.medium.palette.ink)
        x += 34 + LETTER * len(track.title) + 8

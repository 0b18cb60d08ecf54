"""Surgery, plan changes, referrals and answers: lines down through every panel, named on top."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from matplotlib.axes import Axes
from matplotlib.dates import date2num

from clinic import formatting
from clinic.trends.drawing.lines import GROUP
from clinic.trends.drawing.style import LETTER, SMALL, Medium
from clinic.trends.tracks import Mark

LANE = 16.0
KEY = "events"
#: Where the events are drawn again, for the eye alone.
ECHO = "echo"
#: Dashes by the first word of the label.
DASHES: dict[str, tuple[int, ...]] = {
    "Surgery": (),
    "Plan": (5, 3),
    "Referral": (1, 2),
    "Answer": (1, 4),
    "Closed": (),
}
#: How near (in drawing units) events may be put together under one mark, the least that is enough.
TOGETHER = (0.0, 2.0, 4.0, 8.0, 12.0, 16.0, 24.0, 32.0, 48.0, 64.0, 128.0)
#: From the middle of a mark to its left edge, to its label, and room after that.
EDGE, BEFORE, AFTER = 5.0, 7.0, 5.0


@dataclass(frozen=True, slots=True)
class Placed:
    """One mark for one or more events close together: ``lane`` 0 is on top."""

    marks: tuple[Mark, ...]
    lane: int
    label: str
    side: Literal["left", "right"] = "left"

    @property
    def said(self) -> Mark:
        """What the mark says: every event of it."""
        first, *others = self.marks
        if not others:
            return first
        said = [first.said, *(m.said if m.day == first.day else m.words for m in others)]
        return Mark(first.day, "; ".join(said), name="")


def place(marks: Sequence[Mark], medium: Medium, limits: tuple[float, float]) -> list[Placed]:
    """A lane for each label, none on another. What has no room of its own is put together with
    the event before it, and what is of one day always is."""
    per_day = medium.inner / (limits[1] - limits[0])
    xs = [(float(date2num(mark.day)) - limits[0]) * per_day for mark in marks]
    for apart in TOGETHER:
        groups = list(_groups(marks, xs, apart))
        for short in (False, True) if not medium.alive else (True,):
            placed = _lanes(groups, medium, short=short)
            if placed is not None:
                return placed
    return [Placed(tuple(marks), 0, _label(marks, short=True))]


def _groups(
    marks: Sequence[Mark], xs: Sequence[float], apart: float
) -> Iterator[tuple[float, tuple[Mark, ...]]]:
    start, held = 0.0, list[Mark]()
    for mark, x in zip(marks, xs, strict=True):
        if held and x - start > apart:
            yield start, tuple(held)
            held = []
        if not held:
            start = x
        held.append(mark)
    if held:
        yield start, tuple(held)


def _lanes(
    groups: Sequence[tuple[float, tuple[Mark, ...]]], medium: Medium, *, short: bool
) -> list[Placed] | None:
    """None where the labels do not fit."""
    ends = [float("-inf")] * medium.lanes
    found = []
    for x, marks in groups:
        label = _label(marks, short=short)
        width = BEFORE + LETTER * len(label) + AFTER
        flipped = x + width > medium.inner + medium.right
        start, end = (x - width, x + EDGE) if flipped else (x - EDGE, x + width)
        free = [lane for lane, taken in enumerate(ends) if start >= taken]
        if not free:
            return None
        ends[free[0]] = end
        found.append(Placed(marks, free[0], label, "right" if flipped else "left"))
    return found


def _label(marks: Sequence[Mark], *, short: bool) -> str:
    """``Plan 2``, ``P2 R1``, ``P2 +4``."""
    first = _name(marks[0], short=short)
    if len(marks) == 1:
        return first
    return (
        f"{first} {_name(marks[1], short=True)}"
        if len(marks) == 2
        else f"{first} +{len(marks) - 1}"
    )


def _name(mark: Mark, *, short: bool) -> str:
    return mark.short_name if short else mark.name


def height(placed: Sequence[Placed]) -> float:
    """Room for the labels."""
    return (max(one.lane for one in placed) + 1) * LANE + 4


def draw_events(
    axes: Axes, strip: float, placed: Sequence[Placed], medium: Medium, *, echo: bool = False
) -> None:
    """``axes`` covers what the lines run through; its top ``strip`` units hold the labels. One
    unit a unit. ``echo``: drawn already beside another panel, so the marks carry no data."""
    palette = medium.palette
    top = axes.get_ylim()[1]
    xs = [float(date2num(one.marks[0].day)) for one in placed]
    ys = [top - one.lane * LANE - LANE / 2 for one in placed]
    for one, x, y in zip(placed, xs, ys, strict=True):
        for mark in {m.day: m for m in reversed(one.marks)}.values():
            at = float(date2num(mark.day))
            (line,) = axes.plot([at, at], [0, y], color=palette.ink, linewidth=1, clip_on=False)
            if dashes := DASHES.get(mark.name.split()[0], ()):
                line.set_dashes(dashes)
        sign = 1 if one.side == "left" else -1
        axes.annotate(
            one.label,
            (x, y),
            xytext=(BEFORE * sign, 0),
            textcoords="offset points",
            ha=one.side,
            va="center_baseline",
            fontsize=SMALL,
            color=palette.ink,
            zorder=5,
            # Where the line of a later event passes behind the label.
            bbox={"facecolor": palette.paper, "edgecolor": "none", "pad": 0.5},
        )
    axes.plot(
        xs, ys, linestyle="none", marker="v", markersize=7, color=palette.ink, clip_on=False,
        gid=ECHO if echo else GROUP + KEY, zorder=6,
    )  # fmt: skip


def echo_words(placed: Placed) -> str:
    """What the eye needs where the mark is only repeated: names and days."""
    return "; ".join(f"{mark.name}, {formatting.day(mark.day)}" for mark in placed.marks)

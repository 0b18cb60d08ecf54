"""Surgery, plan changes, referrals and answers: lines down through every panel, named on top."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from matplotlib.axes import Axes
from matplotlib.dates import date2num

from clinic.trends.drawing.lines import GROUP
from clinic.trends.drawing.style import LETTER, SMALL, Medium
from clinic.trends.tracks import Mark

LANE = 16.0
MOST_LANES = 4
KEY = "events"
#: Dashes by the first word of the label.
DASHES: dict[str, tuple[int, ...]] = {
    "Surgery": (),
    "Plan": (5, 3),
    "Referral": (1, 2),
    "Answer": (1, 4),
    "Closed": (),
}


@dataclass(frozen=True, slots=True)
class Placed:
    """Where one label is: ``lane`` 0 is on top; no ``label``: there was no room left."""

    mark: Mark
    lane: int
    label: str
    side: Literal["left", "right"] = "left"


def place(marks: Sequence[Mark], medium: Medium, limits: tuple[float, float]) -> list[Placed]:
    """A lane for each label; where all are taken, a short one ("P2"), else the mark alone."""
    ends = [float("-inf")] * MOST_LANES
    found = []
    for mark in marks:
        x = (float(date2num(mark.day)) - limits[0]) * medium.inner / (limits[1] - limits[0])
        found.append(_placed(mark, x, ends, medium))
    return found


def _placed(mark: Mark, x: float, ends: list[float], medium: Medium) -> Placed:
    word, *number = mark.name.split()
    for label in (mark.name, word[0] + "".join(number)):
        width = 8 + LETTER * len(label) + 4
        flipped = x + width > medium.inner + medium.right
        start, end = (x - width, x + 5) if flipped else (x - 5, x + width)
        free = [lane for lane, taken in enumerate(ends) if start >= taken]
        if free:
            ends[free[0]] = end
            return Placed(mark, free[0], label, "right" if flipped else "left")
    return Placed(mark, MOST_LANES - 1, "")


def height(placed: Sequence[Placed]) -> float:
    """Room for the labels."""
    return (max(one.lane for one in placed) + 1) * LANE + 4


def draw_events(axes: Axes, strip: float, placed: Sequence[Placed], medium: Medium) -> None:
    """``axes`` covers every panel; its top ``strip`` units hold the labels. One unit a unit."""
    palette = medium.palette
    top = axes.get_ylim()[1]
    xs = [float(date2num(one.mark.day)) for one in placed]
    ys = [top - one.lane * LANE - LANE / 2 for one in placed]
    for one, x, y in zip(placed, xs, ys, strict=True):
        dashes = DASHES.get(one.mark.name.split()[0], ())
        (line,) = axes.plot([x, x], [0, y], color=palette.ink, linewidth=1, clip_on=False)
        if dashes:
            line.set_dashes(dashes)
        if one.label:
            sign = 1 if one.side == "left" else -1
            axes.annotate(
                one.label,
                (x, y),
                xytext=(7 * sign, 0),
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
        gid=GROUP + KEY, zorder=6,
    )  # fmt: skip

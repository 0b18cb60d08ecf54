"""The skin of each visit as a small clock face, 12 towards the head, over its date."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from datetime import date

from matplotlib.axes import Axes
from matplotlib.dates import date2num
from matplotlib.patches import Circle, Wedge
from matplotlib.transforms import Affine2D, ScaledTranslation, Transform

from clinic.plans.course_results import Face
from clinic.trends.drawing.style import Medium

FACE = "faces-"
RADIUS = 10.5
LANE = 25.0
#: The stoma itself, as a share of the radius.
STOMA = 0.34
SECTOR = 15  # degrees either side of the hour


def lanes_of(days: Sequence[date], medium: Medium, days_shown: float) -> tuple[int, ...]:
    """A lane for each face, as many as it takes that none lies on another."""
    ends: list[float] = []
    found = []
    for day in days:
        x = float(date2num(day)) * medium.inner / days_shown
        free = [lane for lane, end in enumerate(ends) if x - end >= 2 * RADIUS + 2]
        lane = free[0] if free else len(ends)
        ends[lane:] = [x, *ends[lane + 1 :]]
        found.append(lane)
    return tuple(found)


def draw_faces(
    axes: Axes,
    faces: tuple[Face, ...],
    lanes: tuple[int, ...],
    medium: Medium,
    *,
    named: str = FACE,
    unknown: Collection[int] = (),
) -> None:
    """The first lane lies lowest, next to the line of the burden below it. ``unknown``: which of
    them nothing was recorded for."""
    count = max(lanes) + 1
    axes.set_ylim(0, count)
    for number, (face, lane) in enumerate(zip(faces, lanes, strict=True)):
        x, y = float(date2num(face.day)), lane + 0.5
        if lane:
            axes.plot([x, x], [0, y], color=medium.palette.grid, linewidth=0.8, zorder=1)
        where = Affine2D().scale(RADIUS) + ScaledTranslation(x, y, axes.transData)  # type: ignore[arg-type]
        name = f"{named}{number}"
        _face(axes, face, name, where, medium, 3 + number * 0.001, number in unknown)


def _face(
    axes: Axes, face: Face, name: str, where: Transform, medium: Medium, order: float, unknown: bool
) -> None:
    palette = medium.palette
    axes.add_patch(
        Circle(
            (0, 0),
            1,
            transform=where,
            facecolor=palette.paper,
            edgecolor=palette.ink,
            linewidth=1.1,
            gid=name,
            linestyle="dotted" if unknown else "solid",
            clip_on=False,
            zorder=order,
        )
    )
    for hour in face.hours:
        axes.add_patch(
            Wedge(
                (0, 0),
                0.97,
                90 - 30 * hour - SECTOR,
                90 - 30 * hour + SECTOR,
                width=0.97 - STOMA,
                transform=where,
                facecolor=palette.bars["leak"].face,
                linewidth=0,
                clip_on=False,
                zorder=order + 0.0003,
            )
        )
    if unknown:
        _unplaced(axes, where, medium, order + 0.0008)
        return
    axes.add_patch(
        Circle(
            (0, 0),
            STOMA,
            transform=where,
            facecolor=palette.paper,
            edgecolor=palette.ink,
            linewidth=0.9,
            clip_on=False,
            zorder=order + 0.0006,
        )
    )
    if not face.intact and not len(face.hours):
        _unplaced(axes, where, medium, order + 0.0008)


def _unplaced(axes: Axes, where: Transform, medium: Medium, order: float) -> None:
    """Something whose hours no one recorded, or a visit that says nothing of it."""
    axes.text(
        0, 0, "?", transform=where, ha="center", va="center", fontsize=11, zorder=order,
        color=medium.palette.ink,
    )  # fmt: skip

"""The stoma's edge measured on a photo: marks in pixels in, millimetres with their error out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, Final

import numpy as np

from planning.geometry.outline import ellipse
from planning.geometry.photo_card import read_card
from planning.geometry.photo_error import Budget, budget_of, check_error
from planning.geometry.photo_marks import Card, Line, Mark, Marks, check_marks
from planning.geometry.photo_plane import Array, Plane, card_plane, line_plane
from planning.geometry.photo_possible import Pixels, possible_by_card, possible_by_line
from planning.geometry.photo_setting import Askew, Rounded, Setting
from planning.geometry.photo_shape import check_edge, middle_of, sizes_of, smooth
from planning.inputs.clock import SECTOR_DEGREES

#: Raise it whenever the same marks would give other figures.
PHOTO_RULES: Final = "photo.2"


@dataclass(frozen=True, slots=True)
class Sized:
    """``value`` give or take ``error``, both in mm, or both in mm²."""

    value: float
    error: float


@dataclass(frozen=True)
class PhotoMeasurement:
    """What the marks give.

    ``axis_hour`` is the hour 1 to 6 (6: from 12 to 6) that the length points to; None
    where the stoma is nearly round. ``irregular``: some radius is further from an ellipse than its
    error. ``radii`` are at 1 to 12 o'clock; ``edge_mm`` is closed, x to the right, y to the head,
    from the middle. ``budget`` says where the errors come from.
    """

    length: Sized
    width: Sized
    area: Sized
    axis_degrees: float
    axis_hour: int | None
    radii: tuple[Sized, ...]
    irregular: bool
    edge_mm: tuple[tuple[float, float], ...]
    budget: Budget
    rules: str = PHOTO_RULES

    def as_dict(self) -> dict[str, Any]:
        """Plain values for keeping, to a thousandth of a mm."""

        def plain(sized: Sized) -> list[float]:
            return [round(sized.value, 3), round(sized.error, 3)]

        return {
            "length_mm": plain(self.length),
            "width_mm": plain(self.width),
            "area_mm2": plain(self.area),
            "axis_degrees": self.axis_degrees,
            "axis_hour": self.axis_hour,
            "radii_mm": [plain(radius) for radius in self.radii],
            "irregular": self.irregular,
            "rules": self.rules,
        }


def measure(marks: Marks) -> PhotoMeasurement:
    """Raises a ``PhotoError`` that says which marks give no measurement and why."""
    check_marks(marks)
    reference, outline = _pixels(marks.reference.marks), _pixels(marks.outline)
    edge_px = smooth(outline)
    check_edge(edge_px)
    pixels = Pixels.of(edge_px, marks.head_degrees)
    if isinstance(marks.reference, Card):
        sds = np.array([mark.sd for mark in marks.reference.marks])
        card = read_card(reference, sds, marks.setting.picture)
        # From here on in the order in which they go round.
        a, b, c, d = (marks.reference.corners[i] for i in card.order)
        marks = replace(marks, reference=Card((a, b, c, d)))
        reference = reference[list(card.order)]
        check_edge(_edge(marks, reference, outline, marks.head_degrees))
        possible = possible_by_card(marks, card, pixels)
    else:
        possible = possible_by_line(marks, marks.reference, reference, pixels)
    budget = budget_of(
        marks,
        lambda r, o, head: sizes_of(_edge(marks, r, o, head)).vector,
        reference,
        outline,
        possible,
    )
    check_error(budget)
    edge = _edge(marks, reference, outline, marks.head_degrees)
    return _measurement(edge, budget)


def _pixels(marks: tuple[Mark, ...]) -> Array:
    return np.array([(m.x, m.y) for m in marks], dtype=np.float64)


def _plane(marks: Marks, reference: Array) -> Plane:
    if isinstance(marks.reference, Card):
        return card_plane(reference)
    return line_plane(reference, marks.reference.length_mm)


def _edge(marks: Marks, reference: Array, outline: Array, head_degrees: float) -> Array:
    """The edge on the reference's own plane in mm, the head upwards."""
    return Pixels.of(smooth(outline), head_degrees).upright(_plane(marks, reference))


def _measurement(edge: Array, budget: Budget) -> PhotoMeasurement:
    length, width, area, difference, *radii = (
        Sized(v, e) for v, e in zip(budget.values, budget.errors, strict=True)
    )
    sizes = sizes_of(edge)
    hour = round(sizes.bearing / SECTOR_DEGREES) % 6 or 6
    whole = ellipse(length.value, width.value, sizes.bearing)
    drawn = (edge - middle_of(edge)) * (length.value / sizes.length)
    return PhotoMeasurement(
        length=length,
        width=width,
        area=area,
        axis_degrees=sizes.bearing,
        axis_hour=hour if difference.value > difference.error else None,
        radii=tuple(radii),
        irregular=any(
            abs(r.value - whole.radius_at(h)) > r.error for h, r in enumerate(radii, start=1)
        ),
        edge_mm=tuple((float(x), float(y)) for x, y in drawn),
        budget=budget,
    )


__all__ = [
    "PHOTO_RULES",
    "Askew",
    "Card",
    "Line",
    "Mark",
    "Marks",
    "PhotoMeasurement",
    "Rounded",
    "Setting",
    "Sized",
    "measure",
]

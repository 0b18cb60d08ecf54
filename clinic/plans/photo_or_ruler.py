"""A stoma's size measured on a photo that contradicts the size on record: which is right."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any
from uuid import UUID

from clinic.formatting import number
from clinic.plans.photo_measurement import as_typed, tenth
from clinic.visits.models import Assessment, PhotoMeasurement
from planning.geometry.photo import Sized
from planning.geometry.photo_agreement import contradicts


@dataclass(frozen=True)
class Disputed:
    """``photo_says`` is the photo's size with its error; ``recorded`` the size on record, mm."""

    photo: UUID
    photo_says: str
    recorded: str

    @property
    def question(self) -> str:
        """Such as *Which size is right: 44 × 40 mm as recorded, or …?*"""
        return f"Which size is right: {self.recorded} mm as recorded, or {self.photo_says}?"


def disputed(assessment: Assessment) -> list[Disputed]:
    """Photos of this assessment whose size cannot be the recorded one, and of which no one has
    said yet that the recorded one is right. Nothing where either side was not measured."""
    measured = PhotoMeasurement.objects.filter(photo__assessment=assessment).order_by("photo_id")
    recorded = recorded_size(assessment)
    return [
        Disputed(row.photo_id, str(row.result["words"]), recorded)
        for row in measured
        if row.recorded_is_right != recorded and _contradicts(row.result, assessment)
    ]


def recorded_size(assessment: Assessment) -> str:
    """Length and width on record, as ``44 × 40``; a side not recorded is ``?``."""
    stoma = getattr(assessment, "measurement", None)
    sides = (stoma.length_mm, stoma.width_mm) if stoma else (None, None)
    return " × ".join("?" if side is None else number(side) for side in sides)


def values_from(measured: PhotoMeasurement, *, radii: bool) -> dict[str, list[str]]:
    """Fields of the visit page -> what the photo gives, as it would be typed."""
    found = measured.result
    return as_typed(
        *(tenth(found[name][0]) for name in ("length_mm", "width_mm")),
        hour=found["axis_hour"],
        radii=[tenth(value) for value, _ in found["radii_mm"]] if radii else None,
    )


def _contradicts(found: dict[str, Any], assessment: Assessment) -> bool:
    stoma = getattr(assessment, "measurement", None)
    if stoma is None:
        return False
    pairs = (("length_mm", stoma.length_mm), ("width_mm", stoma.width_mm))
    return any(
        contradicts(Sized(*found[name]), float(size)) for name, size in pairs if size is not None
    )

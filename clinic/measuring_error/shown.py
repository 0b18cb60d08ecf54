"""A repeat in words: both readings side by side, how far apart, whether it counts."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from clinic import formatting
from clinic.repeats.models import RepeatMeasurement
from clinic.visits.models import Assessment

LABELS = (
    ("length_mm", "Length", "mm"),
    ("width_mm", "Width", "mm"),
    ("protrusion_mm", "Protrusion", "mm"),
    ("area_mm2", "Damaged skin", "mm²"),
)


@dataclass(frozen=True)
class Line:
    """One measure: the visit's own figure, the repeat's, and how far apart; "" where not both."""

    label: str
    own: str
    again: str
    apart: str


@dataclass(frozen=True)
class Shown:
    repeat: RepeatMeasurement
    lines: tuple[Line, ...]

    @property
    def kind(self) -> str:
        if self.repeat.first_by is None:
            return "not known"
        return "one nurse" if self.repeat.same_nurse else "two nurses"


def shown(repeat: RepeatMeasurement) -> Shown:
    return Shown(repeat, tuple(_line(repeat, *one) for one in LABELS))


def _line(repeat: RepeatMeasurement, name: str, label: str, unit: str) -> Line:
    own, again = getattr(repeat, f"first_{name}"), getattr(repeat, name)
    apart = "" if own is None or again is None else _figure(abs(again - own), unit)
    return Line(label, _figure(own, unit), _figure(again, unit), apart)


def _figure(value: Decimal | None, unit: str) -> str:
    """An area, which is worked out, to whole mm²."""
    if value is None:
        return ""
    return f"{formatting.number(round(value) if unit == 'mm²' else value)} {unit}"


def repeats_of(assessment: Assessment) -> list[Shown]:
    """Those of one assessment, for its visit."""
    rows = assessment.repeatmeasurement_rows.select_related("measured_by", "first_by")
    return [shown(row) for row in rows]

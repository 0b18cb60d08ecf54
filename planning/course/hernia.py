"""Parastomal hernia: the open classes of the European Hernia Society, and whether a bulge grows."""

from __future__ import annotations

from planning.evidence.thresholds import HERNIA_SMALL
from planning.inputs.usable_numbers import check_numbers

#: Cited for the classes; their authors and a later guideline call them not yet validated.
CLASSES = ("smietanski2014/classes", "antoniou2018/not_validated")
NO_TYPE = "European Hernia Society class: no type, as the defect in the muscle was not measured"


def hernia_type(defect_mm: float | None, *, incisional: bool | None) -> str | None:
    """Class ``I`` to ``IV``: size of the defect in the muscle (mm), and whether there is an
    incisional hernia too. None unless both are known; a bulge on the skin is no defect size."""
    check_numbers(defect_mm=defect_mm, low=0)
    if defect_mm is None or incisional is None:
        return None
    if defect_mm <= HERNIA_SMALL.value:
        return "II" if incisional else "I"
    return "IV" if incisional else "III"

"""The planner's limits and open classes that the register of complications shows."""

from __future__ import annotations

from decimal import Decimal

from planning.course.hernia import CLASSES, hernia_type
from planning.evidence.citation import cite
from planning.evidence.thresholds import RETRACTED_AT
from planning.geometry.burden import DAMAGE

RETRACTED_MM = RETRACTED_AT.value
#: Kinds of skin finding that are damage.
SKIN_DAMAGE = frozenset(str(kind.value) for kind in DAMAGE)
_MM = 10


def hernia_class(defect_cm: Decimal | None, *, incisional: bool | None) -> str:
    """``I`` to ``IV`` by what was measured; "" unless both are known.

    >>> hernia_class(Decimal("5.0"), incisional=False), hernia_class(None, incisional=True)
    ('I', '')
    """
    defect_mm = None if defect_cm is None else float(defect_cm * _MM)
    return hernia_type(defect_mm, incisional=incisional) or ""


def hernia_class_sources() -> str:
    """Where the classes come from."""
    return cite(CLASSES)

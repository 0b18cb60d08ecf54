"""The skin of one visit as figures: damaged area and damaged hours."""

from __future__ import annotations

from planning.geometry.burden import DAMAGE, skin_burden
from planning.geometry.outline import outline_of
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Findings


def burden_of(findings: Findings) -> float | None:
    """Damaged area, mm2; 0 looked and none, None not known."""
    return skin_burden(findings.skin, outline_of(findings.measurement))


def damaged(findings: Findings) -> bool | None:
    """Whether any skin was damaged; None: not looked at."""
    if findings.skin is None:
        return None
    return any(f.kind in DAMAGE for f in findings.skin)


def damaged_hours(findings: Findings) -> ClockHours:
    """Where; empty also where no one looked."""
    return ClockHours.union(f.hours for f in findings.skin or () if f.kind in DAMAGE)


def damage_kinds(findings: Findings) -> tuple[str, ...]:
    """What, in words, in the order charted."""
    kinds = (f.kind.value.replace("_", " ") for f in findings.skin or () if f.kind in DAMAGE)
    return tuple(dict.fromkeys(kinds))

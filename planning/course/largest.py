"""The largest of what a visit found of a kind, in mm: prolapse, bulge, separation.

0 where someone looked and found none; None where no one looked, or one was not measured.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TypeVar

from planning.inputs.findings import Findings

Found = TypeVar("Found")


def prolapse_mm(findings: Findings) -> float | None:
    """Beyond the stoma's usual length."""
    return _largest(findings.measurement.prolapse, lambda one: one.extra_length_mm)


def bulge_height_mm(findings: Findings) -> float | None:
    return _largest(findings.abdomen.bulges, lambda one: one.height_mm)


def bulge_width_mm(findings: Findings) -> float | None:
    return _largest(findings.abdomen.bulges, lambda one: one.width_mm)


def separation_mm(findings: Findings) -> float | None:
    """The deepest place where the mucocutaneous junction is apart."""
    return _largest(findings.measurement.junction, lambda one: one.depth_mm)


def _largest(found: Sequence[Found] | None, size: Callable[[Found], float | None]) -> float | None:
    if found is None:
        return None
    known = [mm for one in found if (mm := size(one)) is not None]
    return max(known, default=0.0) if len(known) == len(found) else None

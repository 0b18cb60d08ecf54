"""Classes of a gap beside the stoma, by its depth alone; design values."""

from __future__ import annotations

import pytest

from planning.facts.separation import SeparationClass, separation_class
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Separation

C = SeparationClass


@pytest.mark.parametrize(
    ("depth_mm", "found"),
    [
        (1.9, C.LINE),
        (2.0, C.SHALLOW),
        (5.0, C.SHALLOW),
        (5.1, C.DEEP),
        (20.0, C.DEEP),
        (20.1, C.VERY_DEEP),
    ],
)
def test_a_gap_is_a_line_shallow_deep_or_very_deep(depth_mm: float, found: C) -> None:
    gap = Separation(ClockHours.of(5, 6), depth_mm=depth_mm, base_visible=True)
    assert separation_class((gap,), 10) is found

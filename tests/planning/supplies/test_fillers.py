"""How deep a crease each filler fills."""

from __future__ import annotations

import pytest

from planning.inputs.findings import Crease
from planning.needs import needs_of
from planning.results.plan import Need
from planning.supplies.catalogue import SUPPLIES
from planning.supplies.options import meets
from tests.planning.builders import LOW, leaking, situation


@pytest.mark.parametrize(
    ("filler", "depth_mm", "fills"),
    [
        ("paste", 2.0, True),
        ("paste", 2.1, False),
        ("ring", 4.5, True),
        ("ring", 4.6, False),
        ("strip", 8.0, True),
        ("strip", 8.1, False),
    ],
)
def test_a_crease_is_filled_no_deeper_than_the_filler_holds(
    filler: str, depth_mm: float, fills: bool
) -> None:
    """Paste to 2 mm, at most two strips on one another: design values; a ring of 4.5 mm and a
    strip of 4 mm: common practice."""
    leaks = situation(leaking(creases=(Crease(LOW, depth_mm),)))
    (need,) = (need for need in needs_of(leaks) if need.key == "fill_crease")
    assert meets(SUPPLIES[filler], need, frozenset()) is fills


@pytest.mark.parametrize(("gap_mm", "levels"), [(13.5, True), (13.6, False)])
def test_a_low_side_is_levelled_by_three_half_rings_at_most(gap_mm: float, levels: bool) -> None:
    """By hand: three (design value) of 4.5 mm each (common practice)."""
    need = Need("level_low_side", "", (), gap_mm, "mm", LOW)
    assert meets(SUPPLIES["half_ring"], need, frozenset()) is levels

"""What is easier and what is harder: for the hands, for the eyes, on the skin (design values)."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

import pytest

from planning.inputs.findings import Ability, Person
from planning.supplies.catalogue import SUPPLIES
from planning.supplies.options import effort_of

#: From the easiest to the hardest; within one place nothing is harder than the rest.
FOR_HANDS = (
    # Nothing to do, stuck on or sprinkled.
    {"pre_cut", "one_piece", "flat_flexible", "concave", "powder", "protectant", "drainable"},
    # Laid in place, coupled or bent.
    {"ring", "paste", "belt", "two_piece", "antifungal_powder", "soft_convex_shallow",
     "firm_convex_deep"},
    # Cut, shaped or packed.
    {"cut_to_fit", "mouldable", "half_ring", "strip", "absorbent_dressing", "support_garment"},
)  # fmt: skip
FOR_EYES = (
    # By feel alone.
    {"pre_cut", "one_piece", "two_piece", "powder", "protectant", "belt", "support_garment"},
    # Put in the right place.
    {"ring", "paste", "strip", "mouldable"},
    # Along a line, or to the right side.
    {"cut_to_fit", "half_ring", "absorbent_dressing"},
)
DEPTHS = ("shallow", "moderate", "deep")


@pytest.mark.parametrize(("asks", "order"), [("hands", FOR_HANDS), ("eyes", FOR_EYES)])
def test_what_is_cut_or_shaped_asks_most(asks: str, order: tuple[set[str], ...]) -> None:
    effort = [{getattr(SUPPLIES[key], asks) for key in place} for place in order]
    assert all(len(alike) == 1 for alike in effort)
    assert all(max(easier) < min(harder) for easier, harder in pairwise(effort))


@pytest.mark.parametrize(
    "steps",
    [
        ("flat_flexible", *(f"soft_convex_{depth}" for depth in DEPTHS)),
        *((f"soft_convex_{depth}", f"firm_convex_{depth}") for depth in DEPTHS),
        ("flat_flexible", "flat_firm"),
        ("drainable", "belt"),
        ("drainable", "support_garment"),
    ],
)
def test_each_step_deeper_or_firmer_presses_one_more(steps: tuple[str, ...]) -> None:
    pressure = [SUPPLIES[key].press for key in steps]
    assert all(more - less == 1 for less, more in pairwise(pressure))


@pytest.mark.parametrize("sense", ["dexterity", "eyesight"])
def test_cutting_is_harder_the_less_hands_and_eyes_can_do(sense: str) -> None:
    """Not recorded as good; one hand as none."""

    def effort(can: Ability | None) -> int:
        limited: dict[str, Any] = {sense: can}
        return effort_of(Person(**limited))["cut_to_fit"]

    assert effort(None) == effort(Ability.GOOD) < effort(Ability.LIMITED) < effort(Ability.NONE)
    assert effort(Ability.ONE_HAND) == effort(Ability.NONE)

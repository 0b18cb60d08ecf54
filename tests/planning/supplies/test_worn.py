"""What is worn now, as far as it was recorded."""

from __future__ import annotations

from typing import Any

import pytest

from planning.inputs.findings import Accessory, ConvexDepth, Degree, History, Profile, Trial
from planning.supplies.catalogue import CONVEX, FLAT, Slot
from planning.supplies.worn import worn_now
from tests.planning.builders import situation, well

MORE, LESS = Degree.MORE, Degree.LESS
SOFT = {key for key in CONVEX if key.startswith("soft")}


@pytest.mark.parametrize(
    ("system", "possible"),
    [
        ({}, {"flat_flexible"}),
        ({"flexibility": LESS}, {"flat_firm"}),
        ({"flexibility": None}, FLAT),
        ({"profile": None}, set()),
        ({"profile": Profile.CONCAVE}, {"concave"}),
        ({"profile": Profile.CONVEX, "flexibility": None}, CONVEX),
        ({"profile": Profile.CONVEX, "flexibility": MORE}, SOFT),
        ({"profile": Profile.CONVEX, "flexibility": None, "compressibility": MORE}, SOFT),
        # Soft in one respect is soft.
        ({"profile": Profile.CONVEX, "flexibility": LESS, "compressibility": MORE}, SOFT),
        ({"profile": Profile.CONVEX, "flexibility": LESS}, CONVEX - SOFT),
        ({"profile": Profile.CONVEX, "flexibility": LESS, "convex_depth": ConvexDepth.DEEP},
         {"firm_convex_deep"}),
        # A depth that was measured goes before its class.
        ({"profile": Profile.CONVEX, "flexibility": LESS, "convex_depth_mm": 2.0},
         {"firm_convex_shallow"}),
    ],
)  # fmt: skip
def test_which_barrier_it_may_be(system: dict[str, Any], possible: set[str]) -> None:
    worn = worn_now(situation(well(**system)).facts)
    assert worn.possible == possible
    assert worn.barrier_certain is (len(possible) == 1)


OTHERS = {"two_piece", "cut_to_fit", "drainable"}
PLANS = (Trial(frozenset({"other_material"})), Trial(frozenset({"extended_wear", "ring"})))


@pytest.mark.parametrize(
    ("system", "plans", "others"),
    [
        ({}, (), OTHERS),
        ({"pieces": None, "pouch": None}, (), {"cut_to_fit"}),
        ({"tape_border": True}, (), OTHERS | {"tape"}),
        ({"accessories": frozenset({Accessory.POWDER})}, (), OTHERS | {"powder"}),
        # The prescribed powder is the one that is meant.
        ({"accessories": frozenset({Accessory.POWDER, Accessory.ANTIFUNGAL_POWDER})}, (),
         OTHERS | {"antifungal_powder"}),
        # Of the material only the last plan tells, and of nothing else.
        ({}, PLANS, OTHERS | {"extended_wear"}),
    ],
)  # fmt: skip
def test_what_else_is_worn(
    system: dict[str, Any], plans: tuple[Trial, ...], others: set[str]
) -> None:
    worn = worn_now(situation(well(**system), History(trials=plans)).facts)
    assert worn.others == others


def test_known_is_what_was_recorded() -> None:
    assert worn_now(situation(well()).facts).known
    nothing = worn_now(situation(well(system=None)).facts)
    assert not nothing.known
    assert nothing.keys == set()


def test_what_lies_in_one_place() -> None:
    worn = worn_now(situation(well(accessories=frozenset({Accessory.BELT}))).facts)
    assert worn.in_slot(Slot.BELT) == {"belt"}
    assert worn.in_slot(Slot.BARRIER) == {"flat_flexible"}
    assert worn.in_slot(Slot.RING) == set()

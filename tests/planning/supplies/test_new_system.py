"""When a system counts as another one, and what of it was begun."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning.inputs.findings import (
    Ability,
    Accessory,
    History,
    Person,
    SkinKind,
    Trial,
)
from planning.pipeline import choose
from planning.supplies.system_choice import is_new_system
from planning.supplies.worn import worn_now
from tests.planning.builders import LOW, leaking, raw, seen, situation, well

WORN = {"flat_flexible", "two_piece", "cut_to_fit", "drainable"}


def planned(*plans: set[str]) -> History:
    return History(trials=tuple(Trial(frozenset(plan), helped=True) for plan in plans))


@pytest.mark.parametrize(
    ("chosen", "system", "plans", "new"),
    [
        (WORN, {}, (), False),
        (WORN | {"ring", "belt", "pre_cut", "closed"}, {}, (), False),
        ({"soft_convex_shallow"}, {}, (), True),
        ({"one_piece"}, {}, (), True),
        # What was not recorded is not known to be another.
        ({"one_piece"}, {"pieces": None}, (), False),
        ({"soft_convex_shallow"}, {"profile": None}, (), False),
        ({"soft_convex_shallow", "one_piece"}, {"system": None}, (), False),
        # Of the material only the last plan tells.
        ({"extended_wear"}, {}, (), True),
        ({"other_material"}, {}, ({"extended_wear"},), True),
        ({"extended_wear"}, {}, ({"extended_wear"},), False),
        ({"extended_wear"}, {"system": None}, ({"extended_wear"},), False),
        ({"extended_wear"}, {}, ({"extended_wear"}, {"ring"}), True),
    ],
)
def test_another_system(
    chosen: set[str], system: dict[str, Any], plans: tuple[set[str], ...], new: bool
) -> None:
    facts = situation(well(**system), planned(*plans)).facts
    assert is_new_system(frozenset(chosen), worn_now(facts), facts) is new


def test_what_is_begun_is_chosen_and_was_not_worn() -> None:
    ring = frozenset({Accessory.RING})
    choice = choose(situation(leaking(protrusion_mm=0.0, accessories=ring)))
    assert choice.started("soft_convex_shallow")
    assert not choice.started("ring")
    assert not choice.started("belt")
    assert choice.new_system
    assert not choose(situation(well(leak=LOW, skin=(raw(),)))).new_system


def test_what_the_log_says_of_the_old_system_holds_for_the_kept_one_alone() -> None:
    """Only the care of the skin changes: the barrier is the same."""
    kept = choose(situation(well(skin=(seen(SkinKind.STRIPPING),))))
    assert not kept.new_system
    assert kept.started("adhesive_remover")


def test_the_barrier_of_a_system_not_recorded_is_left_open_where_nothing_speaks_for_one() -> None:
    known = choose(situation(well()))
    assert known.barrier == "flat_flexible"
    assert "flat_flexible" in known.keys
    open_ = choose(situation(well(system=None)))
    assert open_.barrier is None
    assert "flat_flexible" in open_.best.keys
    assert "flat_flexible" not in open_.supplies
    # The clinician named it.
    assert replace(open_, fixed=frozenset({"flat_flexible"})).barrier == "flat_flexible"
    sore = choose(situation(replace(well(skin=(seen(SkinKind.STRIPPING),)), system=None)))
    assert "adhesive_remover" in sore.supplies
    assert sore.barrier is None
    # A flush stoma with burnt skin asks for a dome, whatever is worn.
    flush = replace(well(protrusion_mm=0.0, skin=(raw(),)), system=None)
    assert choose(situation(flush)).barrier == "soft_convex_shallow"


def test_who_cannot_cut_is_helped_where_no_ready_cut_opening_serves() -> None:
    weak = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
    assert choose(situation(leaking(person=weak))).cut_by_helper
    assert not choose(situation(leaking())).cut_by_helper


def test_a_choice_keeps_nothing_and_waits_for_nothing_of_itself() -> None:
    choice = choose(situation(leaking(protrusion_mm=0.0)))
    assert not choice.kept
    assert not choice.waits
    assert choice.convex
    assert not choose(situation(well())).convex

"""The one definition of a change."""

from __future__ import annotations

from typing import Any

import pytest

from planning.inputs.findings import Accessory, PouchKind
from planning.supplies.catalogue import Slot
from planning.supplies.changed_parts import changed_parts, part_names
from planning.supplies.worn import worn_now
from tests.planning.builders import situation, well

KEPT = {"flat_flexible", "two_piece", "cut_to_fit", "drainable"}
POWDER = frozenset({Accessory.POWDER})


def parts(
    supplies: set[str], *, build: bool = False, opening: bool = False, **worn: Any
) -> set[str]:
    now = worn_now(situation(well(**worn)).facts)
    return set(changed_parts(now, frozenset(supplies), build=build, opening=opening))


@pytest.mark.parametrize(
    ("supplies", "how", "changed"),
    [
        (KEPT, {}, set()),
        (KEPT | {"ring"}, {}, {"ring"}),
        (KEPT, {"accessories": frozenset({Accessory.BELT})}, {"belt"}),
        (KEPT, {"opening": True}, {"opening"}),
        # A swapped barrier with its opening is one.
        (KEPT | {"soft_convex_shallow"}, {"build": True, "opening": True}, {"barrier"}),
        # One piece with its pouch is one.
        ({"flat_flexible", "one_piece", "cut_to_fit", "drainable_large"}, {"build": True},
         {"barrier"}),
        (KEPT - {"drainable"} | {"high_output"}, {}, {"pouch"}),
        # Powder with or without film is one; film alone is one; both are care of the skin.
        (KEPT | {"powder", "protectant"}, {}, {"skin_care"}),
        (KEPT | {"protectant"}, {}, {"skin_care"}),
        # The build is judged as a whole, and told apart by its caller.
        (KEPT | {"extended_wear", "other_material"}, {}, set()),
        # None: a remover, the dressing of a wound.
        (KEPT | {"adhesive_remover", "absorbent_dressing"}, {}, set()),
        # What was not recorded is not known to change.
        (KEPT, {"pouch": None}, set()),
        (KEPT - {"drainable"} | {"closed"}, {"pouch": PouchKind.CLOSED}, set()),
        # Nor is what the plan leaves open.
        (KEPT - {"drainable"}, {}, set()),
        (KEPT - {"cut_to_fit"}, {}, set()),
        # One powder for another is a change; the same one is none.
        (KEPT | {"antifungal_powder"}, {"accessories": POWDER}, {"skin_care"}),
        (KEPT | {"powder"}, {"accessories": POWDER}, set()),
    ],
)  # fmt: skip
def test_one_definition(supplies: set[str], how: dict[str, Any], changed: set[str]) -> None:
    assert parts(supplies, **how) == changed


@pytest.mark.parametrize(
    ("slot", "names"),
    [
        (Slot.MATERIAL, {"barrier"}),
        (Slot.OPENING, {"opening", "barrier"}),
        (Slot.POUCH, {"pouch", "barrier"}),
        (Slot.POWDER, {"skin_care"}),
        (Slot.PROTECTANT, {"skin_care"}),
        (Slot.BELT, {"belt"}),
        (Slot.WOUND, set()),
        (Slot.REMOVER, set()),
    ],
)
def test_under_which_parts_a_change_is_counted(slot: Slot, names: set[str]) -> None:
    assert part_names(slot) == names

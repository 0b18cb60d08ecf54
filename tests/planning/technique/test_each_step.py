"""Each step of the change: findings that put it on the sheet, and those that do not."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Bulge,
    Contour,
    Crease,
    LumenPosition,
    Person,
    Pieces,
    PouchKind,
    Separation,
    SkinKind,
    StomaKind,
    UrineSign,
)
from planning.results.plan import Plan
from planning.technique import RULES
from tests.planning.builders import LOW, raw, seen, well

Changes = dict[str, Any]
LEAK: Changes = {"leak": LOW, "skin": (raw(),)}
URO: Changes = {"kind": StomaKind.UROSTOMY}
WEAK = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
FLUSH: Changes = LEAK | {"protrusion_mm": 0.0}
BULGE: Changes = LEAK | {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}
VEINS: Changes = {"skin": (raw(), seen(SkinKind.DILATED_VEINS))}
STRIPPED: Changes = {"leak": LOW, "skin": (seen(SkinKind.STRIPPING, moist=False),)}


def worn(*accessories: Accessory) -> Changes:
    return {"accessories": frozenset(accessories)}


#: Part of every change.
ALWAYS = ["lay_out", "empty", "peel", "read_back", "clean", "check", "apply", "note_date"]

#: Step, findings with it, findings without it.
SOMETIMES: list[tuple[str, Changes, Changes]] = [
    ("quiet_time", LEAK, LEAK | URO),
    ("early_morning", LEAK | URO, LEAK),
    ("lie_down", BULGE, LEAK),
    ("remove_with_remover", STRIPPED, LEAK),
    ("vinegar", URO | {"leak": LOW, "urine_signs": frozenset({UrineSign.CRYSTALS})}, LEAK | URO),
    ("wick", LEAK | URO, LEAK),
    ("dry", LEAK, LEAK | VEINS),
    ("dry_veins", LEAK | VEINS, LEAK),
    ("measure", LEAK | {"days_since_surgery": 55}, LEAK | {"days_since_surgery": 56}),
    ("trim", LEAK | {"skin": (seen(SkinKind.HAIR_PUSTULES),)}, LEAK),
    ("fill_wound", LEAK | {"junction": (Separation(LOW, 5.0, True, False),)}, LEAK),
    ("powder", LEAK, LEAK | {"skin": ()}),
    ("brush_off", LEAK, LEAK | {"skin": ()}),
    ("seal_powder", LEAK, LEAK | {"skin": ()}),
    ("repeat_layers", LEAK, LEAK | {"skin": ()}),
    ("film", {"accessories": frozenset({Accessory.PROTECTANT})}, LEAK),
    ("cut_opening", LEAK, LEAK | {"length_mm": None}),
    ("cut_after_measuring", LEAK | {"days_since_surgery": 55}, LEAK),
    ("take_cut_ahead", LEAK | {"person": WEAK}, LEAK),
    ("helper_cuts", LEAK | {"person": WEAK, "days_since_surgery": 55}, LEAK | {"person": WEAK}),
    ("stretch_skin", LEAK | {"contour": Contour.PENDULOUS}, LEAK),
    ("tight_belly", FLUSH, LEAK),
    ("strip", LEAK | {"creases": (Crease(LOW, 6.0),)}, LEAK),
    ("half_ring", LEAK | {"lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 6}, LEAK),
    ("ring", LEAK, {}),
    ("paste", worn(Accessory.PASTE), {}),
    ("hold_flat", LEAK, FLUSH),
    ("hold_plateau", FLUSH, LEAK),
    ("couple", LEAK, LEAK | {"pieces": Pieces.ONE}),
    ("thickener", worn(Accessory.THICKENER), LEAK),
    ("night_bag", URO | worn(Accessory.NIGHT_BAG), LEAK),
    ("close", LEAK, {"kind": StomaKind.COLOSTOMY, "pouch": PouchKind.CLOSED}),
    ("belt", worn(Accessory.BELT), FLUSH),
    ("garment", {"accessories": frozenset({Accessory.SUPPORT_GARMENT})}, {}),
    ("check_imprint", FLUSH, LEAK),
]


def steps(changes: Changes) -> set[str]:
    plan: Plan = recommend(well(**changes), History())
    return {step.key for step in plan.steps}


@pytest.mark.parametrize("key", ALWAYS)
@pytest.mark.parametrize("changes", [{}, LEAK, LEAK | URO, FLUSH])
def test_part_of_every_change(key: str, changes: Changes) -> None:
    assert key in steps(changes)


@pytest.mark.parametrize(("key", "found", "without"), SOMETIMES)
def test_only_where_it_is_called_for(key: str, found: Changes, without: Changes) -> None:
    assert key in steps(found)
    assert key not in steps(without)


def test_every_step_has_its_example() -> None:
    assert {*ALWAYS, *(key for key, *_ in SOMETIMES)} == {rule.key for rule in RULES}

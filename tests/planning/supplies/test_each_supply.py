"""Each generic supply: findings in which it is chosen, and the need that it then meets."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Bulge,
    ConvexDepth,
    Crease,
    Degree,
    Firmness,
    LumenPosition,
    Material,
    OpeningKind,
    Person,
    Pieces,
    PouchKind,
    Profile,
    Prolapse,
    Separation,
    SkinKind,
    StomaKind,
    Symptom,
    Trial,
)
from planning.results.plan import Change
from planning.supplies.catalogue import SUPPLIES
from tests.planning.builders import LOW, leaking, raw, seen, well

BULGE = {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}
OUT = {"prolapse": (Prolapse(30.0, True, False),), "widest_mm": 45.0}
APART = {"junction": (Separation(LOW, 5.0, True, False),)}
SATELLITES = {"skin": (seen(SkinKind.SATELLITES, moist=True),)}
SOFT = {"firmness": Firmness.SOFT}
ADHESIVE = Person(sensitivities=frozenset({Material.BARRIER_ADHESIVE}))
WEAK = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
STABLE = History(previous=(well(days_since_surgery=380),))
AGREED = History(prescriber_agreed_antifungal=True)
NONE = History()
URO, COLO = StomaKind.UROSTOMY, StomaKind.COLOSTOMY


Changes = dict[str, Any]
BELTED = frozenset({Accessory.BELT})


def tried(*keys: str) -> History:
    """One system that failed."""
    return History(trials=(Trial(frozenset(keys), helped=False),))


def failed(*keys: str) -> History:
    return History(trials=tuple(Trial(frozenset({key}), helped=False) for key in keys))


DRY: Changes = {"skin": ()}
FIRM: Changes = {"profile": Profile.CONVEX, "convex_depth": ConvexDepth.MODERATE,
                 "compressibility": Degree.LESS, "flexibility": None,
                 "accessories": frozenset({Accessory.RING})}  # fmt: skip

#: Supply, findings that call for it (all of them leak), what was tried, the need it meets.
CALLED_FOR: list[tuple[str, Changes, History, str]] = [
    ("flat_flexible", OUT, NONE, "flexible_surface"),
    ("soft_convex_shallow", {"protrusion_mm": 0.0}, NONE, "lift_rim"),
    ("soft_convex_moderate", {"protrusion_mm": 0.0}, failed("soft_convex_shallow"), "lift_rim"),
    ("soft_convex_deep", {"protrusion_mm": -6.0}, tried("soft_convex_moderate", "ring"),
     "lift_rim"),
    ("firm_convex_moderate", {"protrusion_mm": 0.0}, tried("soft_convex_moderate", "ring"),
     "firm_dome"),
    ("firm_convex_deep", {"protrusion_mm": 0.0, "accessories": BELTED},
     tried("firm_convex_moderate", "ring", "belt"), "firm_dome"),
    ("concave", {**BULGE, **DRY}, NONE, "follow_bulge"),
    ("other_material", {"person": ADHESIVE}, NONE, "other_adhesive"),
    ("extended_wear", {**DRY, "volume_ml_24h": 1100.0}, tried("flat_flexible", "ring"),
     "resist_effluent"),
    ("one_piece", {**OUT, **DRY, "opening_length_mm": 50.0, "opening_width_mm": 50.0}, NONE,
     "one_piece"),
    ("cut_to_fit", {"opening_length_mm": 40.0, "opening_width_mm": 40.0}, NONE, "refit_opening"),
    ("pre_cut", {"person": WEAK, "skin": (seen(SkinKind.ERYTHEMA),)}, STABLE, "no_cutting"),
    ("ring", {"protrusion_mm": 15.0}, NONE, "seal_edge"),
    ("half_ring", {"lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 6}, NONE, "raise_side"),
    ("strip", {"creases": (Crease(LOW, 6.0),)}, NONE, "fill_crease"),
    ("powder", {}, NONE, "absorb_moisture"),
    ("antifungal_powder", SATELLITES, AGREED, "treat_yeast"),
    ("protectant", {}, NONE, "protect_skin"),
    ("absorbent_dressing", APART, NONE, "absorb_wound"),
    ("adhesive_remover", {"skin": (seen(SkinKind.STRIPPING),)}, NONE, "gentle_removal"),
    ("drainable", {}, NONE, "empty_often"),
    ("high_output", {"volume_ml_24h": 1600.0, "leak": ClockHours(), **DRY}, NONE, "hold_volume"),
    ("tap", {"kind": URO}, NONE, "drain_urine"),
    ("night_bag", {"kind": URO, "pouch": PouchKind.TAP, "leak": ClockHours(), **DRY}, NONE,
     "drain_night"),
    ("belt", {"protrusion_mm": 0.0, **FIRM}, NONE, "hold_snug"),
    ("lubricant", {**DRY, "kind": COLO, "present": frozenset({Symptom.THICK_STICKING_STOOL})}, NONE,
     "loosen_stool"),
]  # fmt: skip

#: Supplies that no need of their own calls for, or only beside another: kept where they are worn.
KEPT: list[tuple[str, Changes]] = [
    ("flat_firm", {"flexibility": Degree.LESS}),
    ("firm_convex_shallow", {"profile": Profile.CONVEX, "convex_depth": ConvexDepth.SHALLOW,
                             "compressibility": Degree.LESS, "flexibility": None}),
    ("two_piece", {"pieces": Pieces.TWO}),
    ("mouldable", {"opening_kind": OpeningKind.MOULDABLE}),
    ("closed", {"kind": COLO, "pouch": PouchKind.CLOSED}),
    ("paste", {"accessories": frozenset({Accessory.PASTE})}),
    ("thickener", {"accessories": frozenset({Accessory.THICKENER})}),
    ("tape", {"tape_border": True}),
    ("pouch_cover", {"accessories": frozenset({Accessory.POUCH_COVER})}),
    ("support_garment", {"accessories": frozenset({Accessory.SUPPORT_GARMENT})}),
    ("soft_convex_deep", {"profile": Profile.CONVEX, "convex_depth_mm": 9.0,
                          "compressibility": Degree.MORE, "flexibility": None}),
]  # fmt: skip


@pytest.mark.parametrize(("supply", "changes", "history", "need"), CALLED_FOR)
def test_what_is_called_for_is_chosen(
    supply: str, changes: Changes, history: History, need: str
) -> None:
    plan = recommend(well(**({"leak": LOW, "skin": (raw(),)} | changes)), history)
    assert supply in plan.supplies
    served = next(r for r in plan.recommendations if r.key in (supply, "opening"))
    if SUPPLIES[supply].slot.value != "opening":
        served = next(r for r in plan.recommendations if r.key == supply)
    assert need in served.need_keys


@pytest.mark.parametrize(("supply", "changes"), KEPT)
def test_what_works_is_kept(supply: str, changes: Changes) -> None:
    plan = recommend(well(**changes))
    assert supply in plan.supplies
    assert {r.change for r in plan.recommendations} == {Change.KEEP}


def test_a_long_stoma_gets_room() -> None:
    plan = recommend(well(**OUT, leak=LOW, opening_length_mm=50.0, opening_width_mm=50.0))
    assert {"drainable_large", "high_output"} & set(plan.supplies)


def test_every_supply_has_its_example() -> None:
    named = {supply for supply, *_ in CALLED_FOR} | {supply for supply, _ in KEPT}
    assert set(SUPPLIES) - named == {"drainable_large"}


def test_no_supply_is_started_without_a_leak_or_damage() -> None:
    assert {r.change for r in recommend(well()).recommendations} == {Change.KEEP}
    assert leaking() != well()

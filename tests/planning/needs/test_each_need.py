"""Each need: findings in which it arises, and the nearest in which it does not."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Bulge,
    ChangedBy,
    Condition,
    Consistency,
    Contour,
    Crease,
    Firmness,
    LumenPosition,
    Material,
    Oedema,
    Person,
    Profile,
    Prolapse,
    Separation,
    SkinKind,
    StomaKind,
)
from planning.needs import ESSENTIAL, NEEDS, needs_of
from tests.planning.builders import ALL, LOW, raw, seen, situation, well

Changes = dict[str, Any]
BULGE = {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}
OUT = {"prolapse": (Prolapse(30.0, True, False),), "widest_mm": 45.0}
URO = {"kind": StomaKind.UROSTOMY}
COLO = {"kind": StomaKind.COLOSTOMY}
LEAK = {"leak": LOW}
WEAK = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
HELPED = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED, changed_by=ChangedBy.CARER)
ADHESIVE = Person(sensitivities=frozenset({Material.BARRIER_ADHESIVE}))
CONVEX = {"profile": Profile.CONVEX, "flexibility": None}

#: Need, findings with it, and the nearest without it.
ROWS: list[tuple[str, Changes, Changes]] = [
    ("lift_rim", {**LEAK, "protrusion_mm": 9.0}, {**LEAK, "protrusion_mm": 10.0}),
    ("lift_rim", {**LEAK, "protrusion_mm": 4.0}, {"protrusion_mm": 4.0}),
    ("firm_dome", {**LEAK, "protrusion_mm": 0.0, "firmness": Firmness.SOFT},
     {**LEAK, "protrusion_mm": 0.0, "firmness": Firmness.FIRM}),
    ("hold_snug", {**LEAK, "protrusion_mm": -5.0}, {**LEAK, "protrusion_mm": -4.0}),
    ("flexible_surface", BULGE, {"bulges": ()}),
    ("flexible_surface", {**LEAK, "contour": Contour.ROUNDED}, {"contour": Contour.ROUNDED}),
    ("one_piece", OUT, {"prolapse": ()}),
    ("relieve_pressure", {"skin": (seen(SkinKind.PRESSURE_MARK),), **CONVEX},
     {"skin": (seen(SkinKind.ERYTHEMA),), **CONVEX}),
    ("level_low_side", {**BULGE, **LEAK}, BULGE),
    ("bridge_step", {**BULGE, **LEAK}, {**LEAK, "bulges": ()}),
    ("raise_side", {**LEAK, "lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 6},
     {**LEAK, "lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 12}),
    ("fill_crease", {**LEAK, "creases": (Crease(LOW, 6.0),)},
     {**LEAK, "creases": (Crease(ClockHours.of(12), 6.0),)}),
    ("hold_fold", {**LEAK, "creases": (Crease(LOW, 8.1),)},
     {**LEAK, "creases": (Crease(LOW, 8.0),)}),
    ("cover_gap", {**LEAK, "oedema": Oedema.MARKED}, {**LEAK, "oedema": Oedema.MILD}),
    ("seal_edge", {**LEAK, "protrusion_mm": 19.0},
     {**LEAK, "protrusion_mm": 20.0, "creases": (Crease(LOW, 6.0),)}),
    ("refit_opening", {**LEAK, "opening_length_mm": 36.5, "opening_width_mm": 36.5},
     {**LEAK, "opening_length_mm": 36.3, "opening_width_mm": 36.3}),
    ("no_cutting", {**LEAK, "person": WEAK}, {**LEAK, "person": HELPED}),
    ("absorb_moisture", {"skin": (raw(),)}, {"skin": (raw(moist=False),)}),
    ("protect_skin", {"skin": (raw(),)}, {"skin": (seen(SkinKind.STRIPPING),)}),
    ("treat_yeast", {"skin": (seen(SkinKind.SATELLITES),)}, {"skin": (seen(SkinKind.WARTY),)}),
    ("absorb_wound", {"junction": (Separation(LOW, 5.0, True, False),)}, {"junction": ()}),
    ("gentle_removal", {"skin": (seen(SkinKind.STRIPPING, outer_mm=20.0),)},
     {"skin": (seen(SkinKind.EROSION),)}),
    ("other_adhesive", {"person": ADHESIVE}, {}),
    ("drain_urine", URO, COLO),
    ("drain_night", URO, COLO),
    ("empty_often", {**COLO, "consistency": Consistency.LIQUID},
     {**COLO, "consistency": Consistency.FORMED}),
    ("hold_volume", {"volume_ml_24h": 1000.0}, {"volume_ml_24h": 999.0}),
    ("thicken_output", {"volume_ml_24h": 1000.0}, {"volume_ml_24h": 999.0}),
    ("room_for_stoma", OUT, {"prolapse": ()}),
    ("resist_effluent", {**LEAK, "consistency": Consistency.LIQUID},
     {**LEAK, "consistency": Consistency.PASTE}),
]  # fmt: skip


def needed(changes: Changes) -> set[str]:
    return {need.key for need in needs_of(situation(well(**changes)))}


@pytest.mark.parametrize(("key", "with_it", "without"), ROWS)
def test_need(key: str, with_it: Changes, without: Changes) -> None:
    assert key in needed(with_it)
    assert key not in needed(without)


def test_every_need_has_its_example_and_none_is_unlisted() -> None:
    listed = [rule.key for rule in NEEDS]
    assert len(listed) == len(set(listed))
    assert set(listed) == {key for key, *_ in ROWS}
    assert frozenset(rule.key for rule in NEEDS if rule.essential) == ESSENTIAL


# --- while a product is suspected nothing else is changed -------------------------------
REACTION = seen(SkinKind.BLISTERS, ALL, outer_mm=40.0, product_outline=True, itch=True)
FILM = frozenset({Accessory.PROTECTANT})


def test_no_remover_is_started_while_a_product_is_suspected() -> None:
    """Leave it off and change nothing else: starting another product would hide the answer."""
    plan = recommend(well(skin=(REACTION,), accessories=FILM))
    assert "change nothing else" in " ".join(
        reason.text for r in plan.recommendations for reason in r.because
    )
    assert "protectant" not in plan.supplies
    assert "adhesive_remover" not in plan.supplies
    assert "gentle_peel" in {r.key for r in plan.recommendations}
    without = recommend(well(skin=(seen(SkinKind.STRIPPING, outer_mm=20.0),), accessories=FILM))
    assert "adhesive_remover" in without.supplies


def test_veins_still_get_their_remover() -> None:
    """Harm goes before a clean trial."""
    liver = Person(sensitivities=frozenset(), has=frozenset({Condition.LIVER_DISEASE}))
    plan = recommend(well(skin=(REACTION,), accessories=FILM, person=liver), History())
    assert "adhesive_remover" in plan.supplies


# --- a cause is never given as a fact ----------------------------------------------------------
def because(changes: Changes, key: str) -> str:
    item = next(r for r in recommend(well(**changes)).recommendations if r.key == key)
    return " ".join(reason.text for reason in item.because)


def test_a_likely_cause_is_called_likely_and_a_level_one_only_possible() -> None:
    alone: Changes = {"skin": (seen(SkinKind.STRIPPING, outer_mm=20.0),)}
    assert situation(well(**alone)).causes.cannot_tell_apart == ()
    assert "Likely: injury of the skin by adhesive." in because(alone, "gentle_peel")
    both = (seen(SkinKind.STRIPPING, outer_mm=20.0), seen(SkinKind.HAIR_PUSTULES))
    level: Changes = {"skin": both}
    assert "stripping" in situation(well(**level)).causes.cannot_tell_apart
    assert "Possible: injury of the skin by adhesive." in because(level, "gentle_peel")
    assert "Possible: injury of the skin by adhesive." in because(level, "adhesive_remover")

"""Each situation: findings in which its advice is given, and the nearest in which it is not.

Beside each row where the fact comes from: read, an excerpt read, common practice, from memory, or
a design value.
"""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Baseline,
    BaselineKind,
    Bulge,
    ChangedBy,
    Circumstance,
    Condition,
    Construction,
    ConvexDepth,
    Degree,
    Discharge,
    LeakCount,
    LoopOpenings,
    Material,
    Medicine,
    OtherStoma,
    Person,
    Product,
    Profile,
    Prolapse,
    RemovalReason,
    SkinKind,
    StomaKind,
    Symptom,
    Trial,
    UrineSign,
    WearEpisode,
    Wound,
)
from planning.recommendations.register import ADVICE
from planning.recommendations.situations import SITUATIONS
from planning.results.plan import ItemKind, Plan, Urgency
from tests.planning.builders import ALL, INTACT, LOW, raw, seen, well

Changes = dict[str, Any]
NONE = History()
AT_3 = ClockHours.of(3)


def somebody(*has: Condition, **more: Any) -> Person:
    return Person(sensitivities=frozenset(), has=frozenset(has), age_years=40, **more)


def pregnant(weeks: int | None) -> Changes:
    return {"person": somebody(Condition.PREGNANT, pregnant_weeks=weeks)}


def person(*has: Condition, **more: Any) -> Changes:
    return {"person": somebody(*has, **more)}


def wear(days: float, *circumstances: Circumstance | None) -> Changes:
    leaks = (WearEpisode(days, RemovalReason.LEAK, one) for one in circumstances)
    return {"wear": (*leaks, *(WearEpisode(days, RemovalReason.PLANNED),) * 13)}


def skin(kind: SkinKind, **more: Any) -> Changes:
    return {"skin": (seen(kind, **more),)}


def wears(*accessories: Accessory) -> Changes:
    return {"accessories": frozenset(accessories)}


def other(mm: float | None, *, rests: bool = False) -> Changes:
    return {"other_stomas": (OtherStoma(AT_3, mm, rests=rests),)}


def trials(*supplies: frozenset[str]) -> History:
    return History(trials=tuple(Trial(s, helped=False) for s in supplies))


def known(kind: BaselineKind) -> History:
    return History(baselines=(Baseline(kind, "surgeon"),))


TWINS = {"leak": AT_3}
PULLED = wear(2.0, Circumstance.PULLED_OFF)
ONE_HAND = person(dexterity=Ability.ONE_HAND)
BULGE = {"bulges": (Bulge(AT_3, 15.0, 60.0, True, False),)}
PSORIASIS = {**person(Condition.PSORIASIS_OR_ECZEMA), **skin(SkinKind.SCALE)}
ULCER = skin(SkinKind.ULCER, pain=False, flat_edge=True)
YEAST = skin(SkinKind.SATELLITES)
NICORANDIL = person(medicines=frozenset({Medicine.NICORANDIL}))
BELT_SORE = {
    "skin": (
        seen(SkinKind.EROSION, AT_3, inner_mm=45.0, outer_mm=70.0, outline_of=Product.BELT),
        seen(SkinKind.PRESSURE_MARK, AT_3, inner_mm=45.0, outer_mm=70.0, outline_of=Product.BELT),
    ),
    **wears(Accessory.BELT),
}
PAPULES = seen(SkinKind.ERYTHEMA, ALL, outer_mm=36.0, product_outline=True,
               outline_of=Product.BARRIER, itch=True, moist=False)  # fmt: skip
FILM = {
    "skin": (replace(PAPULES, outline_of=Product.FILM),),
    **wears(Accessory.PROTECTANT),
}
FILM_BEFORE = {
    **FILM,
    "person": replace(somebody(), sensitivities=frozenset({Material.PROTECTANT})),
}
COVER = {
    "skin": (
        seen(SkinKind.ERYTHEMA, LOW, inner_mm=60.0, outer_mm=150.0, product_outline=True,
             outline_of=Product.POUCH_COVER),
    ),
    **wears(Accessory.POUCH_COVER),
}  # fmt: skip
DOME = {
    "profile": Profile.CONVEX,
    "convex_depth": ConvexDepth.SHALLOW,
    "compressibility": Degree.MORE,
    "flexibility": None,
}
FIRM_DOME = {
    "profile": Profile.CONVEX,
    "convex_depth": ConvexDepth.DEEP,
    "compressibility": Degree.LESS,
    "flexibility": None,
}
STAYS = skin(SkinKind.PRESSURE_MARK, stays_min=45.0)
PROLAPSE = {
    "prolapse": (Prolapse(60.0, reducible=True, painful=False, new=False, growing=False),),
    "widest_mm": 33.0,
}
CRYSTALS = {
    "kind": StomaKind.UROSTOMY,
    "urine_signs": frozenset({UrineSign.CRYSTALS}),
    **wears(Accessory.NIGHT_BAG),
}
THICK = {
    "kind": StomaKind.COLOSTOMY,
    "volume_ml_24h": None,
    "present": frozenset({Symptom.THICK_STICKING_STOOL}),
}
THINNED = person(medicines=frozenset({Medicine.ANTICOAGULANT}))
LOOP = {"construction": Construction.LOOP, "leak": LOW}
LEAKED = {"leak": LOW, "leak_count": LeakCount(8, 10), "usual_wear_days": 2.0}
FAILED = trials(
    frozenset({"flat_flexible", "ring"}), frozenset({"firm_convex_deep", "ring", "belt"})
)
TRIED = {"protrusion_mm": -6.0, **FIRM_DOME, **wears(Accessory.RING, Accessory.BELT), **LEAKED}

Row = tuple[str, Changes, Changes]
ROWS: list[Row] = [
    # Pregnancy: figures are design values; the stoma widens and sinks late (excerpt read).
    ("pregnancy_measure", pregnant(27), pregnant(28)),
    ("pregnancy_measure", pregnant(20), {**pregnant(20), "days_since_surgery": 55}),
    ("pregnancy_measure_often", pregnant(28), pregnant(27)),
    ("pregnancy_measure_often", pregnant(None), {}),
    ("pregnancy_mirror", pregnant(10), {}),
    ("pregnancy_team", pregnant(10), {}),
    # Obstruction in 35.5 % of 67 pregnancies (read).
    ("pregnancy_blockage", pregnant(10),
     {**pregnant(10), "kind": StomaKind.UROSTOMY, "volume_ml_24h": 1500.0}),
    # Common practice.
    ("comfort_first", person(Condition.LAST_WEEKS_OF_LIFE), person(Condition.FRAIL)),
    ("comfort_carer", person(Condition.LAST_WEEKS_OF_LIFE), person(Condition.CANCER)),
    ("palliative_team", person(Condition.LAST_WEEKS_OF_LIFE), {}),
    # Design values, the remover common practice.
    ("thin_skin", {**person(Condition.FRAIL), "leak": LOW}, person(Condition.FRAIL)),
    ("thin_skin", {**person(Condition.FRAIL), "leak": LOW},
     {**person(Condition.FRAIL), "leak": LOW, **wears(Accessory.TAPE)}),
    ("frail_weight", person(Condition.FRAIL),
     person(Condition.FRAIL, Condition.LAST_WEEKS_OF_LIFE)),
    # Small steps and pictures (excerpt read); what to look for: common practice and design value.
    ("behind_restlessness",
     {**person(Condition.DEMENTIA), "present": frozenset({Symptom.RESTLESS})},
     person(Condition.DEMENTIA)),
    ("behind_restlessness", {**person(Condition.DEMENTIA), **PULLED}, PULLED),
    ("one_routine", {**person(Condition.DEMENTIA), "leak": LOW}, person(Condition.DEMENTIA)),
    # Common practice.
    ("by_touch", {**ONE_HAND, "leak": LOW},
     {**person(dexterity=Ability.LIMITED), "leak": LOW}),
    ("by_touch", {**ONE_HAND, "leak": LOW},
     {**person(dexterity=Ability.ONE_HAND, changed_by=ChangedBy.CARER), "leak": LOW}),
    ("large_print", {**person(eyesight=Ability.LIMITED), "leak": LOW},
     {**person(eyesight=Ability.GOOD), "leak": LOW}),
    ("therapist", {**ONE_HAND, "leak": LOW}, ONE_HAND),
    # Common practice.
    ("wound_apart", {"wounds": (Wound(AT_3, 25.0),)}, {"wounds": ()}),
    ("wound_team", {"wounds": (Wound(AT_3, 25.0),)}, {}),
    ("one_barrier_for_two", {**TWINS, **other(29.9)}, {**TWINS, **other(30.0)}),
    ("one_barrier_for_two", {**TWINS, **other(22.0, rests=True)}, other(22.0, rests=True)),
    ("two_barriers", {**TWINS, **other(30.0)}, {**TWINS, **other(29.9)}),
    ("two_barriers", {**TWINS, **other(30.0)}, {**TWINS, **other(None)}),
    ("urine_apart", {**TWINS, **other(50.0), "kind": StomaKind.UROSTOMY},
     {**TWINS, **other(50.0)}),
    ("mucus_explained", other(50.0, rests=True), other(50.0)),
    ("mucus_explained", {"discharge": Discharge.OLD_STOOL_ONCE},
     {"discharge": Discharge.STOOL_AGAIN}),
    ("loop_works_low", {**LOOP, "loop": LoopOpenings(0.0, 6, 15.0)},
     {**LOOP, "loop": LoopOpenings(15.0, 6, 15.0)}),
    ("loop_which_works", LOOP, {**LOOP, "loop": LoopOpenings(0.0, 6, 15.0)}),
    ("loop_which_works", LOOP, {**LOOP, "construction": Construction.END}),
    # Design values.
    ("fistula_volume", skin(SkinKind.FISTULA), skin(SkinKind.ULCER)),
    ("fistula_teams", skin(SkinKind.FISTULA),
     {**skin(SkinKind.FISTULA), "present": frozenset({Symptom.FEVER})}),
    # Common practice.
    ("photo_to_scale", skin(SkinKind.PIGMENTED_SPOT),
     skin(SkinKind.PIGMENTED_SPOT, changing=False)),
    ("photo_to_scale", skin(SkinKind.HARD_LUMP), skin(SkinKind.GRANULOMA)),
    ("photo_of_ulcer", skin(SkinKind.UNDERMINED_ULCER, pain=True, enlarging=True),
     skin(SkinKind.EROSION)),
    # A lotion tried in 96 %, a thicker hydrocolloid enough in 8 of 78 (read).
    ("psoriasis_lotion", PSORIASIS, skin(SkinKind.SCALE)),
    ("psoriasis_lotion", PSORIASIS,
     {**PSORIASIS, **person(Condition.PSORIASIS_OR_ECZEMA, Condition.RADIOTHERAPY_NOW)}),
    # Common practice.
    ("radiotherapy_skin", person(Condition.RADIOTHERAPY_NOW),
     person(Condition.RADIOTHERAPY_ABDOMEN)),
    ("radiotherapy_team", person(Condition.RADIOTHERAPY_NOW),
     person(Condition.RADIOTHERAPY_ABDOMEN)),
    ("yeast_dry", YEAST, {"skin": (raw(),)}),
    ("yeast_glucose", {**YEAST, **person(Condition.DIABETES)}, YEAST),
    # 18 of 21 lay beside a stoma (second-hand).
    ("nicorandil", {**ULCER, **NICORANDIL}, {**ULCER, **person(medicines=frozenset())}),
    ("nicorandil", {**ULCER, **NICORANDIL}, {"skin": (raw(),), **NICORANDIL}),
    ("nicorandil_asked", ULCER, {**ULCER, **person(medicines=frozenset())}),
    # A sore from a tight belt (read); the rest common practice.
    ("belt_sore", BELT_SORE, {**BELT_SORE, **wears()}),
    # Sting and allergy: paste the commonest of 10 culprits (read).
    ("suspected_product", FILM, {**FILM, "leak": LOW}),
    ("reacted_before", FILM_BEFORE, FILM),
    ("itch_lotion", {"skin": (PAPULES,)}, {"skin": (replace(PAPULES, itch=False),)}),
    ("itch_lotion", {"skin": (PAPULES,)}, {"skin": (replace(PAPULES, moist=True),)}),
    # Pouch materials (read); sweat as the rival: common practice.
    ("suspected_cover", COVER, {**COVER, **wears()}),
    # Urticaria: design value; what cross-reacts with latex (read).
    ("weals", skin(SkinKind.WEAL), skin(SkinKind.ERYTHEMA)),
    # Rest common practice; what bars and what grows: design values.
    ("stoma_shrank", {"opening_length_mm": 42.0, "opening_width_mm": 42.0, "skin": (raw(),)},
     {"opening_length_mm": 29.0, "opening_width_mm": 29.0, "skin": (raw(),)}),
    ("low_and_dry", {"protrusion_mm": -6.0}, {"protrusion_mm": 25.0}),
    ("low_and_dry", {"protrusion_mm": -6.0}, {"protrusion_mm": -6.0, "leak": LOW}),
    ("prolapse_fits", PROLAPSE, {**PROLAPSE, "leak": LOW}),
    ("bulge_grows", BULGE, {"bulges": ()}),
    ("garment_later", {**BULGE, "leak": LOW, **FIRM_DOME, **skin(SkinKind.BRUISE)},
     {**BULGE, "leak": LOW, **FIRM_DOME, **skin(SkinKind.BRUISE), **pregnant(20)}),
    ("next_step_down", {**STAYS, **FIRM_DOME, **wears(Accessory.BELT)},
     {**skin(SkinKind.PRESSURE_MARK, fades_min=30.0), **FIRM_DOME, **wears(Accessory.BELT)}),
    ("leak_reason", wear(4.0, Circumstance.PASSING_ILLNESS), wear(4.0, None)),
    ("fresh_urine", CRYSTALS, {**CRYSTALS, "urine_signs": frozenset()}),
    ("drink_against_crystals", CRYSTALS, {**CRYSTALS, **person(Condition.HEART_FAILURE)}),
    ("drink_against_crystals", CRYSTALS, {**CRYSTALS, **person(Condition.KIDNEY_DISEASE)}),
    ("thick_skin_biopsy", skin(SkinKind.WARTY), skin(SkinKind.GRANULOMA)),
    # No cranberry with warfarin (excerpt read).
    ("no_cranberry", {**CRYSTALS, **THINNED}, CRYSTALS),
    ("no_cranberry", {**CRYSTALS, **THINNED}, THINNED),
    # Common practice.
    ("hardening_medicines", {**THICK, **person(medicines=frozenset({Medicine.IRON}))},
     {**THICK, **person(medicines=frozenset({Medicine.DIURETIC}))}),
    ("ballooning", {"present": frozenset({Symptom.BALLOONING})}, {}),
]  # fmt: skip

#: The same, where what differs is the history. Order of steps: common practice; the rule about
#: healed pyoderma: from memory; baselines: design value.
WITH_HISTORY: list[tuple[str, Changes, History, History]] = [
    ("healed_pyoderma", DOME, known(BaselineKind.HEALED_PYODERMA), NONE),
    ("life_asked_about", TRIED, FAILED, NONE),
    ("suggest_baseline", {"protrusion_mm": -6.0}, NONE, known(BaselineKind.HEIGHT)),
    ("suggest_baseline", PROLAPSE, NONE, known(BaselineKind.PROLAPSE)),
]


def planned(changes: Changes, history: History = NONE) -> Plan:
    return recommend(well(**changes), history)


def advised(changes: Changes, history: History = NONE) -> dict[str, str]:
    return {r.key: r.text for r in planned(changes, history).recommendations}


@pytest.mark.parametrize(("key", "with_it", "without"), ROWS)
def test_a_situation(key: str, with_it: Changes, without: Changes) -> None:
    assert key in advised(with_it)
    assert key not in advised(without)


@pytest.mark.parametrize(("key", "found", "with_it", "without"), WITH_HISTORY)
def test_a_situation_told_by_the_history(
    key: str, found: Changes, with_it: History, without: History
) -> None:
    assert key in advised(found, with_it)
    assert key not in advised(found, without)

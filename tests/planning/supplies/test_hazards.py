"""Each hazard: findings in which it is in force, near ones in which it is not, what it bars."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.geometry.barrier import BELT_LINE
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Baseline,
    BaselineKind,
    Bleeding,
    Bulge,
    ChangedBy,
    Colour,
    Condition,
    Consistency,
    Degree,
    OpeningKind,
    Person,
    PouchKind,
    Product,
    Profile,
    Prolapse,
    Separation,
    SkinFinding,
    SkinKind,
    StomaKind,
)
from planning.supplies.admissible import barred
from planning.supplies.catalogue import PRESSES, SUPPLIES
from planning.supplies.hazards import HAZARDS, Stay, in_force
from planning.supplies.worn import worn_now
from tests.planning.builders import ALL, LOW, leaking, raw, seen, situation, well

LIVER = Person(has=frozenset({Condition.LIVER_DISEASE}))
NO_LIVER = Person(has_not=frozenset({Condition.LIVER_DISEASE}))
IRRADIATED = Person(has=frozenset({Condition.RADIOTHERAPY_ABDOMEN}))
PLAQUES = Person(has=frozenset({Condition.PSORIASIS_OR_ECZEMA}))
BULGE = (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)
APART = (Separation(LOW, 5.0, True, False),)
DEEP = (Separation(LOW, 6.0, True, False),)
OUT = (Prolapse(30.0, True, False),)
SIDE = ClockHours.of(3)
TOP = ClockHours.of(12)
URO, COLO = StomaKind.UROSTOMY, StomaKind.COLOSTOMY
ASSESSED = History(specialist_convexity_assessment=True)
REASON = History(convexity_reason="Leaks without it.")
AGREED = History(prescriber_agreed_antifungal=True)
STABLE = History(previous=(well(days_since_surgery=380),))

Changes = dict[str, Any]


def hole(start: float | None, hours: ClockHours) -> Changes:
    """A fistula that begins ``start`` mm from the stoma. A usual barrier ends 35.8 mm from it."""
    end = None if start is None else start + 5.0
    return {"skin": (seen(SkinKind.FISTULA, hours, inner_mm=start, outer_mm=end),)}


def gap(depth: float, *, soiled: bool = False) -> tuple[Separation, ...]:
    return (Separation(LOW, depth, True, False, soiled),)


def border(kind: SkinKind) -> SkinFinding:
    return seen(kind, inner_mm=30.0, outer_mm=40.0, outline_of=Product.TAPE_BORDER)


def alone(
    changed_by: ChangedBy | None,
    hands: Ability = Ability.GOOD,
    eyesight: Ability = Ability.GOOD,
) -> Person:
    return Person(dexterity=hands, eyesight=eyesight, changed_by=changed_by, age_years=50)


#: Hazard, findings that make it real, near findings that do not (with their history), one supply
#: that it bars.
EACH: list[tuple[str, Changes, Changes, History, str]] = [
    ("varices", {"skin": (seen(SkinKind.DILATED_VEINS),)}, {"person": LIVER}, History(), "belt"),
    ("liver", {"person": LIVER}, {"person": NO_LIVER}, History(), "belt"),
    (
        "bleeding_liver",
        {"person": LIVER, "bleeding": Bleeding.OOZE_AT_JUNCTION},
        {"person": LIVER, "bleeding": Bleeding.ON_WIPING},
        History(),
        "belt",
    ),
    (
        "bleeding_liver",
        {"person": LIVER, "bleeding": Bleeding.OOZE_AT_JUNCTION},
        {"person": NO_LIVER, "bleeding": Bleeding.OOZE_AT_JUNCTION},
        History(),
        "belt",
    ),
    (
        "pressure_injury_belt",
        {"skin": (seen(SkinKind.BRUISE, inner_mm=60.0, outer_mm=70.0),)},
        {"skin": (seen(SkinKind.PRESSURE_MARK, fades_min=15.0),)},
        History(),
        "belt",
    ),
    ("pyoderma", {"skin": (seen(SkinKind.UNDERMINED_ULCER),)}, {}, History(), "belt"),
    (
        "edge_hidden",
        {"skin": (seen(SkinKind.ERYTHEMA, numb_or_crackling=True),)},
        {"skin": (seen(SkinKind.ERYTHEMA),)},
        History(),
        "tape",
    ),
    (
        "plaques",
        {"skin": (seen(SkinKind.SCALE),), "person": PLAQUES},
        {"skin": (seen(SkinKind.SCALE),)},
        History(),
        "tape",
    ),
    (
        "plaques",
        {"skin": (seen(SkinKind.SCALE),), "person": PLAQUES},
        {"person": PLAQUES},
        History(),
        "tape",
    ),
    (
        "pressure_injury",
        {"skin": (seen(SkinKind.PRESSURE_MARK),)},
        {"skin": (seen(SkinKind.ERYTHEMA),)},
        History(),
        "soft_convex_shallow",
    ),
    ("ulcer", {"skin": (seen(SkinKind.ULCER),)}, {"skin": (raw(),)}, History(), "belt"),
    (
        "malignancy",
        {"skin": (seen(SkinKind.HARD_LUMP),)},
        {"skin": (seen(SkinKind.GRANULOMA),)},
        History(),
        "soft_convex_shallow",
    ),
    ("ischaemia", {"colour": Colour.DUSKY}, {"colour": Colour.PALE}, History(), "belt"),
    (
        "infection",
        {"skin": (seen(SkinKind.ABSCESS),)},
        {"skin": (seen(SkinKind.HAIR_PUSTULES),)},
        History(),
        "belt",
    ),
    ("rod", {"rod_in_place": True}, {"rod_in_place": None}, History(), "soft_convex_shallow"),
    ("prolapse", {"prolapse": OUT}, {"prolapse": None}, History(), "soft_convex_shallow"),
    ("prolapse_coupling", {"prolapse": OUT, "leak": LOW}, {"leak": LOW}, History(), "two_piece"),
    (
        "early",
        {"days_since_surgery": 30},
        {"days_since_surgery": 31},
        History(),
        "soft_convex_shallow",
    ),
    ("early", {"junction": APART}, {"junction": APART}, ASSESSED, "soft_convex_shallow"),
    ("sore_border", {"skin": (border(SkinKind.STRIPPING),)}, {"skin": (raw(),)}, History(), "tape"),
    (
        "no_one_helps",
        {"skin": (raw(),), "person": alone(ChangedBy.SELF, Ability.ONE_HAND)},
        {"skin": (raw(),), "person": alone(ChangedBy.WITH_HELP, Ability.ONE_HAND)},
        History(),
        "powder",
    ),
    (
        "no_one_helps",
        {"skin": (raw(),), "person": alone(None, eyesight=Ability.LIMITED)},
        {"skin": (raw(),), "person": alone(None, eyesight=Ability.GOOD)},
        History(),
        "protectant",
    ),
    (
        "liquid_now",
        {"consistency": Consistency.LIQUID},
        {"consistency": Consistency.PASTE},
        History(),
        "closed",
    ),
    (
        "early_firm",
        {"days_since_surgery": 30},
        {"days_since_surgery": 31},
        History(),
        "firm_convex_shallow",
    ),
    ("early_firm", {"junction": APART}, {"junction": None}, ASSESSED, "firm_convex_shallow"),
    (
        "surgery_date_unknown",
        {"days_since_surgery": None},
        {"days_since_surgery": None},
        ASSESSED,
        "soft_convex_shallow",
    ),
    (
        "bulge",
        {"bulges": BULGE, "leak": LOW, "protrusion_mm": 0.0},
        {"bulges": BULGE, "leak": LOW, "protrusion_mm": 0.0},
        REASON,
        "soft_convex_shallow",
    ),
    (
        "bulge_firm",
        {"bulges": BULGE, "leak": LOW},
        {"bulges": (), "leak": LOW},
        History(),
        "flat_firm",
    ),
    ("bulge_belt", {"bulges": BULGE, "leak": LOW}, {"bulges": None}, History(), "belt"),
    ("separation", {"junction": APART}, {"junction": APART}, ASSESSED, "belt"),
    ("deep_separation", {"junction": DEEP}, {"junction": APART}, ASSESSED, "soft_convex_shallow"),
    (
        "trapped_bulge",
        {"bulges": (replace(BULGE[0], painful=True),)},
        {"bulges": BULGE},
        History(),
        "support_garment",
    ),
    (
        "raw_belt_line",
        {"skin": (raw(SIDE, outer_mm=40.0),)},
        {"skin": (raw(SIDE, outer_mm=39.0), raw(ClockHours.of(6), outer_mm=60.0))},
        History(),
        "belt",
    ),
    (
        "raw_belt_line",
        {"skin": (raw(ClockHours.of(9), outer_mm=None),)},
        {"skin": (raw(ClockHours.of(10, 12), outer_mm=None),)},
        History(),
        "belt",
    ),
    ("fistula", hole(45.0, TOP), hole(46.0, TOP), History(), "soft_convex_shallow"),
    ("fistula", hole(None, TOP), hole(46.0, SIDE), History(), "flat_firm"),
    ("fistula_belt", hole(46.0, SIDE), hole(46.0, TOP), History(), "belt"),
    ("fistula_belt", hole(None, TOP), hole(120.0, TOP), History(), "belt"),
    (
        "radiation",
        {"person": IRRADIATED, "skin": (seen(SkinKind.ERYTHEMA),)},
        {"skin": (seen(SkinKind.ERYTHEMA),)},
        History(),
        "flat_firm",
    ),
    ("radiation", {"person": IRRADIATED, "leak": LOW}, {"leak": LOW}, History(), "belt"),
    ("deep_gap", {"junction": APART}, {"junction": None}, History(), "paste"),
    ("dry_skin", {"skin": (seen(SkinKind.ERYTHEMA),)}, {"skin": (raw(),)}, History(), "powder"),
    (
        "no_yeast",
        {"skin": (raw(),)},
        {"skin": (seen(SkinKind.SATELLITES),)},
        History(),
        "antifungal_powder",
    ),
    ("no_prescriber", {}, {}, AGREED, "antifungal_powder"),
    ("urine", {"kind": URO}, {"kind": COLO}, History(), "closed"),
    ("not_urine", {"kind": COLO}, {"kind": URO}, History(), "tap"),
    ("liquid", {}, {"kind": COLO}, History(), "closed"),
    (
        "liquid",
        {"kind": COLO, "consistency": Consistency.LIQUID},
        {"kind": COLO, "consistency": Consistency.FORMED},
        History(),
        "closed",
    ),
    ("pre_cut", {}, {}, STABLE, "pre_cut"),
]


@pytest.mark.parametrize(("hazard", "found", "near", "history", "supply"), EACH)
def test_each_hazard(
    hazard: str, found: Changes, near: Changes, history: History, supply: str
) -> None:
    now = situation(well(**found))
    assert hazard in in_force(now)
    assert hazard in SUPPLIES[supply].hazards
    reasons = {reason.text for reason in barred(now, worn_now(now.facts))[supply]}
    assert HAZARDS[hazard].reason.text in reasons
    assert hazard not in in_force(situation(well(**near), history))


@pytest.mark.parametrize(("height", "barred_beside"), [(4.0, False), (4.1, True)])
def test_beside_a_bulge_a_reason_counts_for_a_flush_stoma_alone(
    height: float, barred_beside: bool
) -> None:
    now = situation(well(bulges=BULGE, leak=LOW, protrusion_mm=height), REASON)
    assert ("bulge" in in_force(now)) is barred_beside


def test_every_hazard_has_its_example() -> None:
    assert {hazard for hazard, *_ in EACH} == set(HAZARDS)


@pytest.mark.parametrize(("gap", "stays"), [(APART, True), (DEEP, False)])
def test_an_assessment_on_record_keeps_convexity_and_belt_over_a_shallow_gap_alone(
    gap: tuple[Separation, ...], stays: bool
) -> None:
    worn = {"profile": Profile.CONVEX, "convex_depth_mm": 4.0, "flexibility": Degree.MORE}
    belt = frozenset({Accessory.BELT})
    plan = recommend(well(junction=gap, accessories=belt, **worn), ASSESSED)
    kept = {key for key in plan.supplies if "_convex_" in key or key == "belt"}
    assert bool(kept) is stays


@pytest.mark.parametrize(("painful", "off"), [(True, True), (False, False)])
def test_belt_and_garment_come_off_a_bulge_in_danger(painful: bool, off: bool) -> None:
    bulge = (replace(BULGE[0], painful=painful),)
    worn = frozenset({Accessory.BELT, Accessory.SUPPORT_GARMENT})
    plan = recommend(well(bulges=bulge, accessories=worn))
    assert bool({"belt", "support_garment"} & set(plan.supplies)) is not off


def test_dilated_veins_agreed_once_stay_a_hazard_when_the_agreement_lapses() -> None:
    """An overdue review is no sign that the veins went; ending the agreement is."""
    lapsed = Baseline(BaselineKind.VARICES, "liver team", review_in_days=-1.0)
    assert "varices" in in_force(situation(well(), History(baselines=(lapsed,))))
    assert "varices" not in in_force(situation(well(), History(baselines=())))


STAYING: list[tuple[str, str, Changes]] = [
    (
        "varices",
        "belt",
        {"skin": (seen(SkinKind.DILATED_VEINS),), "accessories": frozenset({Accessory.BELT})},
    ),
    ("liver", "belt", {"person": LIVER, "accessories": frozenset({Accessory.BELT})}),
    ("liquid", "closed", {"pouch": PouchKind.CLOSED}),
    (
        "liquid_now",
        "closed",
        {"pouch": PouchKind.CLOSED, "consistency": Consistency.LIQUID},
    ),
    (
        "no_one_helps",
        "protectant",
        {
            "person": alone(ChangedBy.SELF, Ability.ONE_HAND),
            "accessories": frozenset({Accessory.PROTECTANT}),
        },
    ),
    ("bulge_belt", "belt", {"bulges": BULGE, "accessories": frozenset({Accessory.BELT})}),
    ("pre_cut", "pre_cut", {"opening_kind": OpeningKind.PRE_CUT}),
    ("radiation", "belt", {"person": IRRADIATED, "accessories": frozenset({Accessory.BELT})}),
    (
        "radiation",
        "soft_convex_shallow",
        {"person": IRRADIATED, "profile": Profile.CONVEX, "flexibility": None},
    ),
    (
        "surgery_date_unknown",
        "soft_convex_shallow",
        {"profile": Profile.CONVEX, "flexibility": None, "days_since_surgery": None},
    ),
]


@pytest.mark.parametrize(("hazard", "supply", "worn"), STAYING)
@pytest.mark.parametrize("works", [True, False])
def test_what_is_worn_may_stay_never_while_it_works_or_always(
    hazard: str, supply: str, worn: Changes, works: bool
) -> None:
    now = situation(well(**worn) if works else well(**({"leak": LOW, "skin": (raw(),)} | worn)))
    assert hazard in in_force(now)
    assert supply in worn_now(now.facts).keys
    stays = supply not in barred(now, worn_now(now.facts))
    stay = HAZARDS[hazard].stay
    fits = stay is Stay.WHILE_IT_FITS
    assert stays is (stay is Stay.ALWAYS or fits or (stay is Stay.WHILE_IT_WORKS and works))


def test_a_ready_cut_opening_stays_while_it_fits() -> None:
    worn = {"opening_kind": OpeningKind.PRE_CUT, "opening_length_mm": 44.0}
    now = situation(leaking(**worn, opening_width_mm=44.0))
    assert "pre_cut" in barred(now, worn_now(now.facts))


def test_an_assessment_opens_no_dome_or_belt_over_a_deep_gap() -> None:
    deep = situation(well(junction=gap(6.0)), ASSESSED)
    shallow = situation(well(junction=gap(5.0)), ASSESSED)
    for supply in ("soft_convex_shallow", "belt"):
        assert supply in barred(deep, worn_now(deep.facts))
        assert supply not in barred(shallow, worn_now(shallow.facts))


def test_what_presses_is_what_veins_bar_beside_a_coupling() -> None:
    barred_by_veins = {s.key for s in SUPPLIES.values() if "varices" in s.hazards}
    assert barred_by_veins - PRESSES == {"two_piece", "concave"}
    assert barred_by_veins >= PRESSES


def test_veins_seen_are_as_good_as_known() -> None:
    assert "varices" in in_force(situation(well(skin=(seen(SkinKind.DILATED_VEINS, ALL),))))


def test_a_lasting_mark_goes_down_to_the_next_barrier_that_may_be_worn() -> None:
    """Firm convex with a mark that stays, and no dome allowed beside an infection: flat, not
    nothing."""
    mark = seen(SkinKind.PRESSURE_MARK, stays_min=40.0)
    dome = {"profile": Profile.CONVEX, "convex_depth_mm": 2.0, "flexibility": None,
            "compressibility": Degree.LESS, "skin": (mark,)}  # fmt: skip
    one = situation(well(**dome))
    assert "soft_convex_shallow" not in barred(one, worn_now(one.facts))
    infected = situation(well(**{**dome, "skin": (mark, seen(SkinKind.SPREADING_WARMTH))}))
    closed = barred(infected, worn_now(infected.facts))
    assert {"soft_convex_shallow", "firm_convex_shallow"} <= set(closed)
    assert "flat_flexible" not in closed


@pytest.mark.parametrize(("material", "latex"), [(Accessory.BELT, True), (Accessory.RING, False)])
def test_only_what_holds_latex_is_never_tried_again_at_home(
    material: Accessory, latex: bool
) -> None:
    """Weals under the belt, or a rash in the outline of the ring."""
    belt = seen(SkinKind.ERYTHEMA, BELT_LINE, inner_mm=115.0, outer_mm=125.0, product_outline=None)
    ring = seen(SkinKind.ERYTHEMA, ALL, inner_mm=0.0, outer_mm=8.0, product_outline=True)
    worn = frozenset({material})
    now = situation(well(accessories=worn, skin=(belt if latex else ring,)))
    (reason,) = barred(now, worn_now(now.facts))[material.value]
    assert ("rubber latex" in reason.text) is latex
    assert ("two or three changes" in reason.text) is not latex

"""The exact level of each finding of bowel, blood supply, infection and hernia, neither more nor
less urgent, with everything else asked, measured and good.

The numbers name the section of the clinical facts on danger in symptoms: design values, unless a
source is named there.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bulge,
    Calibre,
    Colour,
    ColourPart,
    Condition,
    Consistency,
    Discharge,
    Medicine,
    Prolapse,
    Separation,
    SkinFinding,
    SkinKind,
    StomaKind,
    Symptom,
    Turgor,
    Vitals,
    Wound,
)
from planning.results.plan import Plan, Urgency
from tests.planning.builders import ALL, well
from tests.planning.safety.dangers import KNOWN, all_good

E, S, T = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE
D, W, R = Urgency.DAYS, Urgency.TWO_WEEKS, Urgency.ROUTINE
COLO, URO = {"kind": StomaKind.COLOSTOMY}, {"kind": StomaKind.UROSTOMY}
THREE, LOW_HOURS = ClockHours.of(3), ClockHours.of(4, 5, 6)
SIX_WEEKS = {"days_since_surgery": 400}
OPIOID = replace(KNOWN, medicines=frozenset({Medicine.OPIOID}))
PREGNANT = replace(
    KNOWN,
    has=frozenset({Condition.PREGNANT}),
    has_not=frozenset(Condition) - {Condition.PREGNANT},
)
DAY_5 = {"days_since_surgery": 5}
DAY_20 = {"days_since_surgery": 20}

Row = tuple[str, dict[str, Any], Urgency]


def feels(*symptoms: Symptom, **more: Any) -> dict[str, Any]:
    return {"present": frozenset(symptoms), **more}


def prolapse(**how: Any) -> dict[str, Any]:
    usual = {"extra_length_mm": 40.0, "reducible": True, "painful": False, "new": False}
    return {"prolapse": (Prolapse(**{**usual, **how}),), "protrusion_mm": 60.0}


def bulge(**how: Any) -> dict[str, Any]:
    usual = {"reducible": True, "painful": False, "new": False, "hard": False,
             "skin_changed": False}  # fmt: skip
    return {"bulges": (Bulge(THREE, **{**usual, **how}),)}


def gap(hours: ClockHours = LOW_HOURS, **how: Any) -> dict[str, Any]:
    clean = {"base_visible": True, "effluent_under_skin": False, "contaminated": False}
    return {"junction": (Separation(hours, **{**clean, "fascia_seen": False, **how}),)}


def skin(kind: SkinKind, **how: Any) -> dict[str, Any]:
    return {"skin": (SkinFinding(kind, ClockHours.of(4, 5), 0.0, 15.0, **how),)}


def vitals(**measured: float) -> dict[str, Any]:
    return {"vitals": Vitals(**measured)}


BLOCKED: list[Row] = [
    # 1.1 ileostomy
    ("mild cramps alone: phone first", feels(Symptom.MILD_CRAMPS), T),
    ("mild cramps on day 20", feels(Symptom.MILD_CRAMPS, **DAY_20), S),
    ("spurts alone", feels(Symptom.SPURTING_OUTPUT), T),
    ("milder cramps with spurting", feels(Symptom.MILD_CRAMPS, Symptom.SPURTING_OUTPUT), S),
    ("severe cramps alone", feels(Symptom.SEVERE_CRAMPS), S),
    ("severe cramps, watery", feels(Symptom.SEVERE_CRAMPS, consistency=Consistency.WATERY), E),
    ("severe cramps, silent", feels(Symptom.SEVERE_CRAMPS, hours_without_output=4.0), E),
    ("severe cramps, hours unknown", feels(Symptom.SEVERE_CRAMPS, hours_without_output=None), E),
    ("repeated vomiting alone", feels(Symptom.VOMITING), S),
    ("silent 5 h", {"hours_without_output": 5.9}, R),
    ("silent 6 h", {"hours_without_output": 6.0}, T),
    ("silent 12 h", {"hours_without_output": 12.0}, S),
    ("silent 24 h", {"hours_without_output": 24.0}, E),
    # colostomy
    ("constipation", {**COLO, "hours_without_output": 72.0}, D),
    ("silent 71 h, gas passes", {**COLO, "hours_without_output": 71.0}, R),
    ("no gas, no pain", feels(Symptom.NO_GAS, **COLO), S),
    ("no gas, no stool, pain",
     feels(Symptom.NO_GAS, Symptom.MILD_CRAMPS, **COLO, hours_without_output=24.0), E),
    ("mild cramps, gas passes", feels(Symptom.MILD_CRAMPS, **COLO), D),
    ("mild cramps, swelling", feels(Symptom.MILD_CRAMPS, Symptom.SWOLLEN_ABDOMEN, **COLO), S),
    ("severe colic, swelling", feels(Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN, **COLO), E),
    ("overflow", feels(Symptom.SPURTING_OUTPUT, Symptom.HARD_MASS, **COLO), S),
    ("spurts under an opioid", feels(Symptom.SPURTING_OUTPUT, **COLO, person=OPIOID), S),
    ("overflow, vomiting", feels(Symptom.SPURTING_OUTPUT, Symptom.HARD_MASS, Symptom.VOMITING,
                                 **COLO), E),
    # with a hernia, a prolapse or in pregnancy
    ("one sign with a known hernia", {**bulge(), **feels(Symptom.MILD_CRAMPS)}, S),
    ("two signs with a known hernia",
     {**bulge(), **feels(Symptom.MILD_CRAMPS, Symptom.SWOLLEN_ABDOMEN)}, E),
    ("one sign with a known prolapse", {**prolapse(), **feels(Symptom.MILD_CRAMPS)}, S),
    ("one sign in pregnancy", feels(Symptom.MILD_CRAMPS, person=PREGNANT), S),
    ("two signs in pregnancy",
     feels(Symptom.MILD_CRAMPS, Symptom.SPURTING_OUTPUT, person=PREGNANT), E),
]  # fmt: skip

SUPPLY: list[Row] = [
    # 1.2
    ("a dark part, day 4", {"colour_parts": (ColourPart(Colour.PURPLE, THREE),),
                            "days_since_surgery": 4}, E),
    ("a dusky part of a red stoma, later",
     {"colour_parts": (ColourPart(Colour.DUSKY, THREE),)}, S),
    ("a black part of a dusky stoma, later",
     {"colour": Colour.DUSKY, "colour_parts": (ColourPart(Colour.BLACK_BROWN_GREY, THREE),)}, E),
    ("a red part of a black stoma, later",
     {"colour": Colour.BLACK_BROWN_GREY, "colour_parts": (ColourPart(Colour.PINK_RED, THREE),)}, E),
    ("a red part, the rest not recorded, day 4",
     {"colour": None, "colour_parts": (ColourPart(Colour.PINK_RED, THREE),),
      "days_since_surgery": 4}, S),
    ("a new black part of a dusky stoma that a surgeon knows",
     {"colour": Colour.DUSKY, "colour_known": True,
      "colour_parts": (ColourPart(Colour.BLACK_BROWN_GREY, THREE),)}, E),
    ("a red part of a brown stoma that a surgeon knows",
     {"colour": Colour.BLACK_BROWN_GREY, "colour_known": True,
      "colour_parts": (ColourPart(Colour.PINK_RED, THREE),)}, R),
    *((f"slough beside raw skin, pain {pain}, day 5",
       {"colour": Colour.YELLOW_SLOUGH, **skin(SkinKind.EROSION), "pain_0_10": pain, **DAY_5},
       level) for pain, level in ((0, S), (1, E))),
    ("dusky, later", {"colour": Colour.DUSKY}, S),
    ("dusky, no blood", {"colour": Colour.DUSKY, "bleeds_on_touch": False}, E),
    ("dusky, silent", {"colour": Colour.DUSKY, "hours_without_output": 4.0}, E),
    ("no blood on touch, day 31", {"bleeds_on_touch": False, "days_since_surgery": 31}, S),
    ("no blood on touch, day 30", {"bleeds_on_touch": False, "days_since_surgery": 30}, E),
    ("brown for years, a surgeon knows it",
     {"colour": Colour.BLACK_BROWN_GREY, "colour_known": True}, R),
    ("the same, cold", {"colour": Colour.BLACK_BROWN_GREY, "colour_known": True,
                        "turgor": Turgor.COLD}, E),
    ("the same, touch not tried", {"colour": Colour.BLACK_BROWN_GREY, "colour_known": True,
                                   "bleeds_on_touch": None}, E),
    ("the same, agreement not recorded", {"colour": Colour.BLACK_BROWN_GREY}, E),
    ("the same on day 7", {"colour": Colour.DUSKY, "colour_known": True,
                           "days_since_surgery": 7}, E),
    ("the same, day unknown", {"colour": Colour.DUSKY, "colour_known": True,
                               "days_since_surgery": None}, E),
]  # fmt: skip

ILL: list[Row] = [
    # 1.3
    ("fever alone, day 20", {**vitals(temperature_c=38.0), **DAY_20}, S),
    ("37.9, day 20", {**vitals(temperature_c=37.9), **DAY_20}, R),
    ("fever and mild cramps, day 20",
     {**vitals(temperature_c=38.0), **feels(Symptom.MILD_CRAMPS), **DAY_20}, E),
    ("fever and pulse 111, day 20", {**vitals(temperature_c=38.0, pulse=111.0), **DAY_20}, E),
    ("fever and pulse 110, day 20", {**vitals(temperature_c=38.0, pulse=110.0), **DAY_20}, S),
    ("pulse 111, day 20", {**vitals(pulse=111.0), **DAY_20}, S),
    ("pulse 111 later", vitals(pulse=111.0), S),
    ("mild pain that rises, day 20", feels(Symptom.RISING_PAIN, pain_0_10=2, **DAY_20), S),
    ("that and pulse 111", {**feels(Symptom.RISING_PAIN, pain_0_10=2, **DAY_20),
                            **vitals(pulse=111.0)}, E),
    ("rigors, day 20", feels(Symptom.RIGORS, **DAY_20), E),
    ("fever and rigors later", {**feels(Symptom.RIGORS), **vitals(temperature_c=38.5)}, S),
    ("fever and a painful belly later",
     {**feels(Symptom.MILD_CRAMPS), **vitals(temperature_c=38.5)}, S),
    ("that and spurts", {**feels(Symptom.MILD_CRAMPS, Symptom.SPURTING_OUTPUT),
                         **vitals(temperature_c=38.5)}, E),
    ("breathing 24", vitals(breaths=24.0), R),
    ("breathing 25", vitals(breaths=25.0), E),
    ("pulse 130", vitals(pulse=130.0), S),
    ("pulse 131", vitals(pulse=131.0), E),
    ("pressure 91", vitals(systolic_mmhg=91.0), R),
    ("pressure 90", vitals(systolic_mmhg=90.0), E),
    ("pressure 100 beside fever", vitals(systolic_mmhg=100.0, temperature_c=38.0), E),
    ("pressure 101 beside fever", vitals(systolic_mmhg=101.0, temperature_c=38.0), S),
    # 1.4
    ("cellulitis", skin(SkinKind.SPREADING_WARMTH), S),
    ("past its mark in 4 h", skin(SkinKind.SPREADING_WARMTH, hours_to_spread=4.0), E),
    ("past its mark in 5 h", skin(SkinKind.SPREADING_WARMTH, hours_to_spread=5.0), S),
    ("abscess", skin(SkinKind.ABSCESS), S),
    ("crackling", skin(SkinKind.ERYTHEMA, numb_or_crackling=True), S),
    ("crackling, pulse 101",
     {**skin(SkinKind.ERYTHEMA, numb_or_crackling=True), **vitals(pulse=101.0)}, E),
    ("spread in hours, pain 7",
     {**skin(SkinKind.UNDERMINED_ULCER, hours_to_spread=12.0), "pain_0_10": 7}, E),
    ("spread in days, pain 7: pyoderma",
     {**skin(SkinKind.UNDERMINED_ULCER, hours_to_spread=72.0, enlarging=True), "pain_0_10": 7}, S),
]  # fmt: skip

PLACE: list[Row] = [
    # 1.10
    ("known prolapse that goes back", prolapse(), R),
    ("known prolapse that stays out", prolapse(reducible=False), R),
    ("new prolapse that stays out", prolapse(reducible=False, new=True), S),
    ("new prolapse that goes back", prolapse(new=True), W),
    ("not known to be old", prolapse(new=None), W),
    ("swells", prolapse(growing=True), S),
    ("hurts a little, goes back", {**prolapse(painful=True), "pain_0_10": 3}, S),
    ("hurts badly", {**prolapse(painful=True), "pain_0_10": 7}, E),
    ("pain not asked, stays out", prolapse(reducible=False, painful=None), S),
    ("hard", {**prolapse(), "turgor": Turgor.HARD}, E),
    # 1.11
    ("known soft hernia", bulge(), R),
    ("new soft hernia", bulge(new=True), W),
    ("painful, goes back", bulge(painful=True), S),
    ("painful, not tried", bulge(painful=True, reducible=None), E),
    ("newly stuck, painless", bulge(reducible=False), S),
    ("red skin over it", bulge(skin_changed=True), E),
    ("hard", bulge(hard=True), S),
    # 1.12
    ("bowel outside", {"bowel_outside": True}, E),
    # 1.13
    ("ribbon stool", feels(Symptom.RIBBON_STOOL, **COLO), W),
    ("ribbon stool, index finger passes",
     feels(Symptom.RIBBON_STOOL, **COLO, calibre=Calibre.INDEX_FINGER), W),
    ("ribbon stool, fingertip",
     feels(Symptom.RIBBON_STOOL, **COLO, calibre=Calibre.FINGERTIP), D),
    ("explosive without cramps", feels(Symptom.EXPLOSIVE_OUTPUT, **COLO), R),
    # 1.14
    ("class 0", gap(depth_mm=1.5), D),
    ("class 1", gap(depth_mm=5.0), D),
    ("class 2", gap(depth_mm=20.0), D),
    ("class 3 by depth", gap(depth_mm=20.5), S),
    ("class 3 by half the ring", gap(ClockHours.of(1, 2, 3, 4, 5, 6), depth_mm=5.5), S),
    ("five hours of it", gap(ClockHours.of(1, 2, 3, 4, 5), depth_mm=5.5), D),
    ("class 3 all round", gap(ALL, depth_mm=2.0), S),
    ("class 4", gap(depth_mm=3.0, base_visible=False), S),
    ("class 4, pulse 101", {**gap(contaminated=True), **vitals(pulse=101.0)}, E),
    ("class 4, pulse 100", {**gap(contaminated=True), **vitals(pulse=100.0)}, S),
    ("class 1, fever, painful belly",
     {**gap(depth_mm=3.0), **vitals(temperature_c=38.0), **feels(Symptom.ABDOMINAL_PAIN)}, E),
    ("depth unknown, later", gap(), D),
    ("depth unknown, day 20", {**gap(), **DAY_20}, S),
    # 1.15
    ("fistula", skin(SkinKind.FISTULA), D),
    ("fistula, fever", {**skin(SkinKind.FISTULA), **vitals(temperature_c=38.0)}, S),
    ("fistula, day 20", {**skin(SkinKind.FISTULA), **DAY_20}, S),
    ("fistula, fever, day 20",
     {**skin(SkinKind.FISTULA), **vitals(temperature_c=38.0), **DAY_20}, E),
    # 1.16
    ("hard lump", skin(SkinKind.HARD_LUMP), W),
    ("small dark spot that does not change",
     skin(SkinKind.PIGMENTED_SPOT, changing=False, across_mm=6.0), R),
    ("dark spot, 6.5 mm", skin(SkinKind.PIGMENTED_SPOT, changing=False, across_mm=6.5), W),
    ("dark spot, change unknown", skin(SkinKind.PIGMENTED_SPOT, across_mm=4.0), W),
    # 3, 8
    ("pale line", {"rubbed": True}, W),
    ("deep cut", {"deep_cut": True}, S),
    ("wound", {"wounds": (Wound(THREE, pus=False),)}, D),
    ("wound with pus", {"wounds": (Wound(THREE, pus=True),)}, S),
    ("content free from a wound, day 20",
     {"wounds": (Wound(THREE, comes_free=True),), **DAY_20}, E),
    ("mucus from below", {"discharge": Discharge.MUCUS}, R),
    ("old stool once", {"discharge": Discharge.OLD_STOOL_ONCE}, R),
    ("stool again", {"discharge": Discharge.STOOL_AGAIN}, D),
    ("pus", {"discharge": Discharge.PUS}, S),
    # rule 9
    ("pain 3", {"pain_0_10": 3}, R),
    ("pain 4", {"pain_0_10": 4}, D),
    ("pain 6", {"pain_0_10": 6}, D),
    ("pain 7", {"pain_0_10": 7}, S),
    ("pain that rises, no score", feels(Symptom.RISING_PAIN, pain_0_10=None), S),
]  # fmt: skip


ROWS = [*BLOCKED, *SUPPLY, *ILL, *PLACE]


@pytest.mark.parametrize(("name", "changes", "urgency"), ROWS, ids=[name for name, *_ in ROWS])
def test_level(name: str, changes: dict[str, Any], urgency: Urgency) -> None:
    assert recommend(all_good(**changes)).urgency is urgency, name


# --- rule 2: a companion not asked is never a no ----------------------------------------------
@pytest.mark.parametrize(
    ("changes", "open_", "asks"),
    [
        (feels(Symptom.MILD_CRAMPS), Symptom.VOMITING, "vomiting"),
        (feels(Symptom.MILD_CRAMPS), Symptom.SWOLLEN_ABDOMEN, "a swollen abdomen"),
        ({"hours_without_output": 6.0}, Symptom.SEVERE_CRAMPS, "severe cramps"),
        ({**COLO, "hours_without_output": 72.0}, Symptom.NO_GAS, "does gas pass"),
    ],
)
def test_what_could_make_it_an_emergency_and_was_not_asked_is_seen_today_and_asked_for(
    changes: dict[str, Any], open_: Symptom, asks: str
) -> None:
    known = all_good(**changes)
    less = replace(known, output=replace(known.output, absent=known.output.absent - {open_}))
    plan = recommend(less)
    assert recommend(known).urgency.rank > plan.urgency.rank
    assert plan.urgency is S
    assert asks in plan.red_flags[0].do


def test_a_call_becomes_an_emergency_or_stays_one_with_the_answer() -> None:
    """The answer replaces the level in the same visit."""
    assert recommend(all_good(**feels(Symptom.MILD_CRAMPS))).urgency is T
    answered = recommend(all_good(**feels(Symptom.MILD_CRAMPS, Symptom.VOMITING,
                                          Symptom.SWOLLEN_ABDOMEN)))  # fmt: skip
    assert answered.urgency is E


def test_temperature_and_pulse_not_taken_are_asked_for() -> None:
    for changes in (skin(SkinKind.SPREADING_WARMTH), gap(contaminated=True), feels(Symptom.RIGORS)):
        flag = recommend(well(**changes)).red_flags[0]
        assert flag.urgency is S
        assert flag.do.startswith("Ask now: temperature and pulse"), flag.key


# --- known and agreed: usual while unchanged, shown either way ----------------------------------
def agreed(kind: BaselineKind, **how: Any) -> History:
    return History(baselines=(Baseline(kind, "surgeon A", **how),))


def told(plan: Plan) -> str:
    return " ".join(notice.text for notice in plan.notices)


@pytest.mark.parametrize(
    ("kind", "how", "found", "urgency", "said"),
    [
        (BaselineKind.PROLAPSE, {"value": 40.0, "reducible": True}, prolapse(new=None), R,
         "Compared with what surgeon A agreed (prolapse, 40 mm): as known."),
        (BaselineKind.PROLAPSE, {"value": 40.0, "reducible": False},
         prolapse(new=None, reducible=False), R, "as known."),
        (BaselineKind.PROLAPSE, {"value": 40.0, "reducible": True},
         prolapse(new=False, reducible=False), S, "worse: it no longer goes back"),
        (BaselineKind.PROLAPSE, {"value": 40.0}, prolapse(extra_length_mm=64.0), R, "as known."),
        (BaselineKind.PROLAPSE, {"value": 40.0}, prolapse(extra_length_mm=65.0), D,
         "worse: it is longer"),
        (BaselineKind.BULGE, {"value": 60.0, "reducible": True}, bulge(new=None, width_mm=89.0), R,
         "as known."),
        (BaselineKind.BULGE, {"value": 60.0, "reducible": True}, bulge(width_mm=90.0), D,
         "worse: it is larger"),
        (BaselineKind.BULGE, {"reducible": False}, bulge(new=None, reducible=False), R,
         "as known."),
        (BaselineKind.SEPARATION, {"value": 8.0}, gap(depth_mm=8.0), R, "as known."),
        (BaselineKind.SEPARATION, {"value": 8.0}, gap(depth_mm=9.0), D, "it is deeper"),
        (BaselineKind.NARROW_LUMEN, {}, {**COLO, "calibre": Calibre.LITTLE_FINGER}, R,
         "as known."),
        (BaselineKind.THICK_SKIN, {}, skin(SkinKind.WARTY, changing=True), W, "it grows"),
        (BaselineKind.DARK_STOMA, {}, {"colour": Colour.DUSKY, "colour_known": True}, R,
         "as known."),
        (BaselineKind.DARK_STOMA, {}, {"colour": Colour.DUSKY}, S, "worse: colour and feel"),
    ],
)  # fmt: skip
def test_what_was_agreed_is_compared_and_never_silently(
    kind: BaselineKind, how: dict[str, Any], found: dict[str, Any], urgency: Urgency, said: str
) -> None:
    """Section 5: +25 mm of a prolapse and +30 mm of a bulge are alarming."""
    plan = recommend(all_good(**found), agreed(kind, **how))
    assert plan.urgency is urgency
    assert said in told(plan)


def test_an_agreement_past_its_review_no_longer_counts() -> None:
    lapsed = agreed(BaselineKind.PROLAPSE, value=40.0, reducible=True, review_in_days=-1.0)
    plan = recommend(all_good(**prolapse(new=None)), lapsed)
    assert plan.urgency is W
    assert "overdue for review" in told(plan)
    assert "Compared with" not in told(plan)


def test_a_prolapse_or_bulge_of_an_earlier_visit_is_not_new() -> None:
    for found in (prolapse(new=None), bulge(new=None)):
        before = History(previous=(all_good(**found, days_since_surgery=300),))
        assert recommend(all_good(**found), before).urgency is R


def test_warty_skin_that_has_not_flattened_after_six_weeks_is_seen_by_a_surgeon() -> None:
    """1.16: 6-8 weeks; the earlier end."""
    found = skin(SkinKind.WARTY)
    for days, raised in ((42, True), (41, False)):
        before = History(previous=(all_good(**found, days_since_surgery=400 - days),))
        keys = {flag.key for flag in recommend(all_good(**found), before).red_flags}
        assert ("warty_stays" in keys) is raised
    unseen = History(previous=(all_good(skin=None, days_since_surgery=300),))
    assert "warty_stays" not in {f.key for f in recommend(all_good(**found), unseen).red_flags}

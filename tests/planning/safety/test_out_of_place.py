"""Prolapse, bulge, gap, narrowing, second opening, wound and lump: each answer, each figure."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bleeding,
    Bulge,
    Calibre,
    Colour,
    Discharge,
    Findings,
    Prolapse,
    Separation,
    SkinKind,
    StomaKind,
    Symptom,
    Turgor,
    Vitals,
    Wound,
)
from planning.results.plan import Urgency
from planning.safety.flags_growth import dark_spot, lump, warty_stays
from planning.safety.flags_hernia import bulge_new, bulge_unasked, hernia_trapped
from planning.safety.flags_opening import discharge, fistula, wound, wound_leaks
from planning.safety.flags_prolapse import prolapse_new, prolapse_trapped, prolapse_unasked
from planning.safety.flags_stoma import (
    bowel_outside,
    deep_cut,
    narrow,
    rubbed,
    separation,
    separation_deep,
    separation_shallow,
)
from tests.planning.builders import ALL, seen
from tests.planning.safety.judged import D, E, S, W, ask, found, level, said, verdict
from tests.planning.safety.test_levels_of_facts import bulge, gap, prolapse

THREE = ClockHours.of(3)
HOT = Vitals(temperature_c=38.0)
EARLY: dict[str, Any] = {"days_since_surgery": 30}
LATER: dict[str, Any] = {"days_since_surgery": 31}
COLO: dict[str, Any] = {"kind": StomaKind.COLOSTOMY}


def known(kind: BaselineKind, **how: Any) -> History:
    return History(baselines=(Baseline(kind, "surgeon", review_in_days=30.0, **how),))


def before(*, days: int = 100, **changes: Any) -> History:
    return History(previous=(found(days_since_surgery=400 - days, **changes),))


# --- prolapse ---------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("today", "urgency"),
    [
        (found(**prolapse()), None),
        (found(**prolapse(), colour=Colour.DUSKY), E),
        (found(**prolapse(), colour=Colour.DUSKY, colour_known=True), None),
        (found(**prolapse(), turgor=Turgor.HARD), E),
        (found(**prolapse(), turgor=Turgor.COLD), E),
        (found(**prolapse(), turgor=Turgor.DRY), None),
        (found(**prolapse(painful=True), pain_0_10=6), S),
        (found(**prolapse(painful=True), pain_0_10=7), E),
        (found(**prolapse(painful=True), pain_0_10=None), E),
        (found(**prolapse(painful=False), pain_0_10=8), None),
        (found(**prolapse(painful=True, reducible=False), pain_0_10=1), E),
        (found(**prolapse(painful=True, reducible=None), pain_0_10=1), E),
        (found(Symptom.VOMITING, **prolapse(), hours_without_output=4.0), E),
        (found(Symptom.VOMITING, **prolapse()), None),
        (found(**prolapse(), hours_without_output=4.0), None),
        (found(**prolapse(reducible=False, new=False)), None),
        (found(**prolapse(reducible=False, new=True)), S),
        (found(**prolapse(reducible=False, new=None)), S),
        (found(**prolapse(growing=True)), S),
        (found(prolapse=None), None),
    ],
)
def test_a_prolapse_in_danger(today: Findings, urgency: Urgency | None) -> None:
    assert level(prolapse_trapped, today) is urgency


def test_one_prolapse_in_danger_is_not_hidden_by_another() -> None:
    still, stuck = Prolapse(30.0, True, False, False), Prolapse(30.0, False, True, False)
    for both in ((still, stuck), (stuck, still), (Prolapse(30.0, False, False, True), stuck)):
        assert level(prolapse_trapped, found(prolapse=both)) is E


@pytest.mark.parametrize(
    ("history", "today", "urgency"),
    [
        (known(BaselineKind.PROLAPSE, reducible=True), prolapse(reducible=False, new=False), S),
        (known(BaselineKind.PROLAPSE, reducible=False), prolapse(reducible=False, new=False), None),
        (known(BaselineKind.PROLAPSE, reducible=False), prolapse(reducible=False, new=None), None),
        (known(BaselineKind.PROLAPSE, reducible=True), prolapse(new=False), None),
        (before(**prolapse()), prolapse(reducible=False, new=None), None),
        (before(prolapse=()), prolapse(reducible=False, new=None), S),
    ],
)
def test_a_prolapse_that_stays_out_is_today_unless_it_is_known(
    history: History, today: dict[str, Any], urgency: Urgency | None
) -> None:
    assert level(prolapse_trapped, found(**today), history) is urgency


@pytest.mark.parametrize("ulcer", [True, False])
def test_a_known_prolapse_that_changed_beside_an_ulcer_is_seen_today(ulcer: bool) -> None:
    skin = (seen(SkinKind.ULCER),) if ulcer else ()
    longer = found(**prolapse(extra_length_mm=90.0, new=False), skin=skin)
    history = known(BaselineKind.PROLAPSE, value=40.0)
    assert level(prolapse_trapped, longer, history) is (S if ulcer else None)
    same = found(**prolapse(new=False), skin=skin)
    assert level(prolapse_trapped, same, history) is None
    assert level(prolapse_trapped, longer) is None


@pytest.mark.parametrize(
    ("today", "words"),
    [
        (found(**prolapse()), None),
        (found(**prolapse(painful=None)), "whether it hurts"),
        (found(**prolapse(reducible=None, new=True)), "whether it goes back"),
        (found(**prolapse(reducible=None, new=False)), None),
        (found(**prolapse(), colour=None, turgor=None), None),
        (found(**prolapse(reducible=False), colour=None, turgor=None),
         "its colour and whether it is soft"),
    ],
)  # fmt: skip
def test_what_was_not_asked_of_a_prolapse(today: Findings, words: str | None) -> None:
    raised = verdict(prolapse_unasked, today)
    assert (None if raised is None else raised.found) == (
        words and f"There is a prolapse; not recorded: {words}."
    )


@pytest.mark.parametrize(
    ("today", "history", "urgency", "words"),
    [
        (prolapse(new=True), History(), W, "The prolapse is new."),
        (prolapse(new=None), History(), W, "Whether the prolapse is new is not recorded."),
        (prolapse(new=False), History(), None, None),
        (prolapse(new=None), before(**prolapse()), None, None),
        (prolapse(new=None), known(BaselineKind.PROLAPSE), None, None),
        (prolapse(extra_length_mm=65.0), known(BaselineKind.PROLAPSE, value=40.0), D,
         "The prolapse is not as it was agreed: it is longer."),
        ({"prolapse": ()}, known(BaselineKind.PROLAPSE, value=40.0), None, None),
    ],
)  # fmt: skip
def test_a_new_prolapse(
    today: dict[str, Any], history: History, urgency: Urgency | None, words: str | None
) -> None:
    assert level(prolapse_new, found(**today), history) is urgency
    assert words is None or said(prolapse_new, found(**today), history) == words


# --- bulge ------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("today", "urgency"),
    [
        (found(**bulge()), None),
        (found(bulges=None), None),
        (found(**bulge(painful=True)), S),
        (found(**bulge(painful=True, reducible=False)), E),
        (found(**bulge(painful=True, reducible=None)), E),
        (found(**bulge(painful=None, reducible=None)), None),
        (found(**bulge(skin_changed=True)), E),
        (found(**bulge(hard=True)), S),
        (found(Symptom.VOMITING, **bulge()), E),
        (found(**bulge(), hours_without_output=4.0), E),
        (found(**bulge(), hours_without_output=3.9), None),
        *((found(sign, **bulge(painful=True)), E) for sign in (
            Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN)),
        *((found(sign, **bulge(reducible=False)), E) for sign in (
            Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN)),
        (found(Symptom.SEVERE_CRAMPS, **bulge()), None),
        (found(Symptom.MILD_CRAMPS, **bulge(painful=True)), S),
        (found(**bulge(reducible=False)), S),
    ],
)  # fmt: skip
def test_a_bulge_in_danger(today: Findings, urgency: Urgency | None) -> None:
    assert level(hernia_trapped, today) is urgency
    raised = verdict(hernia_trapped, today)
    assert raised is None or (raised.also == "Nothing by mouth.") is (urgency is E)


def test_one_bulge_in_danger_is_not_hidden_by_another() -> None:
    still, hard = Bulge(THREE, reducible=True, painful=False), Bulge(THREE, hard=True)
    stuck = Bulge(THREE, reducible=False, painful=True)
    for bulges in ((still, hard, stuck), (stuck, hard, still)):
        assert level(hernia_trapped, found(bulges=bulges)) is E


@pytest.mark.parametrize(
    ("history", "urgency"),
    [
        (known(BaselineKind.BULGE, reducible=False), None),
        (known(BaselineKind.BULGE, reducible=False, value=20.0), S),
        (known(BaselineKind.BULGE, reducible=True), S),
        (before(**bulge(reducible=False)), None),
        (before(**bulge(reducible=True)), S),
        (before(**bulge(reducible=False, painful=True)), S),
        # The visit before counts, not one long ago.
        (replace(before(**bulge(reducible=False)),
                 previous=(*before(**bulge(reducible=False)).previous,
                           *before(days=50, **bulge()).previous)), S),
    ],
)  # fmt: skip
def test_a_bulge_that_stays_out_without_pain(history: History, urgency: Urgency | None) -> None:
    today = found(**bulge(reducible=False, width_mm=50.0))
    assert level(hernia_trapped, today, history) is urgency


@pytest.mark.parametrize(
    ("reducible", "painful", "open_"),
    [(None, None, True), (True, None, False), (None, False, False)],
)
def test_a_bulge_of_which_nothing_was_asked(
    reducible: bool | None, painful: bool | None, open_: bool
) -> None:
    today = found(**bulge(reducible=reducible, painful=painful))
    assert level(bulge_unasked, today) is (D if open_ else None)


@pytest.mark.parametrize(
    ("today", "history", "urgency", "words"),
    [
        (bulge(new=True), History(), W, "The bulge is new."),
        (bulge(new=None), History(), W, "Whether the bulge is new is not recorded."),
        (bulge(new=False), History(), None, None),
        (bulge(new=None), before(**bulge()), None, None),
        (bulge(new=None), before(bulges=()), W, "Whether the bulge is new is not recorded."),
        (bulge(new=None), known(BaselineKind.BULGE), None, None),
        (bulge(width_mm=90.0), known(BaselineKind.BULGE, value=60.0), D,
         "The bulge is not as it was agreed: it is larger."),
    ],
)  # fmt: skip
def test_a_new_bulge(
    today: dict[str, Any], history: History, urgency: Urgency | None, words: str | None
) -> None:
    assert level(bulge_new, found(**today), history) is urgency
    assert words is None or said(bulge_new, found(**today), history) == words


# --- edge, surface, opening -------------------------------------------------------------------
OPEN = gap(depth_mm=3.0, base_visible=False)


@pytest.mark.parametrize(
    ("judge", "today", "urgency"),
    [
        (bowel_outside, found(bowel_outside=True), E),
        (bowel_outside, found(), None),
        (bowel_outside, found(bowel_outside=None), None),
        (separation_shallow, found(**gap(depth_mm=5.0)), D),
        (separation_shallow, found(**gap(depth_mm=5.1)), None),
        (separation, found(**gap(depth_mm=5.0)), None),
        (separation, found(**gap(depth_mm=5.1)), D),
        (separation, found(**gap(depth_mm=20.0)), D),
        (separation, found(**gap(depth_mm=20.1)), None),
        (separation_deep, found(**gap(depth_mm=20.0)), None),
        (separation_deep, found(**gap(depth_mm=20.1)), S),
        (separation_deep, found(**OPEN), S),
        (separation_deep, found(), None),
        # Fever and a painful belly with any gap; into the depth any one sign.
        (separation_deep, found(Symptom.ABDOMINAL_PAIN, vitals=HOT, **gap(depth_mm=1.0)), E),
        (separation_deep, found(vitals=HOT, **gap(depth_mm=1.0)), None),
        (separation_deep, found(Symptom.ABDOMINAL_PAIN, **gap(depth_mm=1.0)), None),
        (separation_deep, found(vitals=HOT, **OPEN), E),
        *((separation_deep, found(sign, **OPEN), E) for sign in (
            Symptom.RIGORS, Symptom.MILD_CRAMPS, Symptom.SWOLLEN_ABDOMEN, Symptom.RIGID_ABDOMEN)),
        (separation_deep, found(vitals=Vitals(pulse=101.0), **OPEN), E),
        (separation_deep, found(vitals=Vitals(pulse=100.0), **OPEN), S),
        (separation_deep, found(Symptom.RIGORS, **gap(depth_mm=20.1)), S),
        (deep_cut, found(deep_cut=True), S),
        (deep_cut, found(), None),
        (rubbed, found(rubbed=True), W),
        (rubbed, found(rubbed=True, deep_cut=True), None),
        (rubbed, found(rubbed=True, bleeding=Bleeding.ON_WIPING), S),
        (rubbed, found(rubbed=True, bleeding=None), W),
        (rubbed, found(), None),
    ],
)  # fmt: skip
def test_the_edge_and_the_surface(judge: Any, today: Findings, urgency: Urgency | None) -> None:
    assert level(judge, today) is urgency


@pytest.mark.parametrize(
    ("judge", "today", "words"),
    [
        (rubbed, found(rubbed=True), ""),
        (rubbed, found(rubbed=True, bleeding=None), "does it bleed"),
        (separation, found(**gap(depth_mm=8.0)), ""),
        (separation, found(**gap(depth_mm=8.0, base_visible=None)),
         "is the base of the gap to be seen"),
        (separation_deep, found(**OPEN), ""),
    ],
)  # fmt: skip
def test_what_decides_is_asked(judge: Any, today: Findings, words: str) -> None:
    assert ask(judge, today) == words


@pytest.mark.parametrize("judge", [separation_shallow, separation, separation_deep])
def test_a_gap_that_was_agreed_is_no_news(judge: Any) -> None:
    depth = {separation_shallow: 3.0, separation: 8.0, separation_deep: 25.0}[judge]
    today, agreed = found(**gap(depth_mm=depth)), known(BaselineKind.SEPARATION, value=depth)
    assert level(judge, today) is not None
    assert level(judge, today, agreed) is None
    deeper = known(BaselineKind.SEPARATION, value=depth - 1)
    assert level(judge, today, deeper) is not None


FINGER, FINGERTIP, SMALL = Calibre.INDEX_FINGER, Calibre.FINGERTIP, Calibre.LITTLE_FINGER
EXPLOSIVE = (Symptom.EXPLOSIVE_OUTPUT, Symptom.MILD_CRAMPS)


@pytest.mark.parametrize(
    ("today", "urgency"),
    [
        (found(), None),
        (found(calibre=FINGER), None),
        (found(calibre=SMALL), W),
        (found(calibre=FINGERTIP), W),
        (found(calibre=Calibre.NOTHING), D),
        (found(Symptom.RIBBON_STOOL, calibre=FINGER), W),
        (found(Symptom.RIBBON_STOOL), W),
        (found(Symptom.RIBBON_STOOL, calibre=SMALL), D),
        (found(*EXPLOSIVE, calibre=SMALL), D),
        (found(*EXPLOSIVE), W),
        (found(Symptom.EXPLOSIVE_OUTPUT), None),
        (found(Symptom.MILD_CRAMPS), None),
    ],
)
def test_a_narrow_stoma(today: Findings, urgency: Urgency | None) -> None:
    assert level(narrow, today) is urgency
    for kind, soft in ((StomaKind.COLOSTOMY, True), (StomaKind.ILEOSTOMY, False)):
        raised = verdict(narrow, replace(today, stoma=replace(today.stoma, kind=kind)))
        assert raised is None or ("kept soft" in raised.also) is soft


def test_what_is_said_of_a_narrow_stoma_and_when_it_is_known() -> None:
    assert "not examined" in said(narrow, found(Symptom.RIBBON_STOOL))
    assert "not examined" not in said(narrow, found(Symptom.RIBBON_STOOL, calibre=FINGER))
    agreed = known(BaselineKind.NARROW_LUMEN)
    assert level(narrow, found(calibre=SMALL), agreed) is None
    assert level(narrow, found(Symptom.RIBBON_STOOL, calibre=SMALL), agreed) is D


# --- second opening, wound, discharge ---------------------------------------------------------
HOLE: dict[str, Any] = {"skin": (seen(SkinKind.FISTULA),)}
FREE, SOILED = Wound(THREE, comes_free=True), Wound(THREE, effluent_reaches=True)


@pytest.mark.parametrize(
    ("judge", "today", "urgency"),
    [
        (fistula, found(), None),
        (fistula, found(**HOLE, **LATER), D),
        (fistula, found(**HOLE, **EARLY), S),
        *((fistula, found(sign, **HOLE, **LATER), S) for sign in (
            Symptom.FEVER, Symptom.SWOLLEN_ABDOMEN, Symptom.MILD_CRAMPS)),
        *((fistula, found(sign, **HOLE, **EARLY), E) for sign in (
            Symptom.FEVER, Symptom.SWOLLEN_ABDOMEN, Symptom.MILD_CRAMPS)),
        (fistula, found(skin=(seen(SkinKind.FISTULA, pain=True),), **LATER), S),
        (wound_leaks, found(wounds=(FREE,), **LATER), S),
        (wound_leaks, found(wounds=(FREE,), **EARLY), E),
        (wound_leaks, found(Symptom.FEVER, wounds=(FREE,), **LATER), E),
        (wound_leaks, found(Symptom.MILD_CRAMPS, wounds=(FREE,), **LATER), E),
        (wound_leaks, found(wounds=(SOILED,), **EARLY), S),
        (wound_leaks, found(wounds=(SOILED,), **LATER), None),
        (wound_leaks, found(wounds=(Wound(THREE, effluent_reaches=False),), **EARLY), None),
        (wound_leaks, found(wounds=(replace(SOILED, comes_free=False),), **EARLY), None),
        (wound_leaks, found(wounds=None, **EARLY), None),
        (wound, found(wounds=(Wound(THREE, pus=False),)), D),
        (wound, found(wounds=(Wound(THREE, pus=None),)), D),
        (wound, found(wounds=(Wound(THREE, pus=False), Wound(THREE, pus=True))), S),
        (wound, found(Symptom.FEVER, wounds=(Wound(THREE, pus=False),)), S),
        (wound, found(wounds=(Wound(THREE, pus=False),), **gap(depth_mm=3.0)), S),
        (wound, found(wounds=()), None),
        *((discharge, found(discharge=comes), urgency) for comes, urgency in (
            (Discharge.PUS, S), (Discharge.BLOOD, S), (Discharge.STOOL_AGAIN, D),
            (Discharge.MUCUS, None), (Discharge.OLD_STOOL_ONCE, None), (None, None))),
    ],
)  # fmt: skip
def test_a_second_opening_a_wound_or_a_discharge(
    judge: Any, today: Findings, urgency: Urgency | None
) -> None:
    assert level(judge, today) is urgency


def test_which_wound_it_is() -> None:
    raised = verdict(wound_leaks, found(wounds=(Wound(THREE), FREE), **LATER))
    assert raised is not None
    assert raised.at == "wounds[1].comes_free"
    spilled = verdict(wound_leaks, found(wounds=(Wound(THREE), SOILED), **EARLY))
    assert spilled is not None
    assert spilled.at == "wounds[1].comes_free"


# --- lumps ------------------------------------------------------------------------------------
WARTS = (seen(SkinKind.WARTY),)
GROWTH: tuple[tuple[dict[str, Any], Urgency | None], ...] = (
    ({}, None),
    ({"enlarging": True}, W),
    ({"changing": True}, W),
    ({"enlarging": False, "changing": False}, None),
)
SPOT = SkinKind.PIGMENTED_SPOT


@pytest.mark.parametrize(
    ("judge", "skin", "urgency"),
    [
        (lump, (), None),
        (lump, (seen(SkinKind.HARD_LUMP),), W),
        *((lump, (seen(kind, **how),), urgency)
          for kind in (SkinKind.GRANULOMA, SkinKind.WARTY)
          for how, urgency in GROWTH),
        (lump, (seen(SkinKind.ERYTHEMA, enlarging=True),), None),
        (dark_spot, (seen(SPOT, changing=False, across_mm=6.0),), None),
        (dark_spot, (seen(SPOT, changing=False, across_mm=6.1),), W),
        (dark_spot, (seen(SPOT, changing=False),), W),
        (dark_spot, (seen(SPOT, changing=None, across_mm=3.0),), W),
        (dark_spot, (seen(SPOT, changing=True, across_mm=3.0),), W),
        (dark_spot, (seen(SPOT, changing=False, across_mm=3.0), seen(SPOT)), W),
    ],
)  # fmt: skip
def test_a_lump_or_a_spot(judge: Any, skin: Any, urgency: Urgency | None) -> None:
    assert level(judge, found(skin=skin)) is urgency


@pytest.mark.parametrize(
    ("skin", "history", "urgency"),
    [
        (WARTS, before(days=42, skin=WARTS), W),
        (WARTS, before(days=41, skin=WARTS), None),
        (WARTS, before(days=42, skin=(seen(SkinKind.ERYTHEMA),)), None),
        (WARTS, before(days=42, skin=None), None),
        (WARTS, History(), None),
        ((), before(days=42, skin=WARTS), None),
        (WARTS, History(previous=(found(days_since_surgery=None, skin=WARTS),)), None),
        (WARTS, replace(before(days=42, skin=WARTS),
                        baselines=known(BaselineKind.THICK_SKIN).baselines), None),
    ],
)  # fmt: skip
def test_warty_skin_that_stays(skin: Any, history: History, urgency: Urgency | None) -> None:
    """Six weeks after it was first seen (design value)."""
    assert level(warty_stays, found(skin=skin), history) is urgency
    undated = found(skin=skin, days_since_surgery=None)
    assert level(warty_stays, undated, history) is None


def test_all_round_is_very_deep_whatever_its_depth() -> None:
    assert level(separation_deep, found(junction=(Separation(ALL, 3.0, True),))) is S

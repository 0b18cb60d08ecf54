"""Pain, skin, colour and medicines: each rule alone, either side of each figure."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning.inputs.findings import (
    Accessory,
    Bleeding,
    Colour,
    ColourPart,
    Condition,
    Findings,
    Medicine,
    Profile,
    RemovalReason,
    SkinKind,
    StomaKind,
    Symptom,
    Turgor,
    Vitals,
    WearEpisode,
)
from planning.results.plan import Urgency
from planning.safety.flags_colour import dusky, lifeless, necrosis, pale, slough, sunken, unseen
from planning.safety.flags_illness import anaphylaxis, loin_pain, pain, weals_unasked
from planning.safety.flags_medicines import (
    drug_with_losses,
    laxative_with_ileostomy,
    nicorandil,
    tablets_whole,
)
from planning.safety.flags_restless import drowsy, restless
from planning.safety.red_flags import RULES
from tests.planning.builders import ALL, LOW, raw, seen
from tests.planning.safety.dangers import KNOWN
from tests.planning.safety.judged import D, E, S, W, ask, found, having, level, said, verdict
from tests.planning.safety.test_levels_of_facts import gap

EARLY: dict[str, Any] = {"days_since_surgery": 30}
LATER: dict[str, Any] = {"days_since_surgery": 31}
COLO: dict[str, Any] = {"kind": StomaKind.COLOSTOMY}
URO: dict[str, Any] = {"kind": StomaKind.UROSTOMY}
BY_KEY = {rule.key: rule.judge for rule in RULES}
SORE: dict[str, Any] = {"skin": (raw(),)}


def taking(*medicines: Medicine) -> dict[str, Any]:
    return {"person": replace(KNOWN, medicines=frozenset(medicines))}


def list_unknown() -> dict[str, Any]:
    return {"person": replace(KNOWN, medicines=None)}


Row = tuple[Any, Findings, Urgency | None]

ILLNESS: list[Row] = [
    (pain, found(pain_0_10=3, **LATER), None),
    (pain, found(pain_0_10=4, **LATER), D),
    (pain, found(pain_0_10=6, **LATER), D),
    (pain, found(pain_0_10=7, **LATER), S),
    (pain, found(pain_0_10=4, **EARLY), S),
    (pain, found(pain_0_10=7, **EARLY), E),
    (pain, found(pain_0_10=3, **EARLY), None),
    *((pain, found(sign, pain_0_10=3, **day), urgency)
      for sign in (Symptom.RISING_PAIN, Symptom.ABDOMINAL_PAIN)
      for day, urgency in ((LATER, D), (EARLY, S))),
    # Without a score
    (pain, found(pain_0_10=None), None),
    (pain, found(Symptom.RISING_PAIN, pain_0_10=None, **LATER), S),
    (pain, found(Symptom.RISING_PAIN, pain_0_10=None, **EARLY), E),
    (pain, found(Symptom.ABDOMINAL_PAIN, pain_0_10=None, **EARLY), S),
    # Explained by the skin
    (pain, found(pain_0_10=6, **SORE, **EARLY), None),
    (pain, found(pain_0_10=7, **SORE, **EARLY), D),
    (pain, found(Symptom.RISING_PAIN, pain_0_10=2, **SORE), D),
    (pain, found(Symptom.ABDOMINAL_PAIN, pain_0_10=2, **SORE), None),
    (pain, found(pain_0_10=7, skin=None, **LATER), S),
    (pain, found(pain_0_10=7, skin=(raw(numb_or_crackling=True),), **LATER), S),
    (loin_pain, found(Symptom.LOIN_PAIN, **LATER), D),
    (loin_pain, found(Symptom.LOIN_PAIN, **EARLY), S),
    (loin_pain, found(Symptom.LOIN_PAIN, **URO), None),
    (loin_pain, found(), None),
    (anaphylaxis, found(Symptom.FACE_SWELLING_OR_WHEEZE), E),
    (anaphylaxis, found(Symptom.FAINTNESS, skin=(seen(SkinKind.WEAL),)), E),
    (anaphylaxis, found(Symptom.FAINTNESS, **SORE), None),
    (anaphylaxis, found(skin=(seen(SkinKind.WEAL),)), None),
    (restless, found(Symptom.RESTLESS), D),
    (restless, found(Symptom.RESTLESS, vitals=Vitals(temperature_c=38.0)), S),
    (restless, found(Symptom.RESTLESS, vitals=Vitals(temperature_c=35.9)), S),
    (restless, found(Symptom.RESTLESS, vitals=Vitals(temperature_c=36.0)), D),
    (restless, found(Symptom.RESTLESS, vitals=Vitals(pulse=101.0)), S),
    (restless, found(Symptom.RESTLESS, Symptom.CANNOT_KEEP_FLUIDS), S),
    (restless, found(Symptom.RESTLESS, Symptom.CONFUSION), S),
    (restless, found(), None),
    (drowsy, found(Symptom.DROWSY), S),
    (drowsy, found(), None),
]  # fmt: skip

BLEEDS = [Bleeding.OOZE_AT_JUNCTION, Bleeding.SEVERAL_EMPTIES, Bleeding.FROM_LUMEN,
          Bleeding.SPURTING_OR_UNSTOPPED]  # fmt: skip
COLOURS: list[Row] = [
    (necrosis, found(), None),
    (necrosis, found(colour=Colour.BLACK_BROWN_GREY), E),
    (necrosis, found(colour=Colour.DUSKY), None),
    *((necrosis, found(colour=colour, turgor=turgor), E)
      for colour in (Colour.DUSKY, Colour.PURPLE)
      for turgor in (Turgor.COLD, Turgor.DRY, Turgor.HARD, Turgor.FLABBY)),
    (necrosis, found(colour=Colour.DUSKY, bleeds_on_touch=False), E),
    (necrosis, found(colour=Colour.PALE, turgor=Turgor.COLD), None),
    (dusky, found(colour=Colour.DUSKY, **LATER), S),
    (dusky, found(colour=Colour.DUSKY, **EARLY), E),
    (dusky, found(colour=Colour.DUSKY, bleeds_on_touch=None), S),
    (dusky, found(colour=Colour.DUSKY, bleeds_on_touch=False), E),
    (dusky, found(colour=Colour.DUSKY, turgor=None), E),
    (dusky, found(colour=Colour.DUSKY, pain_0_10=1), E),
    (dusky, found(colour=Colour.DUSKY, pain_0_10=1, **SORE), E),
    (dusky, found(Symptom.MILD_CRAMPS, colour=Colour.DUSKY), E),
    (dusky, found(colour=Colour.DUSKY, hours_without_output=4.0), E),
    (dusky, found(colour=Colour.DUSKY, hours_without_output=3.9), S),
    (dusky, found(colour=Colour.DUSKY, colour_known=True), None),
    (lifeless, found(), None),
    (lifeless, found(turgor=None, bleeds_on_touch=None), None),
    (lifeless, found(turgor=Turgor.FLABBY, **LATER), S),
    (lifeless, found(turgor=Turgor.FLABBY, **EARLY), E),
    (lifeless, found(bleeds_on_touch=False, **LATER), S),
    (slough, found(colour=Colour.YELLOW_SLOUGH, **LATER), D),
    (slough, found(colour=Colour.YELLOW_SLOUGH, **EARLY), S),
    (slough, found(colour=Colour.YELLOW_SLOUGH, pain_0_10=1, **EARLY), E),
    (slough, found(Symptom.MILD_CRAMPS, colour=Colour.YELLOW_SLOUGH, **EARLY), E),
    (slough, found(Symptom.FEVER, colour=Colour.YELLOW_SLOUGH, **EARLY), E),
    (slough, found(open_=(Symptom.FEVER,), vitals=Vitals(pulse=70.0),
                   colour=Colour.YELLOW_SLOUGH, **EARLY), S),
    (slough, found(colour=Colour.YELLOW_SLOUGH, **gap(depth_mm=2.0), **EARLY), E),
    (slough, found(Symptom.FEVER, colour=Colour.YELLOW_SLOUGH, **LATER), D),
    (sunken, found(protrusion_mm=-5.0, **EARLY), S),
    (sunken, found(protrusion_mm=-4.9, **EARLY), None),
    (sunken, found(protrusion_mm=-19.9, **EARLY), S),
    (sunken, found(protrusion_mm=-20.0, **EARLY), E),
    (sunken, found(Symptom.FEVER, protrusion_mm=-5.0, **EARLY), E),
    (sunken, found(protrusion_mm=-25.0, **LATER), None),
    (sunken, found(protrusion_mm=None, **EARLY), None),
    (unseen, found(colour=None, days_since_surgery=7), S),
    (unseen, found(colour=None, days_since_surgery=8), None),
    (unseen, found(colour=None, days_since_surgery=None), None),
    (unseen, found(days_since_surgery=7), None),
    (unseen, found(colour=None, days_since_surgery=7,
                   colour_parts=(ColourPart(Colour.PINK_RED, LOW),)), S),
    (unseen, found(colour=None, days_since_surgery=7,
                   colour_parts=(ColourPart(Colour.DUSKY, LOW),)), None),
    (pale, found(), None),
    (pale, found(colour=Colour.PALE, **LATER), S),
    (pale, found(colour=Colour.PALE, **EARLY), E),
    *((pale, found(colour=Colour.PALE, bleeding=bleeding), E) for bleeding in BLEEDS),
    (pale, found(colour=Colour.PALE, bleeding=Bleeding.ON_WIPING), S),
    (pale, found(Symptom.FAINTNESS, colour=Colour.PALE), E),
    (pale, found(Symptom.DIZZY_ON_STANDING, colour=Colour.PALE), E),
]  # fmt: skip

ULCER, UNDERMINED = seen(SkinKind.ULCER), seen(SkinKind.UNDERMINED_ULCER)
IBD, RAYS = (having(Condition.INFLAMMATORY_BOWEL_DISEASE), having(Condition.RADIOTHERAPY_ABDOMEN))
BELT = frozenset({Accessory.BELT})


def leaked(days: float, *reasons: RemovalReason | None) -> dict[str, Any]:
    return {"wear": tuple(WearEpisode(days, reason) for reason in reasons)}


LEAK, FELL, ROUTINE = RemovalReason.LEAK, RemovalReason.FELL_OFF, RemovalReason.PLANNED
OUTLINED: dict[str, Any] = {"product_outline": True}
SKIN: list[Row] = [
    (BY_KEY["pyoderma"], found(), None),
    (BY_KEY["pyoderma"], found(skin=(UNDERMINED,)), D),
    (BY_KEY["pyoderma"], found(skin=(replace(UNDERMINED, enlarging=True),)), S),
    (BY_KEY["pyoderma"], found(skin=(ULCER,)), None),
    (BY_KEY["pyoderma"], found(skin=(ULCER,), person=IBD), D),
    (BY_KEY["pyoderma"], found(skin=(replace(ULCER, enlarging=True),), person=IBD), S),
    (BY_KEY["pyoderma"], found(skin=(ULCER,), pain_0_10=6), None),
    (BY_KEY["pyoderma"], found(skin=(ULCER,), pain_0_10=7), D),
    (BY_KEY["pyoderma"], found(skin=(UNDERMINED, replace(ULCER, enlarging=True))), S),
    (BY_KEY["pressure_ulcer"], found(), None),
    (BY_KEY["pressure_ulcer"], found(skin=(ULCER,)), D),
    (BY_KEY["pressure_ulcer"], found(skin=(ULCER,), accessories=BELT), S),
    (BY_KEY["pressure_ulcer"], found(skin=(ULCER,), accessories=None), S),
    (BY_KEY["pressure_ulcer"], found(skin=(ULCER,), profile=Profile.CONVEX), S),
    (BY_KEY["pressure_ulcer"], found(skin=(ULCER,), profile=None), S),
    (BY_KEY["raw_skin"], found(skin=(raw(outer_mm=20.0),)), None),
    (BY_KEY["raw_skin"], found(skin=(raw(outer_mm=20.1),)), D),
    (BY_KEY["raw_skin"], found(skin=(raw(inner_mm=5.0, outer_mm=25.0),)), None),
    (BY_KEY["raw_skin"], found(skin=(raw(outer_mm=None),)), None),
    (BY_KEY["raw_skin"], found(skin=(seen(SkinKind.BLISTERS, outer_mm=40.0, moist=False),)), None),
    (BY_KEY["raw_skin"], found(skin=(seen(SkinKind.BLISTERS, outer_mm=40.0),)), D),
    (BY_KEY["raw_skin"], found(skin=(raw(outer_mm=40.0, moist=False),)), D),
    (BY_KEY["leaks_daily"], found(**leaked(0.5, LEAK, LEAK)), D),
    (BY_KEY["leaks_daily"], found(**leaked(0.5, LEAK, FELL)), D),
    (BY_KEY["leaks_daily"], found(**leaked(0.5, LEAK)), None),
    (BY_KEY["leaks_daily"], found(**leaked(0.6, LEAK, LEAK)), None),
    (BY_KEY["leaks_daily"], found(**leaked(0.5, LEAK, LEAK, ROUTINE)), None),
    (BY_KEY["leaks_daily"], found(**leaked(0.5, LEAK, LEAK, None)), D),
    (BY_KEY["leaks_daily"], found(wear=None), None),
    (BY_KEY["radiation"], found(skin=(raw(),), person=RAYS), D),
    (BY_KEY["radiation"], found(skin=(seen(SkinKind.STRIPPING, moist=True),), person=RAYS), D),
    (BY_KEY["radiation"], found(skin=(raw(moist=False),), person=RAYS), None),
    (BY_KEY["radiation"], found(skin=(raw(),)), None),
    *((BY_KEY["blistering"], found(skin=(seen(SkinKind.BLISTERS, **how),)), urgency)
      for how, urgency in (
          ({"moist": True, **OUTLINED}, D), ({"moist": None, **OUTLINED}, D),
          ({"moist": False, **OUTLINED}, W),
          # All round, and whether it keeps to an outline is not recorded.
          ({"hours": ALL, "moist": True}, S), ({"hours": ALL, "moist": False}, D),
          ({"moist": False, "enlarging": True, **OUTLINED}, S))),
    *((BY_KEY["blistering"], found(sign, skin=(seen(SkinKind.BLISTERS, **OUTLINED),)), urgency)
      for sign, urgency in (
          (Symptom.FEVER, S), (Symptom.CONFUSION, S), (Symptom.FAINTNESS, S),
          (Symptom.FACE_SWELLING_OR_WHEEZE, S), (Symptom.TIRED, D))),
]  # fmt: skip

MEDICINES: list[Row] = [
    (drug_with_losses, found(), None),
    *((drug_with_losses, found(**taking(drug), **much), S)
      for drug in (Medicine.DIURETIC, Medicine.ACE_INHIBITOR_OR_ARB, Medicine.SGLT2_INHIBITOR,
                   Medicine.METFORMIN, Medicine.NSAID)
      for much in ({"volume_ml_24h": 1500.0}, {"vitals": Vitals(pulse=101.0)})),
    (drug_with_losses, found(**taking(Medicine.DIURETIC), volume_ml_24h=1499.0), None),
    (drug_with_losses, found(**taking(Medicine.DIURETIC), volume_ml_24h=1500.0, **URO), None),
    (drug_with_losses, found(Symptom.PALPITATIONS, **taking(Medicine.DIURETIC)), S),
    (drug_with_losses, found(Symptom.LIMB_CRAMPS, **taking(Medicine.DIURETIC)), S),
    (drug_with_losses, found(Symptom.VOMITING, **taking(Medicine.DIURETIC)), None),
    (drug_with_losses, found(Symptom.VOMITING, **taking(Medicine.METFORMIN)), S),
    (drug_with_losses, found(Symptom.VOMITING, **taking(Medicine.IRON)), None),
    (laxative_with_ileostomy, found(**taking(Medicine.LAXATIVE)), D),
    (laxative_with_ileostomy, found(**taking(Medicine.MAGNESIUM_ANTACID)), D),
    (laxative_with_ileostomy, found(**taking(Medicine.LAXATIVE), **COLO), None),
    (laxative_with_ileostomy, found(**taking(Medicine.OPIOID)), None),
    (nicorandil, found(skin=(ULCER,), **taking(Medicine.NICORANDIL)), D),
    (nicorandil, found(skin=(UNDERMINED,), **taking(Medicine.NICORANDIL)), D),
    (nicorandil, found(skin=(ULCER,), **taking(Medicine.NSAID)), None),
    (nicorandil, found(**taking(Medicine.NICORANDIL)), None),
    (tablets_whole, found(), None),
    (tablets_whole, found(tablets_whole=True), D),
    (tablets_whole, found(tablets_whole=True, **taking(Medicine.STEROID)), D),
    *((tablets_whole, found(sign, tablets_whole=True, **person), urgency)
      for sign in (Symptom.FAINTNESS, Symptom.VOMITING, Symptom.LIMB_WEAKNESS)
      for person, urgency in ((taking(Medicine.STEROID), E), (list_unknown(), S),
                              (taking(), D))),
    (tablets_whole, found(Symptom.TIRED, tablets_whole=True, **taking(Medicine.STEROID)), D),
]  # fmt: skip


@pytest.mark.parametrize(("judge", "today", "urgency"), [*ILLNESS, *COLOURS, *SKIN, *MEDICINES])
def test_a_rule_alone(judge: Any, today: Findings, urgency: Urgency | None) -> None:
    assert level(judge, today) is urgency


FELT = Symptom.RESTLESS


@pytest.mark.parametrize(
    ("judge", "today", "words"),
    [
        (pain, found(pain_0_10=7, **LATER), ""),
        (pain, found(Symptom.RISING_PAIN, pain_0_10=None, **LATER), "how strong is the pain"),
        (pain, found(Symptom.RISING_PAIN, pain_0_10=None, **EARLY), ""),
        (dusky, found(colour=Colour.DUSKY), ""),
        (dusky, found(colour=Colour.DUSKY, bleeds_on_touch=None),
         "does it bleed bright red when touched"),
        (restless, found(FELT, open_=(Symptom.CANNOT_KEEP_FLUIDS,)),
         "does the person drink as usual"),
        (restless, found(FELT, open_=(Symptom.CONFUSION,)),
         "drowsy or more confused than usual"),
        (drowsy, found(Symptom.DROWSY, open_=(Symptom.CONFUSION,)), "more confused than usual"),
        (drowsy, found(Symptom.DROWSY), ""),
        (tablets_whole, found(tablets_whole=True), ""),
        (tablets_whole, found(tablets_whole=True, **list_unknown()), "is a steroid taken"),
        (tablets_whole, found(tablets_whole=True, **taking(Medicine.STEROID)), ""),
    ],
)  # fmt: skip
def test_what_decides_is_asked(judge: Any, today: Findings, words: str) -> None:
    assert ask(judge, today) == words


@pytest.mark.parametrize("sign", [Symptom.RESTLESS, Symptom.DROWSY])
def test_temperature_and_pulse_are_asked_for(sign: Symptom) -> None:
    judge = restless if sign is Symptom.RESTLESS else drowsy
    today = found(sign)
    bare = replace(today, output=replace(today.output, vitals=Vitals()))
    assert ask(judge, bare) == "temperature and pulse"


@pytest.mark.parametrize("score", [3, 4, 7])
def test_unexplained_pain_soon_after_surgery_asks_for_the_temperature(score: int) -> None:
    today = found(Symptom.RISING_PAIN, open_=(Symptom.FEVER,), pain_0_10=score, **EARLY)
    bare = replace(today, output=replace(today.output, vitals=Vitals()))
    assert ask(pain, bare) == ("" if score == 7 else "temperature")
    later = replace(bare, stoma=replace(bare.stoma, days_since_surgery=31))
    assert ask(pain, later) == ""


def test_weals_are_asked_about_until_everything_is_known() -> None:
    weals = (seen(SkinKind.WEAL),)
    both = (Symptom.FACE_SWELLING_OR_WHEEZE, Symptom.FAINTNESS)
    assert level(weals_unasked, found(skin=weals)) is None
    assert level(weals_unasked, found(open_=both)) is None
    assert level(weals_unasked, found(open_=both, skin=weals)) is S
    assert level(weals_unasked, found(open_=both[:1], skin=weals)) is S
    assert level(weals_unasked, found(both[1], open_=both[:1], skin=weals)) is None


@pytest.mark.parametrize(
    ("medicines", "words", "also"),
    [
        ((), "Whole tablets in the pouch.", False),
        ((Medicine.IRON,), "Whole tablets in the pouch.", False),
        ((Medicine.STEROID,), "Whole tablets in the pouch; a steroid on the list.", True),
        ((Medicine.COATED_OR_SLOW_RELEASE,),
         "Whole tablets in the pouch; coated or slow-release tablets on the list.", False),
    ],
)  # fmt: skip
def test_which_tablets_come_out_whole(
    medicines: tuple[Medicine, ...], words: str, also: bool
) -> None:
    raised = verdict(tablets_whole, found(tablets_whole=True, **taking(*medicines)))
    assert raised is not None
    assert raised.found == words
    assert bool(raised.also) is also
    assert raised.refer_to == ""
    ill = verdict(tablets_whole, found(Symptom.FAINTNESS, tablets_whole=True, **taking(*medicines)))
    assert ill is not None
    assert bool(ill.refer_to) is (Medicine.STEROID in medicines)


def test_an_unknown_list_is_one_that_may_hold_a_steroid() -> None:
    raised = verdict(tablets_whole, found(tablets_whole=True, **list_unknown()))
    assert raised is not None
    assert "steroid not taken up" in raised.also


def test_how_the_stoma_sank_and_with_what() -> None:
    deep = found(Symptom.FEVER, protrusion_mm=-6.0, pain_0_10=2, **EARLY, **gap(depth_mm=2.0))
    assert said(sunken, deep) == (
        "The stoma lies 6 mm below the skin soon after surgery, with pain and fever and a parted "
        "edge."
    )


def test_reactions_of_one_product_count_by_the_worst() -> None:
    dry = seen(SkinKind.BLISTERS, moist=False, product_outline=True)
    wet = seen(SkinKind.BLISTERS, moist=True, product_outline=True)
    assert level(BY_KEY["blistering"], found(skin=(dry, wet))) is D


@pytest.mark.parametrize(
    ("changes", "at"),
    [
        ({"turgor": Turgor.COLD}, "measurement.turgor"),
        ({"turgor": Turgor.COLD, "bleeds_on_touch": False}, "measurement.turgor"),
        ({"bleeds_on_touch": False}, "measurement.bleeds_on_touch"),
        ({"turgor": None, "bleeds_on_touch": False}, "measurement.bleeds_on_touch"),
    ],
)
def test_by_what_a_stoma_is_called_lifeless(changes: dict[str, Any], at: str) -> None:
    raised = verdict(lifeless, found(**changes))
    assert raised is not None
    assert raised.at == at

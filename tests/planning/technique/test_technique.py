"""Steps: one order, no circle, nothing twice, two voices."""

from __future__ import annotations

import re
from graphlib import CycleError, TopologicalSorter
from itertools import pairwise

import pytest

from planning import History, Plan, recommend
from planning.evidence.citation import CITABLE
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bulge,
    Contour,
    Crease,
    Firmness,
    Material,
    Person,
    Profile,
    Prolapse,
    SkinKind,
    StomaKind,
    UrineSign,
)
from planning.results.message import Text, to_patient
from planning.technique import RULES, in_order
from planning.technique.rule import StepRule
from tests.planning.builders import LOW, leaking, seen, well

BULGE = (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)


def steps(plan: Plan) -> list[str]:
    return [step.key for step in plan.steps]


def test_every_step_comes_after_what_it_names() -> None:
    place = {rule.key: i for i, rule in enumerate(in_order())}
    for rule in RULES:
        assert all(place[before] < place[rule.key] for before in rule.after)


def test_no_step_is_in_a_circle() -> None:
    TopologicalSorter({rule.key: rule.after for rule in RULES}).prepare()
    circle = {rule.key: rule.after for rule in RULES} | {"quiet_time": ("note_date",)}
    with pytest.raises(CycleError):
        TopologicalSorter(circle).prepare()


def test_keys_and_sources_are_sound() -> None:
    keys = [rule.key for rule in RULES]
    assert len(keys) == len(set(keys))
    assert {name for rule in RULES for name in rule.after} <= set(keys)
    assert {source for rule in RULES for source in rule.sources} <= CITABLE


def test_powder_then_film_until_dry_at_most_three_layers() -> None:
    plan = recommend(leaking())
    wanted = ["clean", "dry", "powder", "brush_off", "seal_powder", "repeat_layers", "apply"]
    keys = [key for key in steps(plan) if key in wanted]
    assert keys == wanted
    assert "never more than 3" in next(s.text for s in plan.steps if s.key == "repeat_layers")


def test_powder_alone_is_not_sealed_with_what_harms() -> None:
    person = Person(sensitivities=frozenset({Material.PROTECTANT}))
    keys = steps(recommend(leaking(person=person)))
    assert "powder" in keys
    assert not {"seal_powder", "repeat_layers", "film"} & set(keys)


def test_ring_from_the_lowest_point_with_contact_all_round() -> None:
    plan = recommend(leaking())
    ring = next(step for step in plan.steps if step.key == "ring")
    assert "lowest point" in ring.text
    assert "all round" in ring.text
    assert "overlap" not in ring.text
    assert "all round" in str(ring.patient_text)


def test_an_over_stretched_ring_is_cut_and_overlapped() -> None:
    wide = {"length_mm": 40.0, "width_mm": 40.0}
    plan = recommend(leaking(**wide, opening_length_mm=44.0, opening_width_mm=44.0))
    ring = next(step for step in plan.steps if step.key == "ring")
    assert "overlap the ends by 5 to 10 mm" in ring.text
    assert plan.dimensions.ring_cut_and_overlap


def test_half_ring_on_the_low_side_then_paste() -> None:
    levels = frozenset({Accessory.HALF_RING, Accessory.PASTE})
    plan = recommend(leaking(bulges=BULGE, accessories=levels))
    keys = steps(plan)
    assert keys.index("half_ring") < keys.index("paste") < keys.index("apply")
    assert "9 o'clock" in next(s.text for s in plan.steps if s.key == "half_ring")


@pytest.mark.parametrize(
    "plan",
    [
        recommend(leaking(bulges=BULGE)),
        recommend(well(prolapse=(Prolapse(30.0, True, False),), widest_mm=45.0, leak=LOW)),
    ],
)
def test_prolapse_and_hernia_are_changed_lying_down(plan: Plan) -> None:
    keys = steps(plan)
    assert keys.index("lie_down") < keys.index("peel")


def test_belt_last_level_with_two_fingers() -> None:
    plan = recommend(well(accessories=frozenset({Accessory.BELT}), profile=Profile.CONVEX))
    keys = steps(plan)
    assert keys.index("belt") > keys.index("close")
    assert "two fingers" in next(s.text for s in plan.steps if s.key == "belt")
    assert keys[-1] == "check_imprint"


def test_a_shrinking_stoma_is_measured_before_cutting() -> None:
    keys = steps(recommend(leaking(days_since_surgery=40)))
    assert keys.index("measure") < keys.index("cut_after_measuring") < keys.index("apply")
    later = steps(recommend(leaking()))
    assert later.index("cut_opening") < later.index("peel")


def test_urine_is_wicked_and_crystals_soaked() -> None:
    plan = recommend(
        well(kind=StomaKind.UROSTOMY, urine_signs=frozenset({UrineSign.CRYSTALS}), leak=LOW)
    )
    keys = steps(plan)
    assert keys.index("vinegar") < keys.index("wick") < keys.index("dry")


# --- words for the sheet --------------------------------------------------------------------
PLANS = [
    recommend(leaking()),
    recommend(leaking(protrusion_mm=-6.0, firmness=Firmness.SOFT)),
    recommend(leaking(bulges=BULGE, creases=(Crease(LOW, 5.0),), contour=Contour.PENDULOUS)),
    recommend(well(prolapse=(Prolapse(30.0, True, False),), widest_mm=45.0, leak=LOW)),
    recommend(well(prolapse=(Prolapse(30.0, False, True),))),
    recommend(well(kind=StomaKind.UROSTOMY, urine_signs=frozenset({UrineSign.CRYSTALS}))),
    recommend(well(kind=StomaKind.COLOSTOMY)),
    recommend(leaking(volume_ml_24h=1600.0)),
    recommend(
        well(skin=(seen(SkinKind.SATELLITES, moist=True), seen(SkinKind.HAIR_PUSTULES))),
        History(prescriber_agreed_antifungal=True),
    ),
    recommend(well(accessories=frozenset({Accessory.SUPPORT_GARMENT, Accessory.THICKENER}))),
]


def for_the_patient(plan: Plan) -> list[str]:
    texts: list[Text | None] = [step.patient_text for step in plan.steps]
    texts += [line.patient_text for line in plan.call_when]
    texts += [r.patient_text for r in plan.recommendations]
    texts += [flag.patient_text for flag in plan.red_flags]
    return [str(text) for text in texts if text]


@pytest.mark.parametrize("plan", PLANS)
def test_nothing_forbidden_is_on_the_sheet(plan: Plan) -> None:
    """No reduction, sugar on the stoma, dilation, laxatives or plain water, ever."""
    for text in for_the_patient(plan):
        low = text.lower()
        assert not re.search(r"\breduce|\bdilat|laxative|sugar on|push it back|drink more", low)
        warned = "does not help" in low or "worse" in low or "no plain water" in low
        assert "plain water" not in low or warned or "do not drink plain water" in low
        if "push" in low:
            assert "do not push" in low


@pytest.mark.parametrize("plan", PLANS)
def test_sentences_on_the_sheet_are_short_and_plain(plan: Plan) -> None:
    """Design target: Flesch-Kincaid grade 6 or below, 15 words a sentence on average."""
    text = " ".join(for_the_patient(plan))
    sentences = [s for s in re.split(r"[.!?:]+\s*", text) if s]
    words = re.findall(r"[A-Za-z']+", text)
    grade = 0.39 * len(words) / len(sentences) + 11.8 * _syllables(words) / len(words) - 15.59
    assert len(words) / len(sentences) <= 15
    assert grade <= 6.0
    assert max(len(s.split()) for s in sentences) <= 22


def _syllables(words: list[str]) -> int:
    counted = 0
    for word in words:
        runs = len(re.findall(r"[aeiouy]+", word.lower()))
        silent = word.lower().endswith("e") and not word.lower().endswith("le")
        counted += max(1, runs - silent)
    return counted


def test_steps_follow_one_another_as_the_skin_comes_first() -> None:
    order = [rule.key for rule in in_order()]
    chain = ["lay_out", "empty", "peel", "read_back", "clean", "dry", "check", "apply", "note_date"]
    assert all(order.index(a) < order.index(b) for a, b in pairwise(chain))


# --- what no step may say -----------------------------------------------------------------------
def patient_words(rule: StepRule) -> str:
    return str(to_patient(rule.patient) or "")


def test_no_step_calls_bleeding_normal() -> None:
    """Drugs, platelets and liver are never all known: no reassurance (design value)."""
    for rule in RULES:
        for words in (rule.clinician, patient_words(rule)):
            if isinstance(words, str) and "blood" in words.lower():
                assert not re.search(r"\b(normal|usual|common|fine)\b", words), rule.key
    (dry,) = [rule for rule in RULES if rule.key == "dry"]
    assert "press lightly" in patient_words(dry)
    assert "5 minutes or comes back, call us" in patient_words(dry)


def test_a_changed_size_asks_for_a_new_template() -> None:
    """Cut 2 mm bigger, a shrinking stoma gets a hole far too large."""
    said = [patient_words(rule) for rule in RULES if "size has changed" in patient_words(rule)]
    assert len(said) == 2
    for words in said:
        assert "ask us for a new template" in words
    assert not [rule.key for rule in RULES if re.search("bigger|larger", patient_words(rule))]

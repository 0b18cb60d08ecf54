"""Each check: a sound plan passes, and one sentence that contradicts it is found."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bleeding,
    Bulge,
    Condition,
    Findings,
    Material,
    Person,
    PouchKind,
    SkinKind,
    StomaKind,
    Symptom,
)
from planning.results.message import to_patient
from planning.results.plan import NextStep, Urgency
from tests.planning.builders import ALL, leaking, seen, well
from tests.planning.consistency.plans import advice, checks, in_order, made, noticed, stepped, told

RING = {"accessories": frozenset({Accessory.RING})}
VEINS: dict[str, Any] = {"skin": (seen(SkinKind.DILATED_VEINS, ALL),)}
OOZES = {"bleeding": Bleeding.OOZE_AT_JUNCTION}
FEVER = {"present": frozenset({Symptom.FEVER})}
NEW = {"days_since_surgery": 20}


@pytest.mark.parametrize(
    "changes",
    [
        {},
        RING,
        VEINS,
        NEW,
        {"bleeding": Bleeding.OOZE_AT_JUNCTION},
        {"present": frozenset({Symptom.FEVER})},
    ],
)
def test_a_sound_plan_passes(changes: dict[str, Any]) -> None:
    for found in (well(**changes), leaking(**{k: v for k, v in changes.items() if k != "skin"})):
        assert checks(*made(found)) == set()


# --- supplies -------------------------------------------------------------------------------
@pytest.mark.parametrize(
    "text",
    ["Warm the belt first.", "Fill it with paste."],
)
def test_advice_on_a_supply_that_is_not_chosen(text: str) -> None:
    plan, now = made(leaking())
    assert checks(told(plan, advice(text)), now) == {"not_chosen"}
    assert checks(told(plan, advice("Something else.", text)), now) == {"not_chosen"}
    assert checks(noticed(plan, text), now) == {"not_chosen"}
    assert checks(stepped(plan, "clean", text=text), now) == {"not_chosen"}


def test_what_is_worn_or_asked_about_by_its_own_row_may_be_named() -> None:
    plan, now = made(well(**RING))
    assert checks(told(plan, advice("Warm the ring first.")), now) == set()
    asked = advice("Convexity lifts the stoma.", key="open_lift_rim")
    assert checks(told(plan, asked), now) == set()
    assert checks(told(plan, replace(asked, key="tip")), now) == {"not_chosen"}


def test_advice_against_a_supply_that_is_chosen() -> None:
    plan, now = made(leaking(**RING))
    assert "ring" in plan.supplies
    assert checks(told(plan, advice("No ring.")), now) == {"forbidden"}
    assert checks(told(plan, advice("x", "Leave off the ring.")), now) == {"forbidden"}
    danger = advice("Refer to: surgeon. No ring.", key="refer_lump")
    assert checks(told(plan, danger), now) == {"forbidden"}


def test_a_step_of_what_the_plan_does_not_hold() -> None:
    plan, now = made(leaking())
    assert checks(stepped(plan, "clean", belongs_to=("belt",)), now) == {"step_without"}


def test_a_supply_that_is_recommended_and_not_chosen_or_the_other_way_round() -> None:
    plan, now = made(leaking())
    supplies = tuple(key for key in plan.supplies if key != "drainable")
    assert "choice" in checks(replace(plan, supplies=supplies), now)
    stopped = told(plan, *(replace(r, key="belt") for r in plan.recommendations[:1]))
    assert "choice" in checks(stopped, now)


def test_what_the_person_reacts_to_is_offered_neither_today_nor_later() -> None:
    person = Person(sensitivities=frozenset({Material.RING, Material.LATEX}))
    plan, now = made(leaking(person=person))
    assert "reacts_to" in checks(told(plan, advice("Stretch the ring.")), now)
    later = replace(plan, next_steps=(NextStep("belt", "A belt, level with the stoma", "later"),))
    assert checks(later, now) == {"reacts_to"}
    free = replace(plan, next_steps=(NextStep("g", "A latex-free support garment", "later"),))
    assert checks(free, now) == set()


# --- opposites ------------------------------------------------------------------------------
def test_advice_that_excludes_another() -> None:
    plan, now = made(leaking())
    drink = advice("Drink", key="softer_stool")
    both = told(plan, advice("Nothing", key="nothing_by_mouth"), drink)
    assert checks(both, now) == {"opposite"}
    assert checks(told(plan, drink), now) == set()
    taped, now = made(well(accessories=frozenset({Accessory.TAPE})))
    assert checks(told(taped, advice("x", key="no_tape")), now) == {"opposite"}


# --- reassurance ----------------------------------------------------------------------------
def test_a_calming_line_beside_the_flag_it_is_about() -> None:
    plan, now = made(leaking(bleeding=Bleeding.OOZE_AT_JUNCTION))
    calm = "Oozing is usually venous."
    assert "reassures" in checks(noticed(plan, calm, "measurement.bleeding"), now)
    elsewhere = noticed(plan, "That is normal.", "measurement.length_mm")
    assert checks(elsewhere, now) == set()
    assert "reassures" in checks(replace(plan, headline="A good fit: change nothing"), now)
    calm_plan, at_ease = made(well())
    assert checks(replace(calm_plan, headline="A good fit: change nothing"), at_ease) == set()


def test_a_little_blood_is_not_normal_beside_veins() -> None:
    plan, now = made(well(**VEINS))
    calm = told(plan, advice("x", "A little blood is normal."))
    assert checks(calm, now) == {"blood"}
    plan, now = made(well())
    assert checks(told(plan, advice("x", "A little blood is normal.")), now) == set()


# --- skin, pouch, hole ----------------------------------------------------------------------
@pytest.mark.parametrize(
    ("kind", "moist", "whole"),
    [
        (SkinKind.ERYTHEMA, True, True),
        (SkinKind.BLISTERS, False, True),
        (SkinKind.BLISTERS, None, False),
        (SkinKind.EROSION, None, False),
        (SkinKind.STRIPPING, False, False),
    ],
)
def test_broken_is_said_of_open_skin_alone(kind: SkinKind, moist: bool | None, whole: bool) -> None:
    plan, now = made(well(skin=(seen(kind, moist=moist),)))
    assert checks(plan, now) == set()
    said = {notice.text for notice in plan.notices}
    assert ("Broken skin: nothing with alcohol." in said) is not whole
    wrong = noticed(plan, "Broken skin: nothing with oil.")
    assert ("whole_skin" in checks(wrong, now)) is whole


BULGE = (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)
CLOSED = {"kind": StomaKind.COLOSTOMY, "pouch": PouchKind.CLOSED}


def test_a_closed_pouch_is_never_emptied() -> None:
    plan, now = made(well(**CLOSED))
    assert "closed" in plan.supplies
    assert not {"empty", "close"} & {step.key for step in plan.steps}
    for words in ("Empty the pouch.", "Close the outlet.", "Let gas out where the pouch opens."):
        assert checks(told(plan, advice("x", words)), now) == {"closed_pouch"}
    plan, now = made(well())
    assert checks(told(plan, advice("x", "Empty the pouch.")), now) == set()


def test_a_shrinking_stoma_gets_a_new_template_and_no_bigger_hole() -> None:
    plan, now = made(leaking(**NEW))
    bigger = advice("x", "If your size has changed, cut 2 mm bigger.")
    assert checks(told(plan, bigger), now) == {"bigger"}
    assert (
        checks(told(plan, advice("x", "If the stoma is swollen, cut the hole bigger.")), now)
        == set()
    )
    plan, now = made(leaking())
    assert checks(told(plan, bigger), now) == set()


# --- order ----------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("first", "then", "found"),
    [
        ("lie_down", "empty", leaking(bulges=BULGE)),
        ("peel", "empty", leaking()),
        ("powder", "measure", leaking(**NEW)),
        ("powder", "cut_after_measuring", leaking(**NEW)),
        ("seal_powder", "powder", leaking()),
        ("apply", "clean", leaking()),
    ],
)
def test_steps_in_a_wrong_order(first: str, then: str, found: Findings) -> None:
    plan, now = made(found)
    assert {first, then} <= {step.key for step in plan.steps}
    assert checks(plan, now) == set()
    assert "order" in checks(in_order(plan, first, then), now)


# --- urgency --------------------------------------------------------------------------------
def test_the_words_of_a_danger_name_its_own_time() -> None:
    plan, now = made(well(present=frozenset({Symptom.FEVER})))
    flag = plan.red_flags[0]
    assert flag.urgency is Urgency.SAME_DAY
    words = to_patient("You have a fever. A doctor will look within days.")
    later = replace(plan, red_flags=(replace(flag, patient_text=words), *plan.red_flags[1:]))
    assert checks(later, now) == {"two_times"}


@pytest.mark.parametrize(
    "changes",
    [
        {"urgency": Urgency.ROUTINE},
        {"follow_up": 20},
    ],
)
def test_plan_answer_and_next_visit_are_as_urgent_as_the_danger(changes: dict[str, Any]) -> None:
    plan, now = made(well(present=frozenset({Symptom.FEVER})))
    if "follow_up" in changes:
        changes = {"follow_up": replace(plan.follow_up, in_days=20)}
    assert checks(replace(plan, **changes), now) == {"two_times"}


def test_nobody_is_asked_later_about_what_a_flag_asks_them_sooner() -> None:
    plan, now = made(well(skin=(seen(SkinKind.FISTULA, pain=True),)))
    assert plan.urgency is Urgency.SAME_DAY
    later = advice("Surgeon and gastroenterology, within 3 days", key="fistula_teams", at="skin")
    assert "two_times" in checks(told(plan, later), now)


def test_one_sign_to_call_about_has_one_urgency() -> None:
    plan, now = made(well())
    twice = replace(plan.call_when[0], urgency=Urgency.DAYS)
    assert checks(replace(plan, call_when=(*plan.call_when, twice)), now) == {"two_times"}


def test_irradiated_skin_gets_water_and_no_compress() -> None:
    rays = Person(has=frozenset({Condition.RADIOTHERAPY_NOW}))
    plan, now = made(well(kind=StomaKind.UROSTOMY, person=rays))
    wrong = told(plan, advice("x", key="vinegar"), advice("x", key="radiotherapy_skin"))
    assert "opposite" in checks(wrong, now)

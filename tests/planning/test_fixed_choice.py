"""A choice is made everywhere at once, changes only what it says, and passes the same gates."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import Findings, Fixed, FixedKind, History, Plan, Refused, recommend
from planning.evidence.thresholds import EXTENDED_FROM
from planning.fixed_choice import key_made
from planning.inputs.findings import (
    Accessory,
    Colour,
    Material,
    Oedema,
    Person,
    Profile,
    SkinKind,
)
from planning.inputs.fixed import NoSuchChoice, fixed_of
from planning.results.plan import Change, Recommendation, Stage
from planning.supplies.catalogue import SUPPLIES
from tests.planning.builders import ALL, GROWN, LOW, leaking, seen, well
from tests.planning.sweep import planned

LEAKS = leaking(protrusion_mm=2.0)


def item(plan: Plan, key: str) -> Recommendation:
    return next(one for one in plan.recommendations if one.key == key)


def supply(key: str, other: str) -> Fixed:
    return Fixed(key, FixedKind.SUPPLY, other)


def day(days: float, key: str = "wear_interval") -> Fixed:
    return Fixed(key, FixedKind.DAY, amount=days)


def gap(mm: float) -> Fixed:
    return Fixed("opening", FixedKind.GAP, amount=mm)


def refused(found: Findings, *fixed: Fixed) -> str:
    with pytest.raises(Refused) as raised:
        recommend(found, History(), fixed)
    assert raised.value.fixed in fixed
    return raised.value.why


def barrier_of(plan: Plan) -> str:
    return next(key for key in plan.supplies if SUPPLIES[key].slot.value == "barrier")


# --- another supply ----------------------------------------------------------------------------
def test_another_profile_is_worked_out_everywhere() -> None:
    before = recommend(LEAKS)
    old = barrier_of(before)
    after = recommend(LEAKS, History(), (supply(old, "soft_convex_moderate"),))
    assert barrier_of(after) == "soft_convex_moderate"
    assert after.dimensions.convex_depth_class == "moderate"
    assert "plateau" in item(after, "soft_convex_moderate").text
    assert {"check_imprint"} <= {step.key for step in after.steps}
    assert next(q for q in after.quantities if q.supply_key == "barrier").text == "Convex barrier"
    assert after.follow_up.in_days <= 7
    assert item(after, "soft_convex_moderate").because[-1].text.startswith("The clinician chose")


def test_a_choice_changes_only_what_it_says() -> None:
    before = recommend(LEAKS)
    after = recommend(LEAKS, History(), (day(2),))
    assert after.supplies == before.supplies
    assert after.steps == before.steps
    assert after.dimensions == before.dimensions
    assert after.red_flags == before.red_flags
    others = [r for r in after.recommendations if r.key != "wear_interval"]
    assert others == [r for r in before.recommendations if r.key != "wear_interval"]


BIG = leaking(opening_length_mm=44.0, opening_width_mm=44.0)
UNKNOWN = leaking(protrusion_mm=2.0, opening_length_mm=None, opening_width_mm=None)
KEPT, TODAY, CORRECTED = "keep/keep", "change/today", "change/correct_now"


@pytest.mark.parametrize(
    ("found", "fixed", "barrier", "opening"),
    [
        # The opening in use fits: another size of it is a change, another barrier leaves it alone.
        (well(leak=LOW), (gap(2.5),), KEPT, TODAY),
        (well(leak=LOW), (supply("flat_flexible", "flat_firm"),), TODAY, KEPT),
        (well(leak=LOW), (supply("flat_flexible", "flat_firm"), gap(2.5)), TODAY, TODAY),
        (well(leak=LOW), (supply("opening", "mouldable"),), KEPT, TODAY),
        (well(leak=LOW), (day(2),), KEPT, KEPT),
        # It was cut too large: that is corrected whatever else is chosen, with the barrier it is
        # cut in.
        (BIG, (gap(2.5),), KEPT, CORRECTED),
        (BIG, (day(2),), KEPT, CORRECTED),
        (BIG, (supply("flat_flexible", "flat_firm"),), CORRECTED, CORRECTED),
        (BIG, (supply("flat_flexible", "flat_firm"), gap(2.5)), CORRECTED, CORRECTED),
        (BIG, (supply("opening", "mouldable"),), KEPT, CORRECTED),
        # Its size is not known: no one can say that it changes.
        (UNKNOWN, (gap(2.5),), TODAY, KEPT),
        (UNKNOWN, (supply("soft_convex_shallow", "flat_firm"), gap(2.5)), TODAY, KEPT),
        (UNKNOWN, (supply("soft_convex_shallow", "flat_flexible"),), KEPT, KEPT),
    ],
)
def test_what_a_choice_corrects_and_what_it_changes(
    found: Findings, fixed: tuple[Fixed, ...], barrier: str, opening: str
) -> None:
    after = recommend(found, History(), fixed)
    said = [item(after, key) for key in (barrier_of(after), "opening")]
    assert [f"{one.change}/{one.stage}" for one in said] == [barrier, opening]


@pytest.mark.parametrize(
    ("fixed", "kept"),
    [
        ((day(2),), True),
        ((gap(2.5),), True),
        ((supply("soft_convex_shallow", "flat_firm"),), False),
        ((Fixed("protectant", FixedKind.NONE), Fixed("powder", FixedKind.NONE)), False),
    ],
)
def test_the_runner_up_is_one_of_what_was_proposed(fixed: tuple[Fixed, ...], kept: bool) -> None:
    """Another system has none: it was not searched for."""
    before, after = recommend(LEAKS), recommend(LEAKS, History(), fixed)
    assert before.runner_up is not None
    assert after.runner_up == (before.runner_up if kept else None)


def test_only_what_was_chosen_is_said_to_be_chosen() -> None:
    fixed = (supply("soft_convex_shallow", "soft_convex_moderate"), day(2), gap(2.5))
    after = recommend(LEAKS, History(), fixed)
    chosen = {
        one.key
        for one in after.recommendations
        if any(reason.text.startswith("The clinician chose") for reason in one.because)
    }
    assert chosen == {"soft_convex_moderate", "opening"}


def test_each_refusal_names_its_own_choice() -> None:
    for found, *fixed in (
        (LEAKS, supply("soft_convex_shallow", "flat_firm"), gap(9.0)),
        (LEAKS, gap(2.5), day(4)),
        (LEAKS, supply("drainable", "belt"), day(2)),
    ):
        with pytest.raises(Refused) as raised:
            recommend(found, History(), tuple(fixed))
        wrong = [one for one in fixed if one is raised.value.fixed]
        others = tuple(one for one in fixed if one not in wrong)
        assert recommend(found, History(), others).supplies


def test_what_is_left_off_leaves_no_step_and_no_amount() -> None:
    before = recommend(leaking())
    assert item(before, "ring").stage is Stage.TODAY
    after = recommend(leaking(), History(), (Fixed("ring", FixedKind.NONE),))
    assert "ring" not in after.supplies
    assert "ring" not in {line.supply_key for line in after.quantities}
    assert not any("ring" in step.belongs_to for step in after.steps)
    assert after.dimensions.ring_stretched_inner_mm is None


def test_a_step_taken_already_waits_no_more_and_one_not_taken_waits_again() -> None:
    before = recommend(LEAKS)
    assert before.next_steps[0].key == "soft_moderate"
    more = recommend(LEAKS, History(), (supply("soft_convex_shallow", "soft_convex_moderate"),))
    assert "soft_moderate" not in {step.key for step in more.next_steps}
    less = recommend(LEAKS, History(), (supply("soft_convex_shallow", "flat_flexible"),))
    assert less.next_steps[0].key == "soft_shallow"


def test_a_worn_thing_left_off_is_said_to_be_stopped() -> None:
    found = well(accessories=frozenset({Accessory.POUCH_COVER}))
    after = recommend(found, History(), (Fixed("pouch_cover", FixedKind.NONE),))
    assert item(after, "pouch_cover").change is Change.STOP


def test_what_is_suspected_stays_suspected_whatever_else_is_chosen() -> None:
    skin = seen(SkinKind.ERYTHEMA, hours=ALL, outer_mm=40.0, product_outline=True)
    found = well(accessories=frozenset({Accessory.PROTECTANT}), skin=(skin,))
    before = recommend(found)
    assert before.suspects
    for one in (day(2), gap(1.5875)):
        after = recommend(found, History(), (one,))
        assert after != before
        assert after.suspects == before.suspects


@pytest.mark.parametrize("key", ["flat_flexible", "two_piece", "drainable", "opening"])
def test_every_system_has_a_barrier_an_opening_and_a_pouch(key: str) -> None:
    assert refused(well(), Fixed(key, FixedKind.NONE)) == "Every system has one of these."


@pytest.mark.parametrize(
    ("found", "says"),
    [
        ({"skin": (seen(SkinKind.DILATED_VEINS),)}, "varices"),
        ({"skin": (seen(SkinKind.PRESSURE_MARK),), "profile": Profile.CONVEX}, "press"),
        ({"rod_in_place": True}, "rod"),
    ],
)
def test_a_danger_forbids_a_dome_with_its_reason(found: dict[str, Any], says: str) -> None:
    findings = well(leak=LOW, **found)
    old = barrier_of(recommend(findings))
    assert says in refused(findings, supply(old, "firm_convex_deep")).lower()


def test_a_sensitivity_forbids_a_supply() -> None:
    person = Person(sensitivities=frozenset({Material.RING}), age_years=GROWN)
    findings = replace(LEAKS, person=person)
    assert "powder" in recommend(findings).supplies
    assert refused(findings, supply("powder", "ring")) == "The person reacts to ring."


def test_powder_is_never_left_without_its_film() -> None:
    assert "protectant" in recommend(LEAKS).supplies
    assert "sealed by film" in refused(LEAKS, Fixed("protectant", FixedKind.NONE))


def test_a_place_holds_one_thing() -> None:
    plan = recommend(LEAKS)
    assert "protectant" in plan.supplies
    why = refused(LEAKS, supply("drainable", "belt"))
    assert (why[:11], why[-24:]) == ("Ostomy belt", "does not take its place.")


def test_something_more_is_started_but_nothing_in_the_place_of_what_is_gone() -> None:
    after = recommend(LEAKS, History(), (supply("belt", "belt"),))
    assert item(after, "belt").change is Change.START
    why = refused(LEAKS, supply("strip", "ring"))
    assert why == "The plan no longer proposes what this was chosen for."


def test_nothing_is_chosen_in_an_emergency_or_for_a_child() -> None:
    black = well(colour=Colour.BLACK_BROWN_GREY)
    assert "No supply is chosen" in refused(black, day(3))
    assert "No supply is chosen" in refused(well(age_years=9), day(3))


# --- a size ------------------------------------------------------------------------------------
def test_another_gap_is_the_size_that_is_cut() -> None:
    before = recommend(LEAKS)
    after = recommend(LEAKS, History(), (gap(2.5),))
    assert (before.dimensions.opening_length_mm, before.dimensions.gap_mm) == (34.0, 2.0)
    assert (after.dimensions.opening_length_mm, after.dimensions.gap_mm) == (35.0, 2.5)
    assert "35 mm, 2.5 mm beyond" in item(after, "opening").text
    assert item(after, "opening").change is Change.CHANGE
    assert item(after, "opening").stage is Stage.TODAY
    assert max(y for _, y in after.dimensions.opening_outline) == pytest.approx(17.5, abs=0.02)
    assert after.supplies == before.supplies


@pytest.mark.parametrize("mm", [1.5875, 3.175])
def test_the_usual_gaps_may_be_chosen(mm: float) -> None:
    assert recommend(LEAKS, History(), (gap(mm),)).dimensions.gap_mm == pytest.approx(mm)


@pytest.mark.parametrize("one", [Fixed("opening", FixedKind.GAP), gap(float("inf"))])
def test_a_gap_is_a_number(one: Fixed) -> None:
    assert "1.6 to 3.2 mm" in refused(LEAKS, one)


def test_a_ready_cut_opening_has_its_own_size() -> None:
    found, history, key = next(
        (found, history, "opening")
        for found, history, plan in planned(600)
        if "pre_cut" in plan.supplies
    )
    assert "pre_cut" in recommend(found, history, (day(3),)).supplies
    with pytest.raises(Refused, match="the size it comes with") as raised:
        recommend(found, history, (day(3), Fixed(key, FixedKind.GAP, amount=2.5)))
    assert raised.value.fixed.kind is FixedKind.GAP


@pytest.mark.parametrize("mm", [0.0, 1.5, 3.3, 40.0])
def test_no_gap_beyond_the_usual_one(mm: float) -> None:
    assert "1.6 to 3.2 mm" in refused(LEAKS, gap(mm))


def test_a_swollen_stoma_keeps_its_room() -> None:
    assert "swollen" in refused(leaking(oedema=Oedema.MARKED), gap(2.0))


# --- a day -------------------------------------------------------------------------------------
def test_the_day_counts_the_supplies_and_reaches_the_patient_in_every_language() -> None:
    after = recommend(LEAKS, History(), (day(2),))
    said = item(after, "wear_interval")
    assert said.text.startswith("Change on day 2 at the latest")
    assert said.patient_text is not None
    assert said.patient_text.english().startswith("Change on day 2 at the latest.")
    assert after.expected_wear is not None
    assert after.expected_wear.days == 2
    barrier = next(q for q in after.quantities if q.supply_key == "barrier")
    assert barrier.per_month == 15
    assert barrier.until_at_most is None


def test_raw_skin_is_seen_every_third_day_at_the_latest() -> None:
    why = refused(LEAKS, day(4))
    assert why == "Raw skin or a wound must be seen often. At most 3 days."


@pytest.mark.parametrize(("found", "days"), [(LEAKS, 1), (LEAKS, 3), (well(leak=LOW), 7)])
def test_the_first_and_the_last_day_may_be_chosen(found: Findings, days: int) -> None:
    after = recommend(found, History(), (day(days),))
    assert after.expected_wear is not None
    assert after.expected_wear.days == days


def test_a_day_is_a_number() -> None:
    assert refused(LEAKS, Fixed("wear_interval", FixedKind.DAY)) == "At least one day."


@pytest.mark.parametrize("days", [0.0, 2.5, 8.0])
def test_a_day_is_a_whole_number_of_a_usual_length(days: float) -> None:
    assert refused(well(leak=LOW), day(days))


def test_an_extended_barrier_is_not_peeled_off_early() -> None:
    found, history = next(
        (found, history)
        for found, history, plan in planned(600)
        if "extended_wear" in plan.supplies and plan.expected_wear is not None
    )
    with pytest.raises(Refused, match="grips harder"):
        recommend(found, history, (day(2),))


def test_the_first_day_of_an_extended_barrier_may_be_chosen() -> None:
    found, history = next(
        (found, history)
        for found, history, plan in planned(600)
        if "extended_wear" in plan.supplies and plan.expected_wear is not None
    )
    first = int(EXTENDED_FROM.value)
    after = recommend(found, history, (day(first),))
    assert after.expected_wear is not None
    assert after.expected_wear.days == first
    without = (Fixed("extended_wear", FixedKind.NONE), day(first))
    assert "extended_wear" not in recommend(found, history, without).supplies


def test_two_choices_hold_together() -> None:
    old = barrier_of(recommend(LEAKS))
    after = recommend(LEAKS, History(), (supply(old, "soft_convex_shallow"), day(2), gap(2.5)))
    assert barrier_of(after) == "soft_convex_shallow"
    assert after.expected_wear is not None
    assert after.expected_wear.days == 2
    assert after.dimensions.gap_mm == 2.5


# --- as words ----------------------------------------------------------------------------------
@pytest.mark.parametrize(
    "one", [supply("ring", "strip"), day(3), gap(2.5), gap(1.5875), Fixed("belt", FixedKind.NONE)]
)
def test_stored_and_read_again_it_is_the_same(one: Fixed) -> None:
    assert fixed_of(one.key, one.code) == one


@pytest.mark.parametrize("code", ["", "words", "day:soon", "day", "gap:"])
def test_other_words_are_no_choice(code: str) -> None:
    with pytest.raises(NoSuchChoice):
        fixed_of("ring", code)


def test_where_the_plan_made_again_says_it() -> None:
    assert key_made(day(3, "wear_as_now")) == "wear_interval"
    assert key_made(supply("opening", "pre_cut")) == "opening"
    assert key_made(supply("flat_flexible", "flat_firm")) == "flat_firm"
    assert key_made(gap(2.5)) == "opening"
    assert key_made(Fixed("belt", FixedKind.NONE)) == "belt"

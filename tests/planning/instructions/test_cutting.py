"""Hands or eyes that should not cut: a ready-cut opening, or the plan says who cuts."""

from __future__ import annotations

import re
from typing import Any

import pytest

from planning import History, Plan, recommend
from planning.inputs.findings import Ability, ChangedBy, OpeningKind, Person
from tests.planning.builders import leaking, well

HANDS = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
EYES = Person(sensitivities=frozenset(), eyesight=Ability.NONE)
STABLE = History(previous=(well(days_since_surgery=380),))


def said(plan: Plan) -> str:
    texts = [need.text for need in plan.needs]
    texts += [
        text for item in plan.recommendations for text in (item.text, str(item.patient_text or ""))
    ]
    texts += [text for step in plan.steps for text in (step.text, str(step.patient_text or ""))]
    return " ".join(text for text in texts if text)


def tells_to_cut(plan: Plan) -> bool:
    return re.search(r"(?<!and )\bCut the (opening|hole)", said(plan)) is not None


@pytest.mark.parametrize("person", [HANDS, EYES])
@pytest.mark.parametrize(
    "changes",
    [{}, {"days_since_surgery": 20}, {"length_mm": 42.0}, {"opening_kind": OpeningKind.MOULDABLE}],
)
@pytest.mark.parametrize("history", [History(), STABLE])
def test_who_should_not_cut_is_never_asked_to(
    person: Person, changes: dict[str, Any], history: History
) -> None:
    plan = recommend(leaking(person=person, **changes), history)
    assert "no_cutting" in {need.key for need in plan.needs}
    assert not tells_to_cut(plan)
    opening = next(r for r in plan.recommendations if r.key == "opening")
    assert "pre_cut" in plan.supplies or "carer or nurse" in opening.text
    assert ("cut_ahead" in {r.key for r in plan.recommendations}) is (
        "pre_cut" not in plan.supplies
    )


def test_the_step_says_where_the_hole_comes_from() -> None:
    steps = {s.key: s for s in recommend(leaking(person=HANDS)).steps}
    assert "34 mm" in steps["take_cut_ahead"].text
    assert str(steps["take_cut_ahead"].patient_text) == "Take a barrier with the hole cut for you."
    assert steps["take_cut_ahead"].belongs_to == ("opening",)
    assert "cut_opening" not in steps


def test_while_it_shrinks_the_helper_measures_and_cuts_each_time() -> None:
    plan = recommend(leaking(person=HANDS, days_since_surgery=40))
    keys = [step.key for step in plan.steps]
    assert keys.index("measure") < keys.index("helper_cuts") < keys.index("apply")
    assert "cut_after_measuring" not in keys


def test_who_has_help_or_can_cut_gets_the_size_to_cut() -> None:
    helped = Person(dexterity=Ability.LIMITED, changed_by=ChangedBy.CARER)
    assert tells_to_cut(recommend(leaking(person=helped)))
    assert tells_to_cut(recommend(leaking()))


def test_hands_that_manage_a_system_that_works_are_left_to_it() -> None:
    plan = recommend(well(person=HANDS))
    assert plan.leave_alone
    assert "take_cut_ahead" not in {step.key for step in plan.steps}

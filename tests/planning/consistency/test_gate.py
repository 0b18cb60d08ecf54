"""What becomes of a plan that contradicts itself; and that no plan does."""

from __future__ import annotations

import json
from dataclasses import replace
from pathlib import Path

import pytest

from planning import Plan, recommend
from planning.consistency import consistent, faults
from planning.inputs.findings import Accessory, Findings, History, SkinKind
from planning.ranked_facts import RankedFacts
from planning.results.snapshot import findings_from_dict, history_from_dict
from tests.planning.acceptance.cases import cases
from tests.planning.builders import ALL, leaking, seen, well
from tests.planning.consistency.plans import advice, in_order, made, noticed, told
from tests.planning.safety.dangers import DANGERS
from tests.planning.test_cases import CASES


def test_a_sound_plan_is_given_as_it_is() -> None:
    plan, now = made(leaking())
    assert consistent(plan, now) is plan


def test_a_reassurance_is_taken_out_and_the_clinician_is_told() -> None:
    plan, now = made(well(skin=(seen(SkinKind.DILATED_VEINS, ALL),)))
    calm = advice("A little blood is normal.", "A little blood is normal.")
    mended = consistent(told(plan, calm), now)
    assert mended.recommendations == plan.recommendations
    said = mended.notices[-1].text
    assert said.startswith("Left out, as it contradicts this plan")
    assert "A little blood is normal" in said
    assert said.endswith("Tell the people who maintain the rules.")
    assert faults(replace(mended, notices=plan.notices), now) == ()


def test_a_notice_is_taken_out_too() -> None:
    plan, now = made(leaking())
    mended = consistent(noticed(plan, "Warm the belt first."), now)
    assert mended.notices[: len(plan.notices)] == plan.notices
    assert len(mended.notices) == len(plan.notices) + 1


def test_a_danger_and_the_choice_stay_and_are_named() -> None:
    plan, now = made(leaking(accessories=frozenset({Accessory.RING})))
    danger = advice("Refer to: surgeon. No ring.", key="refer_lump")
    mended = consistent(told(plan, danger), now)
    assert mended.recommendations[-1] == danger
    assert mended.supplies == plan.supplies
    assert mended.notices[-1].text.startswith("This contradicts the plan")


def test_a_step_in_a_wrong_place_is_not_lost() -> None:
    plan, now = made(leaking())
    mended = consistent(in_order(plan, "apply", "clean"), now)
    assert {step.key for step in mended.steps} == {step.key for step in plan.steps}
    assert mended.notices[-1].text.startswith("This contradicts the plan")


# --- in a sound rule set it never acts --------------------------------------------------------
def never_acts(found: Findings, history: History | None = None) -> None:
    plan, now = made(found, history)
    assert faults(plan, now) == ()


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_not_over_the_worked_cases(path: Path) -> None:
    case = json.loads(path.read_text())
    never_acts(findings_from_dict(case["findings"]), history_from_dict(case.get("history", {})))


def test_not_over_the_acceptance_cases() -> None:
    for case in cases():
        never_acts(case.findings, case.history)


def test_not_over_dangers_alone_and_with_nothing_else_known() -> None:
    for danger in DANGERS:
        never_acts(danger.on_a_well_stoma)
        never_acts(danger.with_all_else_good)
        never_acts(danger.and_nothing_else_known)


def test_what_the_clinic_gets_went_through_it(monkeypatch: pytest.MonkeyPatch) -> None:
    checked: list[Plan] = []

    def passes(plan: Plan, _: RankedFacts) -> Plan:
        checked.append(plan)
        return plan

    monkeypatch.setattr("planning.pipeline.consistent", passes)
    for found in (well(), leaking(), well(age_years=8), well(age_years=None)):
        assert recommend(found) is checked[-1]

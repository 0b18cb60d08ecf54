"""First aid for a blockage, and what an emergency's page holds: section 1.0 rules 5 and 7, 1.1."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest

from planning import Plan, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Bulge, Condition, Prolapse, StomaKind, Symptom, Wound
from planning.recommendations.blockage import FIRST_AID, MASSAGE
from planning.results.plan import ItemKind
from tests.planning.safety.dangers import DANGERS, KNOWN, all_good

MILD = frozenset({Symptom.MILD_CRAMPS})
WOUNDED = {"wounds": (Wound(ClockHours.of(3), pus=False),)}


def first_aid(plan: Plan) -> str | None:
    told = (str(r.patient_text) for r in plan.recommendations if r.key == "blockage_first_aid")
    return next(told, None)


def mild(*more: Symptom, **changes: Any) -> Plan:
    return recommend(all_good(present=MILD | set(more), **changes))


def test_mild_cramps_with_output_get_it_with_its_stop_rule() -> None:
    assert first_aid(mild()) == " ".join(FIRST_AID)
    assert "no better after 2 hours" in " ".join(FIRST_AID)


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": StomaKind.COLOSTOMY},
        {"kind": StomaKind.UROSTOMY},
        {"days_since_surgery": 42},
        {"days_since_surgery": None},
        {"hours_without_output": 1.0},
        {"hours_without_output": None},
        {"person": replace(KNOWN, has=frozenset({Condition.PREGNANT}), has_not=frozenset())},
        {"bulges": (Bulge(ClockHours.of(3), reducible=True, painful=False, new=False),)},
        {"bulges": None},
        {"prolapse": (Prolapse(40.0, True, False, False),), "protrusion_mm": 60.0},
        {"prolapse": None},
        {"absent": frozenset(Symptom) - MILD - {Symptom.VOMITING}},
        {"absent": frozenset(Symptom) - MILD - {Symptom.SWOLLEN_ABDOMEN}},
        {"person": replace(KNOWN, age_years=12)},
    ],
)
def test_it_is_not_printed(changes: dict[str, Any]) -> None:
    """Nor where what forbids it was not asked."""
    assert first_aid(mild(**changes)) is None


@pytest.mark.parametrize(
    "sign",
    [
        Symptom.VOMITING,
        Symptom.SEVERE_CRAMPS,
        Symptom.SWOLLEN_ABDOMEN,
        Symptom.CONSTANT_SEVERE_PAIN,
        Symptom.RISING_PAIN,
    ],
)
def test_a_stronger_sign_takes_it_off(sign: Symptom) -> None:
    assert first_aid(mild(sign)) is None


def test_day_43_is_the_first() -> None:
    assert first_aid(mild(days_since_surgery=43)) is not None


def test_beside_a_wound_nothing_is_rubbed() -> None:
    told = first_aid(mild(**WOUNDED))
    assert told is not None
    assert MASSAGE not in told


def on_page(plan: Plan) -> dict[str, str]:
    items = (r for r in plan.recommendations if r.kind is not ItemKind.REFER)
    return {r.key: "" if r.patient_text is None else str(r.patient_text) for r in items}


@pytest.mark.parametrize(
    ("changes", "keys"),
    [
        ({"present": frozenset({Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN})},
         {"nothing_by_mouth"}),
        ({"present": frozenset({Symptom.SEVERE_CRAMPS}), "hours_without_output": 4.0},
         {"nothing_by_mouth"}),
        ({"bowel_outside": True}, {"cover_moist", "nothing_by_mouth"}),
        ({"present": frozenset({Symptom.MOTTLED_SKIN})}, {"sips_only"}),
        ({"present": frozenset({Symptom.FAINTNESS})}, {"sip"}),
    ],
)  # fmt: skip
def test_an_emergency_page_holds_no_more_than_it_may(
    changes: dict[str, Any], keys: set[str]
) -> None:
    """Who and where, a pouch on, what to take along, one line of food and drink, harm off."""
    plan = recommend(all_good(**changes))
    assert set(on_page(plan)) == {"meanwhile", "take_along"} | keys
    assert not plan.steps


#: Rule 7. Forbidding one of them is no advice to do it.
NEVER = re.compile(
    r"push (it|them|the \w+) back|dilat|enema|laxative|sugar on|into the stoma|stop taking", re.I
)
FORBIDS = re.compile(r"\b(do not|never|nothing|no)\b", re.IGNORECASE)


@pytest.mark.parametrize("danger", DANGERS, ids=[danger.name for danger in DANGERS])
def test_what_nobody_may_do_stands_on_no_sheet(danger: Any) -> None:
    plan = recommend(danger.with_all_else_good)
    told = [r.patient_text for r in plan.recommendations]
    told += [step.patient_text for step in plan.steps]
    told += [line.patient_text for line in plan.call_when]
    for text in filter(None, told):
        for sentence in re.split(r"(?<=[.!?]) ", str(text)):
            assert not NEVER.search(sentence) or FORBIDS.search(sentence), sentence

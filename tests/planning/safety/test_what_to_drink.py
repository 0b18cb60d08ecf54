"""What to drink, beside every flag of dehydration; and what of the urine was not asked."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning.inputs.findings import Condition, Findings, StomaKind, Symptom
from planning.safety import drinks
from planning.safety.drying import not_asked, urine_open
from tests.planning.builders import situation
from tests.planning.safety.dangers import KNOWN
from tests.planning.safety.judged import found, having
from tests.planning.safety.test_levels_of_facts import bulge, prolapse

URO: dict[str, Any] = {"kind": StomaKind.UROSTOMY}
ADVISED = (drinks.SIP, drinks.NO_WATER)
FORBIDDEN = (drinks.NOTHING,)
TEAM, SIPS = "The paediatric team says what to drink.", "Rehydration drink in sips"
LIMIT, SOLIDS = "only within the limit set for it", "no solid food"


def aged(years: int | None) -> dict[str, Any]:
    return {"person": replace(KNOWN, age_years=years)}


@pytest.mark.parametrize(
    ("today", "told", "said"),
    [
        (found(), ADVISED, SIPS),
        (found(**URO), (), ""),
        (found(**aged(8)), (), TEAM),
        # An age not known: ``well`` would make it an adult.
        (found(**aged(None), age_years=None), (), TEAM),
        (found(Symptom.VOMITING), FORBIDDEN, "Nothing by mouth."),
        (found(Symptom.VOMITING, **aged(8)), FORBIDDEN, "Nothing by mouth."),
        (found(bowel_outside=True), FORBIDDEN, "Nothing by mouth."),
        (found(**bulge(painful=True, reducible=False)), FORBIDDEN, "Nothing by mouth."),
        (found(**prolapse(painful=True, reducible=False)), FORBIDDEN, "Nothing by mouth."),
        (found(**bulge(hard=True)), ADVISED, SIPS),
    ],
)
def test_what_to_drink(today: Findings, told: tuple[str, ...], said: str) -> None:
    facts = situation(today).facts
    assert drinks.told(facts) == told
    assert drinks.said(facts).startswith(said)
    assert bool(drinks.said(facts)) is bool(said)


@pytest.mark.parametrize(
    ("sick", "limited"),
    [
        (Condition.KIDNEY_DISEASE, True),
        (Condition.HEART_FAILURE, True),
        (Condition.DIABETES, False),
    ],
)  # fmt: skip
def test_a_limit_of_fluid_is_kept(sick: Condition, limited: bool) -> None:
    facts = situation(found(person=having(sick))).facts
    assert (drinks.told(facts)[0] == drinks.SIP_WITHIN) is limited
    assert (LIMIT in drinks.said(facts)) is limited


@pytest.mark.parametrize(
    ("symptom", "may_block"),
    [(Symptom.MILD_CRAMPS, True), (Symptom.SEVERE_CRAMPS, True), (Symptom.SWOLLEN_ABDOMEN, True),
     (Symptom.SPURTING_OUTPUT, True), (Symptom.NO_GAS, True), (Symptom.THIRST, False)],
)  # fmt: skip
def test_no_solid_food_where_the_bowel_may_be_blocked(symptom: Symptom, may_block: bool) -> None:
    facts = situation(found(symptom, hours_without_output=0.0)).facts
    assert (drinks.NO_SOLIDS in drinks.told(facts)) is may_block
    assert (SOLIDS in drinks.said(facts)) is may_block


OPEN = (Symptom.LITTLE_URINE,)


@pytest.mark.parametrize(
    ("today", "open_"),
    [
        (found(open_=OPEN), True),
        (found(), False),
        (found(open_=OPEN, urine_ml_24h=1500.0), False),
        (found(open_=OPEN, **URO), False),
    ],
)
def test_whether_enough_urine_comes_was_not_asked(today: Findings, open_: bool) -> None:
    facts = situation(today).facts
    assert urine_open(facts) is open_
    assert ("little urine" in not_asked(facts)) is open_

"""One answer for the whole plan: what says "nothing by mouth" never also says "sip"."""

from __future__ import annotations

from typing import Any

import pytest

from planning import Plan, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Bulge, Symptom
from tests.planning.acceptance.pages import person_page
from tests.planning.builders import well
from tests.planning.safety.dangers import all_good

DIZZY = Symptom.DIZZY_ON_STANDING
STUCK = (Bulge(ClockHours.of(3), reducible=False, painful=True),)
BY_MOUTH = "Do not eat or drink."


def feels(*symptoms: Symptom, **more: Any) -> Plan:
    return recommend(all_good(present=frozenset(symptoms), **more))


def says(plan: Plan, words: str) -> bool:
    return any(words in text for text in person_page(plan))


@pytest.mark.parametrize(
    "plan",
    [
        feels(Symptom.CANNOT_KEEP_FLUIDS),
        feels(DIZZY, Symptom.VOMITING),
        feels(DIZZY, Symptom.SEVERE_CRAMPS, hours_without_output=5.0),
        feels(DIZZY, Symptom.MILD_CRAMPS, hours_without_output=5.0),
        feels(DIZZY, bulges=STUCK),
        feels(DIZZY, bowel_outside=True),
    ],
)
def test_nothing_by_mouth_goes_before_every_sip(plan: Plan) -> None:
    assert says(plan, BY_MOUTH)
    assert not says(plan, "Sip rehydration")


@pytest.mark.parametrize(
    "plan",
    [
        feels(DIZZY),
        feels(DIZZY, hours_without_output=5.0),
        feels(DIZZY, Symptom.MILD_CRAMPS),
        feels(DIZZY, bulges=(Bulge(ClockHours.of(3), reducible=True, painful=True),)),
    ],
)
def test_else_there_are_sips(plan: Plan) -> None:
    assert says(plan, "Sip rehydration")
    assert not says(plan, BY_MOUTH)


@pytest.mark.parametrize(("reducible", "said"), [(False, True), (True, False)])
def test_a_bulge_asks_for_it_where_bowel_may_be_stuck_alone(reducible: bool, said: bool) -> None:
    bulge = (Bulge(ClockHours.of(3), reducible=reducible, painful=True),)
    flag = next(f for f in recommend(well(bulges=bulge)).red_flags if f.key == "hernia_trapped")
    assert ("Nothing by mouth" in flag.do) is said

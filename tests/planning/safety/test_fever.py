"""Fever with one companion at a time: which make it an emergency, and which do not."""

from __future__ import annotations

from typing import Any

import pytest

from planning.inputs.findings import Colour, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety.emergency import emergency_plan
from planning.safety.flag import Verdict
from planning.safety.flags_fever import fever_after_surgery, fever_later
from planning.safety.flags_illness import pain
from tests.planning.builders import raw, situation, well

E, S, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS
COLO = {"kind": StomaKind.COLOSTOMY}


def feverish(*symptoms: Symptom, **changes: Any) -> dict[str, Any]:
    return {"present": frozenset({Symptom.FEVER, *symptoms}), **changes}


def judged(judge: Any, changes: dict[str, Any]) -> Verdict | None:
    found: Verdict | None = judge(situation(well(**changes)).facts)
    return found


@pytest.mark.parametrize(
    ("changes", "urgency"),
    [
        (feverish(Symptom.SWOLLEN_ABDOMEN, Symptom.VOMITING), E),
        (feverish(Symptom.VOMITING, pain_0_10=1), E),
        (feverish(Symptom.SEVERE_CRAMPS), E),
        # The belly without a sign of blockage, a sign of blockage without the belly.
        (feverish(Symptom.SWOLLEN_ABDOMEN), S),
        (feverish(Symptom.VOMITING), S),
        (feverish(hours_without_output=90.0), S),
        # Silent for 4 hours (ileostomy) or 24 (colostomy) beside pain is a sign of blockage.
        (feverish(Symptom.SWOLLEN_ABDOMEN, hours_without_output=4.0), E),
        (feverish(Symptom.SWOLLEN_ABDOMEN, hours_without_output=3.9), S),
        (feverish(Symptom.SWOLLEN_ABDOMEN, hours_without_output=24.0, **COLO), E),
        (feverish(Symptom.SWOLLEN_ABDOMEN, hours_without_output=23.9, **COLO), S),
    ],
)
def test_later_fever_is_an_emergency_where_the_belly_hurts_and_the_bowel_may_be_blocked(
    changes: dict[str, Any], urgency: Urgency
) -> None:
    """400 days after surgery. Limits by hand from the table: 4 h and 24 h without output."""
    found = judged(fever_later, changes)
    assert found is not None
    assert found.urgency is urgency


@pytest.mark.parametrize(
    ("changes", "urgency"),
    [
        (feverish(Symptom.SWOLLEN_ABDOMEN), E),
        (feverish(Symptom.VOMITING), E),
        (feverish(Symptom.SEVERE_CRAMPS), E),
        (feverish(pain_0_10=1), E),
        (feverish(colour=Colour.PALE), E),
        (feverish(colour=Colour.YELLOW_SLOUGH), E),
        # Pain that sore skin explains, no pain, and a colour no one noted add nothing.
        (feverish(pain_0_10=1, skin=(raw(),)), S),
        (feverish(pain_0_10=0), S),
        (feverish(colour=None), S),
        (feverish(), S),
    ],
)
@pytest.mark.parametrize("day", [12, 30, None])
def test_fever_soon_after_surgery_is_an_emergency_with_any_one_sign(
    changes: dict[str, Any], urgency: Urgency, day: int | None
) -> None:
    found = judged(fever_after_surgery, {**changes, "days_since_surgery": day})
    assert found is not None
    assert found.urgency is urgency


@pytest.mark.parametrize(
    ("day", "words"),
    [
        (12, "Fever on day 12."),
        (None, "Fever on a day after surgery that is not recorded."),
    ],
)
def test_the_day_of_a_fever_is_told_or_said_to_be_unknown(day: int | None, words: str) -> None:
    found = judged(fever_after_surgery, feverish(days_since_surgery=day))
    assert found is not None
    assert found.found == words


@pytest.mark.parametrize(
    ("score", "day", "urgency"),
    [
        (3, 30, None),
        (4, 31, D),
        (4, 30, S),
        (6, 30, S),
        (7, 31, S),
        (7, 30, E),
        (7, None, E),
        (4, None, S),
    ],
)
def test_unexplained_pain_goes_up_a_level_within_30_days_and_on_an_unknown_day(
    score: int, day: int | None, urgency: Urgency | None
) -> None:
    """By hand: from 4 in days, from 7 the same day; one level more up to day 30."""
    found = judged(pain, {"pain_0_10": score, "days_since_surgery": day})
    assert (None if found is None else found.urgency) is urgency


def test_an_emergency_plan_tells_no_line_of_a_device_that_presses() -> None:
    """It sends no supply out, so no dome and no belt of the plan can leave a mark."""
    plan = emergency_plan(situation(well(colour=Colour.BLACK_BROWN_GREY)))
    assert plan.supplies == ()
    told = " ".join(str(line.patient_text) for line in plan.call_when)
    assert "black, purple" in told
    assert "belt presses" not in told

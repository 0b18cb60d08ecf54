"""Words that a reader of grade 6 knows, and plurals that are plurals."""

from __future__ import annotations

import re

import pytest

from planning import Plan, recommend
from planning.inputs.findings import Bulge, Crease, SkinKind
from planning.results.message import Text
from planning.supplies.catalogue import CATALOGUE
from tests.planning.builders import ALL, leaking, raw, seen, well
from tests.planning.sweep import planned

#: Trade words: said to the clinician, never to the patient.
TRADE = (
    "plateau|mucosa|effluent|convex|convexity|erosion|protrusion|lumen|peristomal|aperture|"
    "abdomen|hydrocolloid|maceration|prolapse|hernia|varices|erythema|flange|coupling|retracted|"
    "dermatitis|distal|oedema|parastomal|mucocutaneous|o'clock"
)


def to_the_patient(plan: Plan) -> str:
    texts: list[Text | None] = [step.patient_text for step in plan.steps]
    texts += [item.patient_text for item in plan.recommendations]
    texts += [flag.patient_text for flag in plan.red_flags]
    texts += [line.patient_text for line in plan.call_when]
    return " ".join(str(text) for text in (*texts, plan.follow_up.patient_text) if text)


def to_anyone(plan: Plan) -> str:
    texts = [plan.follow_up.text, *(step.text for step in plan.steps)]
    texts += [need.text for need in plan.needs]
    texts += [
        reason.text for cause in plan.causes.causes for reason in (*cause.supports, *cause.against)
    ]
    texts += [text for item in plan.recommendations for text in (item.text, item.caution or "")]
    reasons = [reason for item in plan.recommendations for reason in item.because]
    reasons += [*plan.follow_up.because, *plan.notices, *plan.missing]
    return " ".join((*texts, *(reason.text for reason in reasons), to_the_patient(plan)))


@pytest.fixture(scope="module")
def plans() -> list[Plan]:
    return [plan for _, _, plan in planned(1500)]


def test_no_trade_word_reaches_the_patient_and_no_plural_of_one(plans: list[Plan]) -> None:
    for plan in plans:
        assert not re.findall(rf"\b({TRADE})\b", to_the_patient(plan), re.IGNORECASE)
        assert not re.findall(r"\b1 (days|layers|hours|weeks|changes|barriers)\b", to_anyone(plan))
        assert plan.follow_up.patient_text


def test_what_lies_all_round_is_said_so(plans: list[Plan]) -> None:
    """Every hour at once is *all round*, never *at all round*; no hour is never *at none*."""
    everywhere = well(
        leak=ALL,
        skin=(raw(ALL), seen(SkinKind.ERYTHEMA, ALL)),
        creases=(Crease(ALL, 3.0),),
        bulges=(Bulge(ALL, 20.0, 80.0),),
        protrusion_mm=2.0,
    )
    said = to_anyone(recommend(everywhere))
    for words in (
        "raw or weeping all round;",
        "thinly all round, only on raw, wet skin",
        "only, all round",
    ):
        assert words in said
    for text in (said, *map(to_anyone, plans)):
        assert not re.findall(r"\bat (?:all round|none)\b", text)


def test_names_for_the_patient_are_plain() -> None:
    names = " ".join(supply.patient_name for supply in CATALOGUE)
    assert not re.findall(rf"\b({TRADE})\b", names, re.IGNORECASE)


def test_wear_is_said_as_the_latest_day(plans: list[Plan]) -> None:
    """Never *at least every*, which reads as a least number of changes."""
    tip = next(r for r in recommend(leaking()).recommendations if r.key == "wear_interval")
    assert tip.text == ("Change on day 3 at the latest, and at once when it itches, burns or leaks")
    assert str(tip.patient_text) == (
        "Change on day 3 at the latest. Change at once if it itches, burns or leaks."
    )
    for plan in plans:
        said = to_anyone(plan).lower()
        assert "at least every" not in said
        assert "change every day" not in said


def test_a_visit_due_tomorrow_says_so() -> None:
    plan = recommend(well(days_since_surgery=13))
    assert plan.leave_alone
    assert plan.follow_up.text == "See or telephone again tomorrow."

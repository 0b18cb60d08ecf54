"""Each kind of statement holds for one plan and fails for another; levels and pages as they say."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, Final

import pytest

from planning import Plan, recommend
from planning.inputs.findings import Accessory, Bleeding, Condition, Person, SkinKind, Symptom
from planning.results.plan import Fit, FitAnswer, ItemKind, NextStep, Urgency, Well
from tests.planning.acceptance import pages
from tests.planning.acceptance.cases import cases, completed
from tests.planning.acceptance.judge import unmet
from tests.planning.acceptance.levels import LEVELS, level_of, referral_level, sooner_by
from tests.planning.acceptance.statements import KINDS, answer
from tests.planning.builders import ALL, GROWN, WELL, leaking, seen, well

GOOD: Final = recommend(WELL)
_ILL = well(present=frozenset({Symptom.SEVERE_CRAMPS, Symptom.VOMITING}))
EMERGENCY: Final = recommend(_ILL)
_LEAKS = leaking(
    opening_length_mm=42.0, opening_width_mm=42.0, accessories=frozenset({Accessory.BELT})
)
LEAK: Final = recommend(_LEAKS)

_PRESSED = well(skin=(seen(SkinKind.PRESSURE_MARK, ALL),), accessories=frozenset({Accessory.BELT}))
SORE: Final = recommend(_PRESSED)

#: Kind -> (plan and findings it holds for, value, a value it does not hold for).
BOTH_WAYS: Final[dict[str, tuple[Plan, Any, Any, Any]]] = {
    "mentions": (EMERGENCY, _ILL, {"on": "clinician", "what": "surgeon"}, {"what": "unicorn"}),
    "advises": (
        EMERGENCY,
        _ILL,
        {"on": "person", "what": "keep a pouch on"},
        {"on": "clinician", "what": "laxative"},
    ),
    "advises_against": (
        EMERGENCY,
        _ILL,
        {"on": "clinician", "what": "laxative"},
        {"on": "person", "what": "keep a pouch on"},
    ),
    "refers": (
        EMERGENCY,
        _ILL,
        {"to": "surgeon", "within": "emergency"},
        {"to": "dermatolog", "within": "routine"},
    ),
    "flagged": (EMERGENCY, _ILL, "emergency", None),
    "first_cause": (LEAK, _LEAKS, "effluent", "allerg"),
    "chosen": (LEAK, _LEAKS, ["powder"], ["paste"]),
    "kept": (GOOD, WELL, ["flat_flexible"], ["belt"]),
    "starts": (LEAK, _LEAKS, "powder", "paste"),
    "stops": (SORE, _PRESSED, "belt", "ring"),
    "changes": (LEAK, _LEAKS, "opening", "tape"),
    "keeps_all": (GOOD, WELL, True, False),
    "opening_mm": (LEAK, _LEAKS, [32, 36], [40, 44]),
    "seen_within": (LEAK, _LEAKS, 14, 1),
    "any": (LEAK, _LEAKS, [{"chosen": ["paste"]}, {"chosen": ["powder"]}], [{"chosen": ["paste"]}]),
    "all": (
        LEAK,
        _LEAKS,
        [{"chosen": ["powder"]}],
        [{"chosen": ["powder"]}, {"chosen": ["paste"]}],
    ),
}


def test_every_kind_is_tried() -> None:
    assert set(BOTH_WAYS) == set(KINDS)


@pytest.mark.parametrize("kind", BOTH_WAYS)
def test_a_statement_can_hold_and_can_fail(kind: str) -> None:
    plan, found, holds, fails = BOTH_WAYS[kind]
    assert answer({"says": "x", kind: holds}, plan, found).holds
    if fails is not None:
        assert not answer({"says": "x", kind: fails}, plan, found).holds


def test_no_danger_is_not_flagged() -> None:
    assert not answer({"says": "x", "flagged": "two_weeks"}, GOOD, WELL).holds


def test_a_referral_too_late_does_not_count() -> None:
    found = well(bleeding=Bleeding.SEVERAL_EMPTIES)
    plan = recommend(found)
    for within, holds in (("same_day", True), ("emergency", False)):
        value = {"to": "physician", "within": within}
        assert answer({"says": "x", "refers": value}, plan, found).holds is holds


def test_both_answers_are_on_the_clinicians_page() -> None:
    answers = {"fit": Fit(FitAnswer.FITS, "It fits"), "well": Well(Urgency.ROUTINE, "No danger")}
    shown = pages.clinician_page(replace(GOOD, **answers))  # type: ignore[arg-type]
    assert {"It fits", "No danger"} <= set(shown)


def test_a_step_that_waits_meets_nothing_that_is_due_today() -> None:
    later = NextStep("ring", "A mouldable ring", "if it still leaks")
    plan = replace(GOOD, next_steps=(later,))
    for where, holds in (("later", True), ("either", False)):
        statement = {"says": "x", "mentions": {"on": where, "what": "mouldable ring.*leaks"}}
        assert answer(statement, plan, WELL).holds is holds


def test_an_emergency_keeps_nothing_planned() -> None:
    assert not answer({"says": "x", "keeps_all": True}, EMERGENCY, _ILL).holds


@pytest.mark.parametrize("statement", [{"says": "x"}, {"says": "x", "hopes": 1}])
def test_a_statement_of_no_known_kind_is_an_error(statement: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match="kind of statement"):
        answer(statement, GOOD, WELL)


# --- pages ----------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("text", "for_", "against"),
    [
        ("Take a laxative.", True, False),
        ("No laxatives.", False, True),
        ("Nothing into the stoma, no laxatives.", False, True),
        ("Do not eat. Take a laxative.", True, False),
        ("A laxative makes it worse.", False, True),
        ("Drink.", False, False),
    ],
)
def test_advice_is_told_from_advice_against(text: str, for_: bool, against: bool) -> None:
    assert bool(pages.advises((text,), "laxative")) is for_
    assert bool(pages.advises_against((text,), "laxative")) is against


def test_the_pages_are_apart() -> None:
    assert pages.mentions(pages.person_page(EMERGENCY), "emergency department") is None
    assert pages.mentions(pages.clinician_page(EMERGENCY), "emergency department")
    both = set(pages.person_page(EMERGENCY)) | set(pages.clinician_page(EMERGENCY))
    assert set(pages.page(EMERGENCY, "either")) == both


def test_an_unknown_page_is_an_error() -> None:
    with pytest.raises(ValueError, match="No page"):
        pages.page(GOOD, "wall")


# --- levels ---------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("level", "than", "steps"),
    [
        ("emergency", "emergency", 0),
        ("emergency", "same_day", 1),
        ("same_day", "telephone", 1),
        ("telephone", "same_day", -1),
        ("same_day", "days", 1),
        ("telephone", "days", 1),
        ("emergency", "days", 2),
        ("days", "two_weeks", 1),
        ("days", "telephone", -1),
        ("two_weeks", "routine", 1),
        ("routine", "emergency", -5),
    ],
)
def test_levels_are_counted_apart(level: str, than: str, steps: int) -> None:
    assert sooner_by(level, than) == steps


def test_every_urgency_of_the_planner_is_a_level() -> None:
    assert {urgency.value for urgency in Urgency} <= set(LEVELS)


def test_a_call_named_as_the_act_is_a_call() -> None:
    person = Person(has=frozenset({Condition.ANTICOAGULANT}), age_years=GROWN)
    assert level_of(recommend(well(person=person, bleeding=Bleeding.ON_WIPING))) == "telephone"
    assert level_of(recommend(well(bleeding=Bleeding.SEVERAL_EMPTIES))) == "same_day"


@pytest.mark.parametrize(
    ("days", "level"), [(3, "days"), (4, "two_weeks"), (14, "two_weeks"), (15, "routine")]
)
def test_the_next_visit_is_a_level_too(days: int, level: str) -> None:
    again = replace(GOOD.follow_up, in_days=days)
    assert level_of(replace(GOOD, follow_up=again)) == level


def test_a_referral_without_a_danger_is_a_level_too() -> None:
    """The time before its colon counts, not one named after it."""
    ask = next(item for item in LEAK.recommendations if item.kind is not ItemKind.REFER)
    asked = replace(ask, key="asked", kind=ItemKind.REFER, text="Wound team, within 3 days: size")
    assert level_of(replace(GOOD, recommendations=(asked,))) == "days"
    told = replace(asked, text="Wound team: size; the same day with fever")
    assert level_of(replace(GOOD, recommendations=(told,))) == level_of(GOOD) == "routine"


@pytest.mark.parametrize(
    ("text", "level"),
    [
        ("now, as an emergency", "emergency"),
        ("the same day", "same_day"),
        ("by telephone today", "telephone"),
        ("within 3 days", "days"),
        ("within 2 weeks", "two_weeks"),
        ("a surgeon", None),
    ],
)
def test_a_referral_says_when(text: str, level: str | None) -> None:
    assert referral_level(text) == level


# --- cases ----------------------------------------------------------------------------------
_USUAL: Final[dict[str, Any]] = {
    "person": {"has": [], "has_not": ["diabetes", "anticoagulant"]},
    "measurement": {"colour": "pink_red"},
    "output": {"present": [], "absent": ["fever", "vomiting"]},
    "system": {"accessories": []},
}


def test_what_a_case_gives_stands_over_what_is_unremarkable() -> None:
    whole = completed(
        {
            "person": {"has": ["diabetes"]},
            "output": {"present": ["fever"]},
            "system": {"leak": [6]},
        },
        _USUAL,
        ["vomiting"],
    )
    assert whole["person"]["has_not"] == ["anticoagulant"]
    assert whole["output"] == {"present": ["fever"], "absent": []}
    assert whole["measurement"] == {"colour": "pink_red"}
    assert whole["system"] == {"accessories": [], "leak": [6]}


def test_not_recorded_stays_not_recorded() -> None:
    whole = completed({"measurement": {"colour": None}}, _USUAL)
    assert whole["measurement"]["colour"] is None
    assert whole["system"] is None


def test_a_child_is_asked_its_own_signs_and_an_adult_is_not() -> None:
    usual: Any = {
        **_USUAL,
        "person": {**_USUAL["person"], "child_absent": ["no_tears", "sleepy"]},
        "output": {**_USUAL["output"], "vitals": {"temperature_c": 36.8, "pulse": 76}},
    }
    baby = completed({"person": {"age_years": 0, "child_present": ["sleepy"]}}, usual)
    assert baby["person"]["child_absent"] == ["no_tears"]
    assert baby["output"]["vitals"] == {"temperature_c": 36.8, "pulse": None}
    grown = completed({"person": {"age_years": 40}}, usual)
    assert "child_absent" not in grown["person"]
    assert grown["output"]["vitals"]["pulse"] == 76


def test_every_skin_finding_is_completed_and_says_its_own() -> None:
    usual = {**_USUAL, "each_skin_finding": {"itch": False}}
    given = [{"kind": "ulcer"}, {"kind": "weal", "itch": True}]
    whole = completed({"skin": given}, usual)
    assert [finding["itch"] for finding in whole["skin"]] == [False, True]
    assert completed({"skin": None}, usual)["skin"] is None


@pytest.mark.parametrize(("kind", "asked"), [("ileostomy", True), ("urostomy", False)])
def test_urine_of_the_bladder_is_asked_beside_a_bowel_stoma(kind: str, asked: bool) -> None:
    usual = {**_USUAL, "output": {**_USUAL["output"], "hours_without_urine": 0}}
    whole = completed({"stoma": {"kind": kind}}, usual)
    assert ("hours_without_urine" in whole["output"]) is asked


# --- the whole judgement --------------------------------------------------------------------
def _statements(**expect: Any) -> list[str]:
    case = next(case for case in cases() if case.name == "C35")
    assert unmet(case) == ()
    return [one.statement for one in unmet(replace(case, expect={**case.expect, **expect}))]


def test_urgency_number_and_statements_are_judged() -> None:
    assert _statements(urgency="days") == ["urgency days"]
    assert _statements(urgency="routine", not_sooner=True) == []
    assert _statements(at_most=-1) == ["at most -1 changes"]
    assert _statements(must=[{"says": "paste", "chosen": ["paste"]}]) == ["must: paste"]
    assert _statements(must_not=[{"says": "flat", "chosen": ["flat_flexible"]}]) == [
        "must not: flat"
    ]


def test_one_level_sooner_is_wrong_only_where_the_case_says_so() -> None:
    case = next(case for case in cases() if case.name == "C06")
    later = replace(case, expect={**case.expect, "urgency": "two_weeks"})
    assert "urgency two_weeks" not in [one.statement for one in unmet(later)]
    strict = replace(later, expect={**later.expect, "not_sooner": True})
    assert "urgency two_weeks" in [one.statement for one in unmet(strict)]


def test_an_emergency_with_a_supply_plan_is_unmet() -> None:
    statement = "an emergency holds no supply plan"
    assert _statements(urgency="emergency") == ["urgency emergency", statement]


def test_findings_that_contradict_themselves_are_said() -> None:
    case = cases()[0]
    stoma = replace(case.findings.stoma, days_since_surgery=-1)
    (one,) = unmet(replace(case, findings=replace(case.findings, stoma=stoma)))
    assert one.statement == "a plan is made"
    assert "surgery" in one.said

"""Under 16: output by weight, signs of dehydration, growth, green vomit (facts of 2026, section 6).
Checks printed there: 10 kg and 300 mL are 30.0 mL/kg; 15.6 kg and 842 mL are 54.0."""

from __future__ import annotations

import re
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.findings import (
    ChildSign,
    Consistency,
    Findings,
    Person,
    StomaKind,
    Symptom,
    Vitals,
    Weighing,
)
from planning.results.plan import Urgency
from planning.results.snapshot import plan_to_dict
from tests.planning.builders import well

E, S, T, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE, Urgency.DAYS
STEADY = History(weighings=(Weighing(14, 10.0),))


def child(
    *signs: ChildSign, kg: float | None = 10.0, age: int = 3, asked: bool = True, **changes: Any
) -> Findings:
    there = frozenset(signs)
    absent = frozenset(ChildSign) - there if asked else frozenset()
    person = Person(sensitivities=frozenset(), age_years=age, weight_kg=kg, child_present=there,
                    child_absent=absent)  # fmt: skip
    felt = changes.pop("present", frozenset())
    return well(**({"person": person, "present": felt, "absent": frozenset(Symptom) - felt,
                    "volume_ml_24h": None} | changes))  # fmt: skip


def levels(found: Findings, history: History = STEADY) -> dict[str, Urgency]:
    return {flag.key: flag.urgency for flag in recommend(found, history).red_flags}


BY_WEIGHT: list[tuple[float, float, Urgency | None]] = [
    (10.0, 199.0, None), (10.0, 200.0, T), (10.0, 299.0, T), (10.0, 300.0, S), (10.0, 399.0, S),
    (10.0, 400.0, E), (15.6, 842.0, E), (5.2, 125.0, T), (1.9, 91.0, E),
    # far past every figure for adults, and little by weight
    (60.0, 1190.0, None), (70.0, 1390.0, None),
]  # fmt: skip


@pytest.mark.parametrize("kind", [StomaKind.ILEOSTOMY, StomaKind.COLOSTOMY])
@pytest.mark.parametrize(("kg", "volume", "level"), BY_WEIGHT)
def test_by_weight_and_by_nothing_else(
    kg: float, volume: float, level: Urgency | None, kind: StomaKind
) -> None:
    found = child(kg=kg, volume_ml_24h=volume, kind=kind)
    assert levels(found, History()).get("output_to_judge") is level


@pytest.mark.parametrize(("volume", "level"), [(199.0, T), (200.0, S), (300.0, E), (400.0, E)])
@pytest.mark.parametrize(
    "sign",
    [ChildSign.FEWER_WET_NAPPIES, ChildSign.SUNKEN_EYES_OR_FONTANELLE, ChildSign.NO_TEARS,
     ChildSign.DRY_MOUTH, ChildSign.COLD_HANDS, ChildSign.SLOW_REFILL],
)  # fmt: skip
def test_a_sign_of_drying_out_is_one_level_up(
    sign: ChildSign, volume: float, level: Urgency
) -> None:
    found = levels(child(sign, volume_ml_24h=volume))
    assert found["output_to_judge"] is level
    assert found["dehydration"] is S


@pytest.mark.parametrize("sign", [ChildSign.NO_WET_NAPPY_6_HOURS, ChildSign.SLEEPY])
def test_a_grave_sign_is_an_emergency_alone(sign: ChildSign) -> None:
    assert levels(child(sign))["dehydration"] is E
    assert levels(child(sign, asked=False, kg=None))["dehydration"] is E


@pytest.mark.parametrize(
    ("before", "level"), [(10.0, None), (10.52, None), (10.53, S), (11.1, S), (11.2, E)]
)
def test_weight_lost(before: float, level: Urgency | None) -> None:
    """10 kg now: 5 % lost the same day, 10 % an emergency."""
    history = History(weighings=(Weighing(5, before),))
    assert levels(child(), history).get("dehydration") is level


def test_half_above_the_own_mean_is_a_call() -> None:
    assert levels(child(volume_ml_24h=150.0, usual_ml_24h=100.0))["output_to_judge"] is T
    assert "output_to_judge" not in levels(child(volume_ml_24h=149.0, usual_ml_24h=100.0))


def test_long_unchanged_and_well_in_every_respect_it_is_the_same_day() -> None:
    same: dict[str, Any] = {"volume_ml_24h": 540.0, "days_at_volume": 14.0}
    assert levels(child(**same))["output_to_judge"] is S
    worse = (
        child(volume_ml_24h=540.0, days_at_volume=13.0),
        child(volume_ml_24h=540.0),
        child(ChildSign.NO_TEARS, **same),
        child(asked=False, **same),
        child(**same, absent=frozenset()),
    )
    for found in worse:
        assert levels(found)["output_to_judge"] is E
    assert levels(child(**same), History())["output_to_judge"] is E


def test_without_a_weight_the_team_judges_today() -> None:
    flag = recommend(child(kg=None, volume_ml_24h=90.0)).red_flags[0]
    assert (flag.key, flag.urgency) == ("output_to_judge", S)
    assert "Weigh" in flag.do
    formed = child(kg=None, kind=StomaKind.COLOSTOMY, consistency=Consistency.SOFT)
    assert levels(formed) == {}
    asked = [reason.text for reason in recommend(formed).missing]
    assert not any("in a day" in text for text in asked)


@pytest.mark.parametrize("sign", [ChildSign.NOT_GAINING, ChildSign.SALT_CRAVING])
def test_growth_is_the_teams_today(sign: ChildSign) -> None:
    assert levels(child(sign)) == {"not_growing": S}
    assert levels(child(present=frozenset({Symptom.TIRED})))["not_growing"] is S


def test_green_vomit_is_an_emergency_and_asked_where_it_is_not_known() -> None:
    vomits = frozenset({Symptom.VOMITING})
    assert levels(child(ChildSign.GREEN_VOMIT))["blocked_or_vomiting"] is E
    assert levels(child(present=vomits))["blocked_or_vomiting"] is S
    flags = {f.key: f for f in recommend(child(asked=False, present=vomits)).red_flags}
    assert flags["blocked_or_vomiting"].do.startswith("Ask now: is the vomit green")


def test_a_baby_s_pulse_and_urine_are_not_held_against_an_adult_s() -> None:
    baby = child(age=0, vitals=Vitals(pulse=140.0), urine_ml_24h=250.0)
    assert levels(baby) == {}


@pytest.mark.parametrize(("felt", "found"), [(Symptom.DROWSY, True), (Symptom.TIRED, False)])
def test_a_drowsy_child_is_an_emergency(felt: Symptom, found: bool) -> None:
    raised = levels(child(present=frozenset({felt})))
    assert (raised.get("dehydration") is E) is found


@pytest.mark.parametrize("changes", [{"volume_ml_24h": 300.0}, {"volume_ml_24h": 540.0}, {}])
def test_no_figure_for_adults_stands_in_the_plan(changes: dict[str, Any]) -> None:
    plan = recommend(child(ChildSign.DRY_MOUTH, **changes), STEADY)
    words = re.sub(r"'(rule_set|code|release)': '[^']*'", "", str(plan_to_dict(plan)))
    for figure in ("400 mL", "800", "1000", "1200", "1500", "2000", "100 per", "8 hours"):
        assert figure not in words


def test_the_skin_of_a_baby_has_a_warning_of_its_own() -> None:
    def warned(age: int) -> bool:
        return any("Preterm" in n.text for n in recommend(child(age=age)).notices)

    assert [warned(age) for age in (0, 1, 15)] == [True, False, False]

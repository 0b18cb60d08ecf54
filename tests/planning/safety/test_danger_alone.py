"""A danger sign raises by itself, and nothing that is not recorded takes it back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import fields, is_dataclass, replace
from itertools import product
from typing import Any

import pytest

from planning import recommend
from planning.inputs.check import check
from planning.inputs.findings import (
    Bleeding,
    Condition,
    Findings,
    Oedema,
    Person,
    StomaKind,
    Symptom,
    UrineSign,
)
from planning.results.plan import Plan, Urgency
from planning.results.snapshot import plan_to_dict
from tests.planning.builders import WELL, situation, well
from tests.planning.safety.dangers import DANGERS, ILEO, Danger

LIVER = Condition.LIVER_DISEASE

each_danger = pytest.mark.parametrize("danger", DANGERS, ids=[d.name for d in DANGERS])


def says_change_nothing(plan: Plan) -> bool:
    return plan.leave_alone or "change nothing" in str(plan_to_dict(plan))


@each_danger
def test_alone_on_a_well_stoma_it_is_as_urgent_as_the_facts_say(danger: Danger) -> None:
    plan = recommend(danger.on_a_well_stoma)
    assert plan.urgency.rank <= danger.level.rank
    assert not says_change_nothing(plan)
    assert plan.follow_up.in_days <= (14 if danger.level is Urgency.TWO_WEEKS else 3)


@each_danger
def test_with_everything_else_asked_and_good_too(danger: Danger) -> None:
    plan = recommend(danger.with_all_else_good)
    assert plan.urgency.rank <= danger.level.rank
    assert not says_change_nothing(plan)


@each_danger
def test_with_nothing_else_known_it_is_at_least_as_urgent(danger: Danger) -> None:
    plan = recommend(danger.and_nothing_else_known)
    assert plan.urgency.rank <= danger.level.rank
    assert not says_change_nothing(plan)


@each_danger
def test_leaving_a_normal_value_unrecorded_never_lowers_it(danger: Danger) -> None:
    known = danger.on_a_well_stoma
    before = situation(known).urgency.rank
    for path, less in without_one_normal_value(known):
        if not check(less):
            assert situation(less).urgency.rank <= before, path


def without_one_normal_value(found: Findings) -> Iterator[tuple[str, Findings]]:
    """Each recorded value of the well stoma set to not recorded, one at a time."""
    for part in fields(found):
        value = getattr(found, part.name)
        if not is_dataclass(value) or isinstance(value, type):
            continue
        for field in fields(value):
            normal = getattr(getattr(WELL, part.name), field.name)
            known = getattr(value, field.name)
            if known is None or known != normal or field.name in ("kind", "vitals"):
                continue
            less: dict[str, Any] = {part.name: replace(value, **{field.name: _unknown(known)})}
            yield f"{part.name}.{field.name}", replace(found, **less)
    if found.skin == WELL.skin:
        yield "skin", replace(found, skin=None)
    yield "system", replace(found, system=None)


def _unknown(known: Any) -> Any:
    """Conditions and symptoms say *not known* by being in neither set."""
    return known if isinstance(known, frozenset) and not known else None


def test_a_second_danger_never_lowers_the_urgency_of_the_first() -> None:
    """Each with every other."""
    alone = {one.name: situation(one.on_a_well_stoma).urgency.rank for one in DANGERS}
    pairs = 0
    for one, other in product(DANGERS, DANGERS):
        both = together(one, other)
        if both is None or check(both):
            continue
        pairs += 1
        assert situation(both).urgency.rank <= alone[one.name], (one.name, other.name)
    assert pairs > len(DANGERS) * 10


def together(one: Danger, other: Danger) -> Findings | None:
    """Both dangers at one stoma; None where they say different things of one field."""
    symptoms = one.changes.get("present", frozenset()) | other.changes.get("present", frozenset())
    both = {**one.changes, **other.changes, "present": symptoms}
    usual = {"kind": ILEO, "hours_without_output": None}
    same = (usual | one.changes, usual | other.changes)
    shared = (set(same[0]) & set(same[1])) - {"present"}
    if any(same[0][name] != same[1][name] for name in shared):
        return None
    return well(**both)


@pytest.mark.parametrize("symptom", list(Symptom))
@pytest.mark.parametrize("denied", [True, False])
def test_denying_a_symptom_is_not_needed_to_raise_another(symptom: Symptom, denied: bool) -> None:
    """An unasked companion is at least as urgent as one that was denied."""
    others = frozenset(Symptom) - {symptom}
    asked = well(present=frozenset({symptom}), absent=others)
    open_ = well(present=frozenset({symptom}), absent=others if denied else frozenset())
    assert situation(open_).urgency.rank <= situation(asked).urgency.rank


def test_what_was_not_asked_is_named_where_it_decides() -> None:
    plan = recommend(well(present=frozenset({Symptom.MILD_CRAMPS}), hours_without_output=0.0))
    flag = next(f for f in plan.red_flags if f.key == "blocked_ileostomy")
    assert flag.do.startswith("Ask now: severe cramps, vomiting, a swollen abdomen. ")


#: Unusual, but without a flag of its own: the plan goes on, but never says to change nothing.
UNSETTLED: list[dict[str, Any]] = [
    {"oedema": Oedema.MARKED},
    {"oedema": Oedema.MILD},
    {"bleeding": Bleeding.ON_WIPING},
    {"bleeding": Bleeding.ON_WIPING, "person": Person(has_not=frozenset({LIVER}))},
    {"kind": StomaKind.UROSTOMY, "urine_signs": frozenset({UrineSign.CRYSTALS})},
    {"kind": StomaKind.UROSTOMY, "urine_signs": frozenset({UrineSign.STRONG_ODOUR})},
]


@pytest.mark.parametrize("changes", UNSETTLED)
def test_what_is_unusual_is_never_told_to_change_nothing(changes: dict[str, Any]) -> None:
    assert not says_change_nothing(recommend(well(**changes)))


def test_contact_bleeding_is_usual_once_blood_thinners_and_liver_are_excluded() -> None:
    sure = Person(sensitivities=frozenset(), has_not=frozenset({LIVER, Condition.ANTICOAGULANT}))
    assert says_change_nothing(recommend(well(bleeding=Bleeding.ON_WIPING, person=sure)))


def test_a_well_person_with_a_pouch_that_fits_is_told_to_change_nothing() -> None:
    assert recommend(well()).urgency is Urgency.ROUTINE
    assert says_change_nothing(recommend(well()))

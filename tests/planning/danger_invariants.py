"""What must hold of any state once a danger is added to it, or a normal value is taken away.

Each state is tried with a few dangers and a few values, always the same ones: over many states all
are tried.
"""

from __future__ import annotations

import zlib
from collections.abc import Iterator, Sequence
from dataclasses import fields, is_dataclass, replace
from functools import cache
from typing import Any, Final, TypeVar

from planning.inputs.check import check
from planning.inputs.findings import (
    BaselineKind,
    Consistency,
    Findings,
    History,
    Output,
    StomaKind,
    Vitals,
)
from planning.pipeline import ranked_facts_of
from planning.results.plan import Plan, Stage, Urgency
from tests.planning.builders import WELL
from tests.planning.safety.dangers import DANGERS, NORMAL, Danger

T = TypeVar("T")
#: Dangers and values tried with one state.
_EACH: Final = 2


def turn(plan: Plan) -> int:
    """A number that is the same for the same plan in every process."""
    words = [*(item.key for item in plan.recommendations), *(m.finding for m in plan.missing)]
    return zlib.crc32(" ".join((plan.headline, *words)).encode())


def taken(choices: Sequence[T], number: int) -> Iterator[T]:
    """A few of ``choices``, spread by ``number``."""
    for i in range(min(_EACH, len(choices))):
        yield choices[(number + i * 7919) % len(choices)]


# --- a danger more ----------------------------------------------------------------------------
def with_danger(found: Findings, danger: Danger) -> Findings | None:
    """``found`` and that danger; None where they say different things of one field, or where the
    time since surgery, which decides about it, is another."""
    changes = danger.changes
    if changes.get("kind", StomaKind.ILEOSTOMY) is not found.stoma.kind:
        return None
    days = found.stoma.days_since_surgery
    if changes.get("days_since_surgery", days) != days:
        return None
    whole = found
    for name, value in changes.items():
        added = _with(whole, name, value)
        if added is None:
            return None
        whole = added
    return None if check(whole) else whole


def _with(found: Findings, name: str, value: Any) -> Findings | None:
    if name == "kind":
        return found
    if name == "person":
        person, sensitivities = found.person, found.person.sensitivities
        takes = (person.medicines or frozenset()) | (value.medicines or frozenset())
        has = person.has | value.has
        return replace(
            found,
            person=replace(
                person,
                has=has,
                has_not=person.has_not - has,
                medicines=takes if value.medicines is not None else person.medicines,
                sensitivities=sensitivities,
            ),
        )
    if name == "present":
        output = found.output
        there = output.present | value
        return replace(found, output=replace(output, present=there, absent=output.absent - there))
    if name in ("skin", "wounds"):
        more: dict[str, Any] = {name: (*(getattr(found, name) or ()), *value)}
        return replace(found, **more)
    if name == "vitals":
        return _measured(found, value)
    part = next(
        f.name
        for f in fields(found)
        if is_dataclass(getattr(WELL, f.name)) and hasattr(getattr(WELL, f.name), name)
    )
    now, usual = getattr(getattr(found, part), name), getattr(getattr(WELL, part), name)
    if now not in (None, usual, value, (), frozenset()):
        return None
    return replace(found, **{part: replace(getattr(found, part), **{name: value})})


def _measured(found: Findings, signs: Vitals) -> Findings | None:
    vitals = found.output.vitals
    new = {f.name: getattr(signs, f.name) for f in fields(Vitals)}
    new = {name: value for name, value in new.items() if value is not None}
    if any(getattr(vitals, n) not in (None, getattr(NORMAL, n), v) for n, v in new.items()):
        return None
    return replace(found, output=replace(found.output, vitals=replace(vitals, **new)))


@cache
def _alone(place: int) -> Urgency:
    """Of a danger with every other value unknown; the age is known, or no plan is made."""
    bare = DANGERS[place].and_nothing_else_known
    grown = replace(bare, person=replace(bare.person, age_years=40))
    return ranked_facts_of(grown, History()).urgency


def _accepted(found: Findings, history: History, danger: Danger) -> bool:
    """Agreed as known for this stoma, moderate pain that the skin explains, or thirst beside solid
    stool, which is no high output: no danger then."""
    solid = found.output.consistency in (Consistency.SOFT, Consistency.FORMED)
    explained = (danger.name == "pain 4" and bool(found.skin)) or (
        danger.name == "not measured, thirst" and solid
    )
    known = bool(history.baselines) or found.measurement.colour_known is True
    return known or explained


def _within_what_was_agreed(found: Findings, worse: Findings, history: History) -> bool:
    """An output that was not measured, and now is, no more than was agreed for this stoma: what
    was asked for is answered, and it is no danger here."""
    agreed = history.baseline(BaselineKind.OUTPUT_TARGET)
    volume = worse.output.volume_ml_24h
    if agreed is None or agreed.value is None or volume is None:
        return False
    return found.output.volume_ml_24h is None and volume <= agreed.value


def a_danger_more_never_lowers_and_is_never_routine(
    found: Findings, before: Urgency, history: History, number: int
) -> None:
    """Alone, with every other value unknown, it is not routine either."""
    for place in taken(range(len(DANGERS)), number):
        assert _alone(place) is not Urgency.ROUTINE, DANGERS[place].name
        worse = with_danger(found, DANGERS[place])
        if worse is None:
            continue
        after = ranked_facts_of(worse, history).urgency
        if not _within_what_was_agreed(found, worse, history):
            assert after.rank <= before.rank, DANGERS[place].name
        if not _accepted(worse, history, DANGERS[place]):
            assert after is not Urgency.ROUTINE, DANGERS[place].name


# --- a normal value less ----------------------------------------------------------------------
def without_a_normal_value(found: Findings) -> list[tuple[str, Findings]]:
    """Each recorded value that is as usual, taken out by itself."""
    return [(path, less) for path, less in _without(found) if not check(less)]


def _without(found: Findings) -> Iterator[tuple[str, Findings]]:
    for part in ("measurement", "output", "stoma"):
        value = getattr(found, part)
        for field in fields(value):
            known = getattr(value, field.name)
            if known is None or field.default is not None:
                continue  # not recorded, or it cannot be unrecorded
            if known in _normal(part, field.name):
                less = replace(value, **{field.name: None})
                yield f"{part}.{field.name}", replace(found, **{part: less})
    for name in ("skin", "wounds", "other_stomas"):
        if getattr(found, name) == ():
            unknown: dict[str, Any] = {name: None}
            yield name, replace(found, **unknown)
    yield from _not_asked(found)


def _normal(part: str, name: str) -> tuple[Any, ...]:
    usual = getattr(getattr(WELL, part), name)
    good = _GOOD.get(name, ())
    return (*good, *(() if usual is None else (usual,)))


#: What is as it should be where the well stoma of the tests says nothing.
_GOOD: Final[dict[str, tuple[Any, ...]]] = {
    "bleeds_on_touch": (True,),
    "pain_0_10": (0,),
    "hours_without_output": (0.0,),
    "bowel_outside": (False,),
    "deep_cut": (False,),
    "rubbed": (False,),
    "stent_out_early": (False,),
    "tablets_whole": (False,),
    "urine_signs": (frozenset(),),
}


def _not_asked(found: Findings) -> Iterator[tuple[str, Findings]]:
    """A symptom or illness denied, a sign measured and normal."""
    output: Output = found.output
    for symptom in sorted(output.absent):
        less = replace(output, absent=output.absent - {symptom})
        yield f"absent {symptom}", replace(found, output=less)
    for condition in sorted(found.person.has_not):
        person = replace(found.person, has_not=found.person.has_not - {condition})
        yield f"has_not {condition}", replace(found, person=person)
    for field in fields(Vitals):
        known = getattr(output.vitals, field.name)
        if known is not None and known == getattr(NORMAL, field.name):
            vitals = replace(output.vitals, **{field.name: None})
            yield f"vitals.{field.name}", replace(found, output=replace(output, vitals=vitals))


def a_normal_value_less_never_lowers(
    found: Findings, before: Urgency, history: History, number: int
) -> None:
    """What was not recorded is never better than what is normal."""
    for path, less in taken(without_a_normal_value(found), number):
        assert ranked_facts_of(less, history).urgency.rank <= before.rank, path


# --- changes ----------------------------------------------------------------------------------
def two_changes_at_most_but_for_corrections(plan: Plan) -> None:
    """More than two only where the corrections alone are; then nothing else is begun."""
    if plan.fit is None or plan.fit.changes <= 2:
        return
    staged = {item.stage for item in plan.recommendations}
    assert Stage.CORRECT_NOW in staged
    assert Stage.TODAY not in staged

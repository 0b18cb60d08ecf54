"""No line names a supply that is not chosen, forbids one that is, or offers what harms."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache, lru_cache

from planning.consistency.said import Fault, Part, Said
from planning.recommendations.register import ADVICE
from planning.results.plan import Change
from planning.supplies.catalogue import SUPPLIES, Slot
from planning.supplies.named import Named, named_in


def carried_out_without(said: Said) -> Iterator[Fault]:
    """A step carries out what is recommended; an amount, a supply's line and the choice agree."""
    plan = said.plan
    stopped = {item.key for item in plan.recommendations if item.change is Change.STOP}
    there = {item.key for item in plan.recommendations} - stopped | said.chosen
    steps = {step.key: step for step in plan.steps}
    for line in said.of(Part.STEP):
        if missing := set(steps[line.key].belongs_to) - there:
            yield Fault("step_without", line, f"not part of the plan: {_names(missing)}")
    for line in said.of(Part.SUPPLY):
        if (line.key in stopped) == (line.key in said.chosen):
            yield Fault("choice", line, f"recommended and chosen differ: {_names([line.key])}")


def names_another(said: Said) -> Iterator[Fault]:
    """Advice, a step or a notice takes a supply as used that is neither chosen nor worn, and does
    not declare it as one that is asked about."""
    there = said.at_hand
    for line in said.of(Part.ADVICE, Part.STEP, Part.NOTICE, Part.SUPPLY):
        used = _named(line.text, line.plain).used
        if not used or used <= there:
            continue
        named = used - _declared().get(line.key, frozenset())
        if other := {key for key in named if not _there(key, there)}:
            yield Fault("not_chosen", line, f"not part of the plan: {_names(other)}")


def _there(key: str, at_hand: frozenset[str]) -> bool:
    """It, or one that goes by the same words: another depth, plain powder for the prescribed."""
    slot, words = SUPPLIES[key].slot, SUPPLIES[key].words
    return any(
        SUPPLIES[one].words == words or (SUPPLIES[one].slot is slot and slot is not Slot.BARRIER)
        for one in at_hand
    )


def forbids_what_is_chosen(said: Said) -> Iterator[Fault]:
    """No line forbids a supply that the plan keeps or begins."""
    for line in said.of(Part.ADVICE, Part.DANGER, Part.STEP, Part.NOTICE, Part.SUPPLY):
        if both := _named(line.text, line.plain).forbidden & said.chosen:
            yield Fault("forbidden", line, f"part of the plan all through: {_names(both)}")


def offers_what_harms(said: Said) -> Iterator[Fault]:
    """No line offers, today or later, what this person reacts to or what is suspected."""
    known = said.situation.facts.findings.person.sensitivities or frozenset()
    known |= said.situation.left_off
    if not known:
        return
    kept = {i.key for i in said.plan.recommendations if i.change is not Change.STOP}
    for line in said.of(Part.ADVICE, Part.STEP, Part.SUPPLY, Part.LATER):
        named = _named(line.text, line.plain).used
        if line.part is Part.SUPPLY and line.key in kept:
            named |= {line.key}
        if harms := {key for key in named if SUPPLIES[key].materials & known}:
            yield Fault("reacts_to", line, f"the person reacts to it: {_names(harms)}")


@lru_cache(maxsize=8192)
def _named(text: str, plain: str) -> Named:
    """Of both voices of a line together: most lines are the same in most plans."""
    one, other = named_in(text), named_in(plain)
    return Named(one.used | other.used, one.forbidden | other.forbidden)


@cache
def _declared() -> dict[str, frozenset[str]]:
    """Advice that asks about a supply, or offers it for later: by its own row."""
    return {rule.key: frozenset(rule.names) for rule in ADVICE if rule.names}


def _names(keys: Iterator[str] | set[str] | list[str] | frozenset[str]) -> str:
    return ", ".join(SUPPLIES[key].name if key in SUPPLIES else key for key in sorted(keys))

"""The statements a case may make of a plan, and how each is judged.

A statement is ``{"says": "in words", KIND: VALUE}``; under ``must`` it has to hold, under
``must_not`` it must not. ``any`` and ``all`` join statements without words of their own.

mentions, advises, advises_against
                 ``{"on": "person|clinician|either|later", "what": PATTERN}``
refers           ``{"to": PATTERN, "within": LEVEL}``: somebody of that role, no later than that
flagged          level: some danger at that level or sooner
first_cause      pattern of the likeliest cause's title
chosen, kept     supplies of the plan (all of them); kept also: not swapped, not changed
starts, stops    pattern of a supply's key or of the words of what is begun or ended
changes          component that is changed (see ``counting``)
keeps_all        nothing worn is changed, and it is no emergency
opening_mm       ``[least, most]``: both sizes of the opening, where the plan gives them
seen_within      days until the next visit, at most
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Final

from planning import Findings, Plan
from planning.results.plan import Change, ItemKind, Urgency
from tests.planning.acceptance import pages
from tests.planning.acceptance.counting import changes
from tests.planning.acceptance.levels import level_of_flag, referral_level, sooner_by


@dataclass(frozen=True)
class Answer:
    """Whether a statement holds, and what the plan said that decides it."""

    holds: bool
    said: str


Judge = Callable[[Plan, Findings, Any], Answer]


def answer(statement: dict[str, Any], plan: Plan, findings: Findings) -> Answer:
    """Raises ``ValueError`` for a statement of no known kind, or of two."""
    kinds = [key for key in statement if key != "says"]
    if len(kinds) != 1 or kinds[0] not in KINDS:
        raise ValueError(f"One known kind of statement, not {kinds}.")
    return KINDS[kinds[0]](plan, findings, statement[kinds[0]])


# --- what the pages say ---------------------------------------------------------------------
def _on_page(
    look: Callable[[tuple[str, ...], str], str | None],
) -> Judge:
    def judge(plan: Plan, _: Findings, value: dict[str, str]) -> Answer:
        where = value.get("on", "either")
        found = look(pages.page(plan, where), value["what"])
        named = where in ("person", "clinician")
        nothing = f"nothing on the page of the {where}" if named else "nothing"
        return Answer(found is not None, nothing if found is None else _quoted(found))

    return judge


def _quoted(text: str) -> str:
    return f'"{text[:140]}{"…" if len(text) > 140 else ""}"'


# --- whom it calls --------------------------------------------------------------------------
def _refers(plan: Plan, _: Findings, value: dict[str, str]) -> Answer:
    within = value.get("within")
    called = [(flag.refer_to, level_of_flag(flag)) for flag in plan.red_flags]
    called += [
        (item.text, referral_level(item.text))  # type: ignore[misc]
        for item in plan.recommendations
        if item.kind is ItemKind.REFER and not item.key.startswith("refer_")
    ]
    fits = [
        (who, level)
        for who, level in called
        if re.search(value["to"], who, re.I) and _in_time(level, within)
    ]
    said = "; ".join(f"{who[:70]} ({level})" for who, level in fits or called)
    return Answer(bool(fits), said or "nobody is called")


def _in_time(level: str | None, within: str | None) -> bool:
    return within is None or (level is not None and sooner_by(level, within) >= 0)


def _flagged(plan: Plan, _: Findings, value: str) -> Answer:
    found = [flag for flag in plan.red_flags if sooner_by(level_of_flag(flag), value) >= 0]
    said = "; ".join(f"{flag.key} ({level_of_flag(flag)})" for flag in found or plan.red_flags)
    return Answer(bool(found), said or "no danger")


def _first_cause(plan: Plan, _: Findings, value: str) -> Answer:
    likely = [cause.title for cause in plan.causes.causes if cause.score > 0]
    first = likely[0] if likely else "no likely cause"
    return Answer(bool(re.search(value, first, re.I)), first)


# --- what is worn ---------------------------------------------------------------------------
def _chosen(plan: Plan, _: Findings, value: list[str]) -> Answer:
    found = all(any(re.fullmatch(want, key) for key in plan.supplies) for want in value)
    return Answer(found, ", ".join(plan.supplies) or "no supplies")


def _kept(plan: Plan, findings: Findings, value: list[str]) -> Answer:
    found = changes(plan, findings)
    items = {item.key: item.change for item in plan.recommendations}
    kept = all(
        any(re.fullmatch(want, key) and change is Change.KEEP for key, change in items.items())
        for want in value
    )
    said = ", ".join(f"{key} {change.value}" for key, change in items.items())
    return Answer(kept and not set(value) & set(found), said)


def _begun(*wanted: Change) -> Judge:
    def judge(plan: Plan, _: Findings, value: str) -> Answer:
        found = [
            f"{item.change.value} {item.key}: {item.text}"
            for item in plan.recommendations
            if item.change in wanted
            and item.kind not in (ItemKind.TEACH, ItemKind.REFER, ItemKind.FOLLOW_UP)
            and re.search(value, f"{item.key} {item.text}", re.I)
        ]
        return Answer(bool(found), _quoted(found[0]) if found else "no such recommendation")

    return judge


def _changes(plan: Plan, findings: Findings, value: str) -> Answer:
    found = changes(plan, findings)
    return Answer(value in found, ", ".join(found) or "nothing is changed")


def _keeps_all(plan: Plan, findings: Findings, value: bool) -> Answer:
    found = changes(plan, findings)
    if plan.urgency is Urgency.EMERGENCY:
        return Answer(not value, "an emergency: what is worn is not planned")
    return Answer((not found) is value, ", ".join(found) or "nothing is changed")


def _opening(plan: Plan, _: Findings, value: list[float]) -> Answer:
    size = plan.dimensions
    sides = [mm for mm in (size.opening_length_mm, size.opening_width_mm) if mm is not None]
    fits = bool(sides) and all(value[0] <= mm <= value[1] for mm in sides)
    return Answer(fits, " x ".join(f"{mm:.1f}" for mm in sides) or "no opening is given")


def _seen_within(plan: Plan, _: Findings, value: int) -> Answer:
    return Answer(plan.follow_up.in_days <= value, f"next visit in {plan.follow_up.in_days} days")


# --- several together -----------------------------------------------------------------------
def _joined(several: Callable[[list[bool]], bool]) -> Judge:
    def judge(plan: Plan, findings: Findings, value: list[dict[str, Any]]) -> Answer:
        answers = [answer(statement, plan, findings) for statement in value]
        holds = several([one.holds for one in answers])
        return Answer(holds, "; ".join(one.said for one in answers if one.holds is holds))

    return judge


KINDS: Final[dict[str, Judge]] = {
    "mentions": _on_page(pages.mentions),
    "advises": _on_page(pages.advises),
    "advises_against": _on_page(pages.advises_against),
    "refers": _refers,
    "flagged": _flagged,
    "first_cause": _first_cause,
    "chosen": _chosen,
    "kept": _kept,
    "starts": _begun(Change.START, Change.CHANGE),
    "stops": _begun(Change.STOP),
    "changes": _changes,
    "keeps_all": _keeps_all,
    "opening_mm": _opening,
    "seen_within": _seen_within,
    "any": _joined(any),
    "all": _joined(all),
}

"""The leaf of one stoma, of its kind and of what the plan allows to be said.

It is built of ``Unsaid`` and printed as ``str`` (``patient_language.said``).
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Generic

from clinic.documents.living import words
from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.unsaid import Phrase, Unsaid, W
from clinic.documents.shared import Contact, Who, contact, stoma_words, who
from clinic.patients.models import StomaKind
from clinic.plans.living import Living, living_of
from clinic.plans.plan_with_decisions import DecidedPlan


@dataclass(frozen=True)
class Part(Generic[W]):
    """One heading and its sentences. ``first``: what applies to all of them, "" for nothing."""

    title: W
    lines: tuple[W, ...]
    first: W | str = ""


@dataclass(frozen=True)
class Leaf(Localised, Generic[W]):
    """``paper``: a4 or letter."""

    who: Who[W]
    contact: Contact[W]
    stoma: W
    parts: tuple[Part[W], ...]
    paper: str
    large: bool
    signed: bool


def leaf(decided: DecidedPlan, *, paper: str, large: bool) -> Leaf[Unsaid]:
    """For an adult without an emergency; the caller asks."""
    about = decided.assessment
    return Leaf(
        who=who(about.visit.patient),
        contact=contact(),
        stoma=stoma_words(about.stoma),
        parts=parts_of(decided),
        paper=paper,
        large=large,
        signed=decided.signed,
    )


def content_of(decided: DecidedPlan) -> str:
    """What it says, as a code: another one where any of its sentences is another."""
    said = [(part.title, part.first, part.lines) for part in parts_of(decided)]
    return hashlib.sha256(repr(said).encode()).hexdigest()


def parts_of(decided: DecidedPlan) -> tuple[Part[Unsaid], ...]:
    """In the order of a day."""
    kind, may = StomaKind(decided.assessment.stoma.kind), living_of(decided)
    supplies = frozenset(decided.plan.supplies)
    every = (
        _part(Phrase("When to empty"), *_empty(kind, supplies)),
        _part(Phrase("When you change"), *words.CHANGE),
        _part(Phrase("Throwing away"), *words.THROW_AWAY),
        _part(Phrase("Washing and bathing"), *words.WASH),
        _part(Phrase("Food and drink"), *_food(kind, may)),
        _blockage(kind, may),
        _part(Phrase("Ordering"), *words.ORDER),
        _part(Phrase("Travel"), *_travel(kind, supplies)),
    )
    return tuple(part for part in every if part)


def _part(title: Phrase, *lines: str, first: str = "") -> Part[Unsaid]:
    return Part(title, tuple(map(Phrase, lines)), Phrase(first) if first else "")


def _empty(kind: StomaKind, supplies: frozenset[str]) -> Iterator[str]:
    yield from words.CLOSED if "closed" in supplies else words.EMPTY
    if kind == StomaKind.UROSTOMY and "night_bag" in supplies:
        yield from words.NIGHT_BAG


def _food(kind: StomaKind, may: Living) -> Iterator[str]:
    small_bowel = kind in {StomaKind.ILEOSTOMY, StomaKind.JEJUNOSTOMY}
    if may.plan_first:
        yield words.PLAN_FIRST
    elif kind == StomaKind.ILEOSTOMY:
        yield words.CHEW
        yield words.LITTLE_FIBRE
        if not may.limited:
            yield words.SALT
    elif kind == StomaKind.COLOSTOMY:
        yield words.GAS
    if may.limited:
        yield words.LIMITED
    elif not may.plan_first and kind in _DRINKS:
        yield _DRINKS[kind]
    if small_bowel:
        yield words.NO_LAXATIVE


_DRINKS = {
    StomaKind.ILEOSTOMY: words.DRINK_ILEOSTOMY,
    StomaKind.COLOSTOMY: words.FIBRE,
    StomaKind.UROSTOMY: words.DRINK_UROSTOMY,
}


def _blockage(kind: StomaKind, may: Living) -> Part[Unsaid] | None:
    """None where the plan says what to eat and drink: the care sheet has what to do, too."""
    if kind not in {StomaKind.ILEOSTOMY, StomaKind.JEJUNOSTOMY} or may.plan_first:
        return None
    if may.first_aid:
        return _part(Phrase("If it gets blocked"), *may.first_aid, first=words.MILD_CRAMPS)
    return _part(Phrase("If it gets blocked"), *words.CALL_FIRST)


def _travel(kind: StomaKind, supplies: frozenset[str]) -> Iterator[str]:
    yield from words.TRAVEL
    if not {"mouldable", "pre_cut"} & supplies:
        yield words.CUT_AHEAD
    if kind in {StomaKind.ILEOSTOMY, StomaKind.JEJUNOSTOMY}:
        yield words.ASK_FIRST

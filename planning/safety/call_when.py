"""When to call whom: lines for the sheet, by kind of stoma and by what is worn.

Each danger is named once; dangers of one urgency and one group share a line, so that the sheet
stays short. Times follow the shortest published with symptoms. Never: reduction of a prolapse,
sugar, dilation, anything into the stoma, laxatives, plain water for high output.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from planning.findings import StomaKind
from planning.plan import CallWhen, Urgency
from planning.situation import Situation
from planning.sources import MEMORY, PRACTICE

_E, _S, _D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS

#: Words in one sentence at most, for a reader of grade 6 (design value).
_LONGEST: Final = 22


@dataclass(frozen=True, slots=True)
class Danger:
    """One thing the patient may see. ``words`` complete "Call when ..."; ``then`` stands after
    the line. Dangers of the same ``group`` and urgency share a line."""

    urgency: Urgency
    group: str
    words: str
    sources: tuple[str, ...]
    then: str = ""


def call_when(situation: Situation, *, presses: bool) -> tuple[CallWhen, ...]:
    """Lines in order of urgency. ``presses``: convexity or a belt is part of the plan."""
    lines: dict[tuple[Urgency, str], list[Danger]] = {}
    for danger in dangers(situation, presses=presses):
        lines.setdefault((danger.urgency, danger.group), []).append(danger)
    return tuple(_line(lines[key]) for key in sorted(lines, key=lambda key: key[0].rank))


def _line(dangers: list[Danger]) -> CallWhen:
    words = dangers[0].words
    for danger in dangers[1:]:
        sentence = f"{words.rpartition('. ')[2]}, or {danger.words}"
        words += (", or " if len(sentence.split()) <= _LONGEST else ". Or ") + danger.words
    then = "".join(f" {danger.then}" for danger in dangers if danger.then)
    sources = tuple(dict.fromkeys(source for danger in dangers for source in danger.sources))
    return CallWhen(dangers[0].urgency, f"{words[:1].upper()}{words[1:]}.{then}", sources)


def dangers(situation: Situation, *, presses: bool) -> Iterator[Danger]:
    """Everything that this person must know to call about."""
    yield from _stoma(situation)
    yield from _person()
    yield from _by_kind(situation.facts.kind)
    yield from _blood_and_skin(situation, presses=presses)
    yield Danger(_D, "again", "it leaks, itches or burns again", ("nca", "encyclopedia"))
    yield Danger(_D, "again", "your stoma changes size or looks different", ("seekhelp2009",))


def _stoma(situation: Situation) -> Iterator[Danger]:
    yield Danger(_E, "stoma", "your stoma turns black, purple or very pale", (PRACTICE,))
    yield Danger(_E, "stoma", "a lump beside it gets hard and hurts", (PRACTICE,))
    if situation.facts.prolapsed:
        words = "the long stoma gets dark, hard or sore, or stays out"
        sources = ("complicationsreview", PRACTICE)
        yield Danger(_E, "prolapse", words, sources, "Do not push it.")
    if situation.likely("varices"):
        words = "it bleeds and goes on, even a little"
        sources = ("strauss2014", PRACTICE)
        yield Danger(_E, "bleeding", words, sources, "Press, lie flat and call.")
    else:
        words = "it bleeds and does not stop after you press for 10 minutes"
        yield Danger(_E, "bleeding", words, ("barr2004",))


def _person() -> Iterator[Danger]:
    faint = "you faint, get confused or pass very little urine"
    yield Danger(_E, "person", faint, ("gateshead", PRACTICE))
    yield Danger(_E, "person", "your face swells or you cannot breathe well", (PRACTICE,))


def _by_kind(kind: StomaKind) -> Iterator[Danger]:
    if kind is StomaKind.UROSTOMY:
        yield Danger(_E, "kind", "no urine comes for 4 hours", (MEMORY,))
        yield Danger(_E, "kind", "you have a fever or pain in your side or back", (MEMORY,))
        yield Danger(_S, "kind", "no urine comes for 2 hours though you drink", (MEMORY,))
        smells = "your urine smells strong or feels gritty"
        yield Danger(_D, "again", smells, ("urostomy2014",))
    elif kind is StomaKind.COLOSTOMY:
        blocked = "no stool comes for a day and you have pain or vomit"
        yield Danger(_E, "kind", blocked, (PRACTICE,))
        yield Danger(_D, "again", "no stool comes for 3 days", (PRACTICE,))
    else:
        yield from _small_bowel()


def _small_bowel() -> Iterator[Danger]:
    blocked = "nothing comes for 4 hours and you have strong cramps or vomit"
    yield Danger(_E, "kind", blocked, ("obstruction", "seekhelp2009"))
    yield Danger(_E, "kind", "more than 2 litres come in a day", ("baker2011",))
    yield Danger(_S, "kind", "nothing comes for 6 hours", ("nhsileostomy",))
    yield Danger(_S, "kind", "more than 1 litre comes in a day", ("gateshead",))
    yield Danger(_S, "kind", "it stays watery for a day", ("gateshead",))


def _blood_and_skin(situation: Situation, *, presses: bool) -> Iterator[Danger]:
    again = "you see blood from inside the stoma or in the pouch again and again"
    yield Danger(_S, "blood", again, ("nca", "seekhelp2009"))
    yield Danger(_S, "blood", "your stoma has a deep cut", ("seekhelp2009",))
    if situation.facts.kind is StomaKind.UROSTOMY:
        yield Danger(_S, "skin", "red, warm skin spreads", ("hightech", PRACTICE))
    else:
        yield Danger(_S, "skin", "red, warm skin spreads or you have a fever", ("hightech",))
    if situation.facts.separated:
        yield Danger(_S, "skin", "the gap at your stoma gets deeper", (MEMORY,))
    if presses:
        words = "a red mark or sore stays where the barrier or belt presses"
        yield Danger(_S, "skin", words, ("urostomy2014", "complicationsreview"))

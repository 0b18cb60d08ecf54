"""When to call whom: lines for the sheet, by kind of stoma and by what is worn.

Times follow the shortest published with symptoms. Never: reduction of a prolapse, sugar, dilation,
anything into the stoma, laxatives, plain water for high output.
"""

from __future__ import annotations

from collections.abc import Iterator

from planning.findings import StomaKind
from planning.plan import CallWhen, Urgency
from planning.situation import Situation
from planning.sources import MEMORY, PRACTICE

_E, _S, _D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS


def call_when(situation: Situation, *, presses: bool) -> tuple[CallWhen, ...]:
    """Lines in order of urgency. ``presses``: convexity or a belt is part of the plan."""
    lines = [
        *_everyone(),
        *_by_kind(situation.facts.kind),
        *_by_finding(situation),
        *(_pressure() if presses else ()),
    ]
    return tuple(sorted(lines, key=lambda line: line.urgency.rank))


def _everyone() -> Iterator[CallWhen]:
    yield CallWhen(_E, "Your stoma turns black, purple or very pale.", (PRACTICE,))
    yield CallWhen(_E, "It bleeds and does not stop after you press for 10 minutes.", ("barr2004",))
    yield CallWhen(_E, "A lump beside your stoma gets hard and hurts.", (PRACTICE,))
    yield CallWhen(
        _E, "You faint, get confused, or pass very little urine.", ("gateshead", PRACTICE)
    )
    yield CallWhen(_E, "Your face swells or you cannot breathe well.", (PRACTICE,))
    yield CallWhen(
        _S,
        "You see blood from inside the stoma or in the pouch again and again.",
        ("nca", "seekhelp2009"),
    )
    yield CallWhen(_S, "Your stoma has a deep cut.", ("seekhelp2009",))
    yield CallWhen(_S, "Red, warm skin spreads, or you have a fever.", ("hightech", PRACTICE))
    yield CallWhen(_D, "It leaks, itches or burns again.", ("nca", "encyclopedia"))
    yield CallWhen(_D, "Your stoma changes size or looks different.", ("seekhelp2009",))


def _by_kind(kind: StomaKind) -> Iterator[CallWhen]:
    if kind is StomaKind.UROSTOMY:
        yield CallWhen(_E, "No urine comes for 4 hours.", (MEMORY,))
        yield CallWhen(_E, "You have a fever, or pain in your side or back.", (MEMORY,))
        yield CallWhen(_S, "No urine comes for 2 hours though you drink.", (MEMORY,))
        yield CallWhen(_D, "Your urine smells strong or feels gritty.", ("urostomy2014",))
    elif kind is StomaKind.COLOSTOMY:
        yield CallWhen(_E, "No stool comes for a day and you have pain or vomit.", (PRACTICE,))
        yield CallWhen(_D, "No stool comes for 3 days.", (PRACTICE,))
    else:
        yield CallWhen(
            _E,
            "Nothing comes for 4 hours and you have strong cramps or vomit.",
            ("obstruction", "seekhelp2009"),
        )
        yield CallWhen(_E, "More than 2 litres come in a day.", ("baker2011",))
        yield CallWhen(_S, "Nothing comes for 6 hours, even if you feel well.", ("nhsileostomy",))
        yield CallWhen(
            _S, "More than 1 litre comes in a day, or it stays watery for a day.", ("gateshead",)
        )


def _by_finding(situation: Situation) -> Iterator[CallWhen]:
    facts = situation.facts
    if facts.prolapsed:
        yield CallWhen(
            _E,
            "The long stoma gets dark, hard or sore, or stays out. Do not push it.",
            ("complicationsreview", PRACTICE),
        )
    if situation.likely("varices"):
        yield CallWhen(
            _E, "It bleeds at all and goes on: press, lie flat and call.", ("strauss2014", PRACTICE)
        )
    if facts.separated:
        yield CallWhen(_S, "The gap at your stoma gets deeper or you have a fever.", (MEMORY,))


def _pressure() -> Iterator[CallWhen]:
    yield CallWhen(
        _S,
        "A red mark or sore stays where the barrier or belt presses.",
        ("urostomy2014", "complicationsreview"),
    )

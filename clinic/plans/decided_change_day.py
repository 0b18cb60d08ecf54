"""How often the clinician decided to change the barrier, where that is not as planned.

A day they chose is in the plan already. Words are read only in decisions made before a day could
be chosen, and only where they can mean one number of days; a note never is.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Final

from clinic.plans.decided_item import Decided
from clinic.plans.models import Choice
from planning import Plan
from planning.evidence.thresholds import WEAR_SHORT, WEAR_TYPING_ERROR
from planning.instructions.recount import recounted
from planning.results.plan import ItemKind, Recommendation

_NUMBERS: Final = {
    word: number
    for number, word in enumerate(
        ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"), start=1
    )
}
_NUMBER: Final = rf"(?P<number>\d+(?:\.\d+)?|{'|'.join(_NUMBERS)})"
_BEFORE: Final = (
    r"(?:keep: )?(?:please )?(?:change )?(?:it |barrier |the barrier |pouch |the pouch )?"
    r"(?:at the latest )?"
)
_AFTER: Final = (
    r"(?: at the latest)?"
    # The plan's own words after the day, and nothing that could hold another number.
    r"(?:[,.;]? (?:and )?(?:change )?at once (?:when|if) [a-z, ]+)?\.?"
)
_READ: Final = tuple(
    (re.compile(f"{_BEFORE}{words}{_AFTER}"), days)
    for words, days in (
        (rf"every {_NUMBER} days?", None),
        (rf"on day {_NUMBER}", None),
        (rf"{_NUMBER} days?", None),
        (r"(?:every|each) day|daily|once a day|once daily", 1.0),
        (r"every (?:other|second) day|(?:on )?alternate days", 2.0),
        (r"every third day", 3.0),
        (r"every week|weekly|once a week", 7.0),
    )
)


@dataclass(frozen=True)
class WearDecided:
    """``days`` None: the words say no one number of days, or the planned day was dropped.

    ``words``: the clinician's own, "" where it was dropped. ``chosen``: the plan was made with
    this day.
    """

    days: float | None
    words: str
    chosen: bool = False

    def counted(self, plan: Plan) -> Plan:
        """``plan`` with its supplies counted so."""
        return plan if self.chosen else recounted(plan, self.days)


def days_of(words: str) -> float | None:
    """Days between changes, 1 to 14; None where the words may mean anything else.

    >>> days_of("every 2 days"), days_of("Change daily."), days_of("every other day")
    (2.0, 1.0, 2.0)
    >>> days_of("every 2 to 3 days"), days_of("when it itches"), days_of("every 40 days")
    (None, None, None)
    """
    plain = " ".join(words.lower().split())
    for pattern, days in _READ:
        if found := pattern.fullmatch(plain):
            return _in_range(days if days is not None else _number(found["number"]))
    return None


def _number(said: str) -> float:
    return float(_NUMBERS.get(said, 0) or said)


def _in_range(days: float) -> float | None:
    return days if WEAR_SHORT.value <= days <= WEAR_TYPING_ERROR.value else None


def wear_decided(recommendations: Iterable[Decided]) -> WearDecided | None:
    """None where the plan's change day was accepted, is undecided, or the plan says none."""
    changed = [
        one
        for one in recommendations
        if isinstance(one.item, Recommendation)
        and one.item.kind is ItemKind.WEAR
        and one.choice in {Choice.CHANGED, Choice.DROPPED}
    ]
    if not changed:
        return None
    if changed[0].chosen:
        return WearDecided(changed[0].day, "", chosen=True)
    read = {None if one.note else days_of(one.changed_to) for one in changed}
    words = "; ".join(one.changed_to for one in changed if one.changed_to)
    return WearDecided(read.pop() if len(read) == 1 else None, words)

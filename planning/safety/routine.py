"""Routine visits after surgery, each with what it is for. No society publishes these intervals:
the days are design values, and what is published or usual about a visit is cited beside it.

The calls of the first two weeks come on their days. After that a routine visit counts from the
last time stoma and skin were both looked at, whatever that visit was for: a look in the second
half of the time before a routine one stands for it (design value), and from the first year on the
next is due a year after the last.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import FOLLOW_TWO_WEEKS
from planning.inputs.findings import StomaKind

_YEAR: Final = 365
_MONTH: Final = 30.4
_WEEK: Final = 7
#: Up to this day after surgery a call asks after danger, whenever somebody last looked.
CALLS_UNTIL: Final = 14


@dataclass(frozen=True, slots=True)
class Visit:
    """``day`` after surgery; ``only`` for these kinds of stoma (empty: for every one)."""

    key: str
    day: int
    why: str
    plain: str
    sources: tuple[str, ...]
    only: tuple[StomaKind, ...] = ()


#: In order of days; after the last one a year from look to look.
VISITS: Final = (
    Visit(
        "day_3",
        3,
        "Three days after surgery: the usual first call.",
        "To hear how the first days went.",
        (DESIGN, "cambridge/first_call", "salford/first_contact"),
    ),
    Visit(
        "day_7",
        7,
        "One week after surgery with a new ileostomy: a call, because loss of fluid is a frequent "
        "reason for going back to hospital.",
        "To hear how much comes out of your stoma and how you feel.",
        (DESIGN, "vogel2022/readmitted"),
        (StomaKind.ILEOSTOMY,),
    ),
    Visit(
        "day_14",
        14,
        "Two weeks after surgery: the usual look at size, skin, leaks and output.",
        "To look at your stoma and skin two weeks after surgery.",
        (DESIGN, PRACTICE),
    ),
    Visit(
        "day_42",
        42,
        "Six weeks after surgery: the stoma is measured again and the supplies are looked over.",
        "To measure your stoma again and look over your supplies.",
        (DESIGN, PRACTICE),
    ),
    Visit(
        "day_90",
        90,
        "Three months after surgery: the usual review.",
        "To see how you get on, three months after surgery.",
        (DESIGN, PRACTICE),
    ),
    Visit(
        "day_180",
        180,
        "Six months after surgery: the usual review.",
        "To see how you get on, half a year after surgery.",
        (DESIGN, PRACTICE),
    ),
    Visit(
        "day_365",
        _YEAR,
        "One year after surgery: the usual yearly look.",
        "For your yearly check.",
        (DESIGN, "chelsea/yearly", "eastkent/yearly"),
    ),
)
YEARLY: Final = Visit(
    "yearly",
    _YEAR,
    "A year after stoma and skin were last looked at: the usual yearly look.",
    "For your yearly check.",
    (DESIGN, "chelsea/yearly", "eastkent/yearly"),
)
OVERDUE: Final = Visit(
    "routine_overdue",
    int(FOLLOW_TWO_WEEKS.value),
    "Stoma and skin were not both looked at today, and a routine look was due.",
    "To look at your stoma and skin.",
    (DESIGN,),
)
UNKNOWN: Final = Visit(
    "date_unknown",
    int(FOLLOW_TWO_WEEKS.value),
    "The time since surgery is not recorded: not later than the shortest routine gap.",
    "To check that all is well.",
    (DESIGN,),
)
#: No visit is planned before it is known how it went.
AFTER_EMERGENCY: Final = "Ask the next day how it went."


def next_visit(kind: StomaKind, today: int, last_look: int | None) -> tuple[int, Visit]:
    """Days from today, and what for. ``today`` and ``last_look`` in days after surgery;
    ``last_look``: when stoma and skin were both looked at, None where no visit did."""
    usual = [visit for visit in VISITS if not visit.only or kind in visit.only]
    for visit in usual:
        if today < visit.day and (visit.day <= CALLS_UNTIL or not _done(visit, last_look, usual)):
            return visit.day - today, visit
    due = YEARLY.day + (_last_routine(today) if last_look is None else last_look)
    return (due - today, YEARLY) if due > today else (OVERDUE.day, OVERDUE)


def _done(visit: Visit, last_look: int | None, usual: list[Visit]) -> bool:
    """Whether the last look stands for this visit: it came nearer to it than to the one before."""
    before = max(v.day for v in usual if v.day < visit.day)
    return last_look is not None and last_look > (before + visit.day) / 2


def _last_routine(today: int) -> int:
    """The last anniversary of surgery."""
    return today // _YEAR * _YEAR


def words_of_days(days: int) -> str:
    """When to come again, as one says it: the days exactly, and roughly in weeks or months."""
    if days == 1:
        return "See or telephone again tomorrow."
    if days < 2 * _WEEK:
        return f"See again within {days} days."
    if days % _WEEK == 0 and days <= 8 * _WEEK:
        return f"See again within {days // _WEEK} weeks."
    if days < 2 * _MONTH:
        return f"See again within {days} days, about {round(days / _WEEK)} weeks."
    if abs(days - _YEAR) <= _WEEK:
        return f"See again within {days} days, about a year."
    return f"See again within {days} days, about {round(days / _MONTH)} months."

"""Courses whose truth is known: nothing changed, it looks changed, or it was doubled or halved.

Every course is one plan with the visits and the diary before it; ``weekly`` judges it as somebody
would who opens the trend once a week for twelve weeks, and beyond.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from datetime import timedelta

from planning.course.outcome import outcome_of
from planning.course.periods import in_order
from planning.course.record import Course, SignedVisit, Worn
from planning.course.results import PlanOutcome
from planning.inputs.findings import RemovalReason, StomaKind
from tests.benchmarks.verdicts.people import (
    ORDINARY,
    TWO_NURSES,
    Dice,
    Hand,
    Rate,
    Sore,
    charted,
    day,
    diary,
    visit,
)
from tests.planning.builders import well

#: Weeks in which somebody looks.
WEEKS = 14
_INTACT = well()


@dataclass(frozen=True)
class Scenario:
    """``true_times``: how many times as many leaks the plan truly made; 1: none more, none less."""

    name: str
    make: Callable[[Dice], tuple[Course, int]]
    true_times: float = 1.0


def weekly(course: Course, index: int) -> Iterator[PlanOutcome]:
    """The outcome of visit ``index`` as shown after each week: what came later is not known yet."""
    course = in_order(course)
    plan = course.visits[index].day
    for week in range(1, WEEKS + 1):
        today = plan + timedelta(weeks=week)
        seen = tuple(v for v in course.visits if v.day <= today)
        worn = None if course.worn is None else tuple(w for w in course.worn if w.on <= today)
        known = replace(course, today=today, visits=seen, worn=worn)
        yield outcome_of(known, index)


def course_of(visits: Sequence[SignedVisit], worn: Sequence[Worn] | None) -> Course:
    """Known to the end of the time looked at."""
    kept = None if worn is None else tuple(worn)
    return Course(StomaKind.ILEOSTOMY, visits[-1].day, tuple(visits), kept)


# --- the courses ------------------------------------------------------------------------------
@dataclass(frozen=True)
class Life:
    """``per_week`` leaks before; ``weeks`` of diary before the plan; changed every ``planned``
    days at the latest; a visit every ``between`` days (0: none) after the plan."""

    per_week: float
    weeks: int
    planned: float = 4.0
    between: int = 7
    sore: Sore | None = field(default_factory=Sore)
    hand: Hand = TWO_NURSES


def _seen(dice: Dice, life: Life, number: float, *changed: str) -> SignedVisit:
    found = _INTACT if life.sore is None else charted(dice, life.sore, life.hand)
    return visit(number, found, *changed)


def _around(dice: Dice, life: Life, plan: float) -> list[SignedVisit]:
    """A check three weeks before the plan, the plan, and the visits after it."""
    after = range(life.between, WEEKS * 7 + 1, life.between) if life.between else ()
    return [
        _seen(dice, life, plan - 21),
        _seen(dice, life, plan, "ring"),
        *(_seen(dice, life, plan + n) for n in after),
    ]


def changed_by(life: Life, times: float) -> Callable[[Dice], tuple[Course, int]]:
    """The plan makes ``times`` as many leaks, at once and for good."""

    def make(dice: Dice) -> tuple[Course, int]:
        plan = 7.0 * life.weeks
        usual = life.per_week / 7

        def rate(at: float) -> float:
            return usual * times if at >= plan else usual

        worn = _logged(dice, rate, plan, life)
        return course_of(_around(dice, life, plan), worn), 1

    return make


def _logged(dice: Dice, rate: Rate, plan: float, life: Life, start: float = 0.0) -> Sequence[Worn]:
    """A fresh barrier on the day of the plan, as one is put on at a visit."""
    end = plan + 7.0 * WEEKS
    before = diary(dice, rate, start, plan, life.planned)
    # What was on when the visit was made comes off there.
    last = before[-1]
    if last.off is not None and last.off > day(plan):
        before = (*before[:-1], replace(last, off=day(plan), reason=RemovalReason.PLANNED))
    return (*before, *diary(dice, rate, plan, end, life.planned))


def seasonal(life: Life, swing: float) -> Callable[[Dice], tuple[Course, int]]:
    """Leaks rise and fall with the year, by ``swing`` of their mean either way."""

    def make(dice: Dice) -> tuple[Course, int]:
        plan, shift = 7.0 * life.weeks, dice.uniform(0, 365)

        def rate(at: float) -> float:
            return life.per_week / 7 * (1 + swing * math.cos(2 * math.pi * (at + shift) / 365))

        return course_of(_around(dice, life, plan), _logged(dice, rate, plan, life)), 1

    return make


def bad_spell(life: Life, times: float) -> Callable[[Dice], tuple[Course, int]]:
    """The fortnight before the visit truly was ``times`` as bad, and is over after it; so was the
    skin."""

    def make(dice: Dice) -> tuple[Course, int]:
        plan = 7.0 * life.weeks

        def rate(at: float) -> float:
            return life.per_week / 7 * (times if plan - 14 <= at < plan else 1)

        visits = _around(dice, life, plan)
        bad = replace(life, sore=Sore(hours=6.3, outer_mm=14.0))
        visits[1] = _seen(dice, bad, plan, "ring")
        return course_of(visits, _logged(dice, rate, plan, life)), 1

    return make


def bad_luck(life: Life, leaks: int) -> Callable[[Dice], tuple[Course, int]]:
    """Nothing ever changes; the visit is made as soon as a fortnight has so many ``leaks``."""

    def make(dice: Dice) -> tuple[Course, int]:
        usual = life.per_week / 7
        worn = diary(dice, lambda _: usual, 0.0, 7.0 * life.weeks + 365, life.planned)
        fell = [w.off for w in worn if w.reason is RemovalReason.LEAK and w.off is not None]
        least = 7 * life.weeks
        plan = next(
            (
                n
                for n in range(least, least + 300)
                if sum(day(n - 14) <= off <= day(n) for off in fell) >= leaks
            ),
            least + 300,
        )
        end = day(plan + 7.0 * WEEKS)
        kept = [w for w in worn if w.on <= end]
        return course_of(_around(dice, life, plan), kept), 1

    return make


def _no_log(make: Callable[[Dice], tuple[Course, int]]) -> Callable[[Dice], tuple[Course, int]]:
    def without(dice: Dice) -> tuple[Course, int]:
        course, index = make(dice)
        return replace(course, worn=None), index

    return without


def _skin_alone(life: Life) -> Callable[[Dice], tuple[Course, int]]:
    return _no_log(changed_by(life, 1))


_OFTEN, _DAILY = Life(5, 12), Life(10, 12, planned=3.0)
_TWO = Life(2, 12)
_AS_CHARTED = replace(_TWO, hand=ORDINARY)
_SMALL = Sore(hours=1.4, outer_mm=4.0)
#: How far leaks rise and fall with the year: a fifth, so that the worst month has half as many
#: again as the best; where they are few, a third, twice as many.
_FIFTH, _THIRD = 0.2, 1 / 3

UNCHANGED = (
    Scenario("unchanged, 1 leak in 2 weeks", changed_by(Life(0.5, 12), 1)),
    Scenario("unchanged, 2 a week", changed_by(_TWO, 1)),
    Scenario("unchanged, 5 a week", changed_by(_OFTEN, 1)),
    Scenario("unchanged, 10 a week", changed_by(_DAILY, 1)),
    Scenario("unchanged, no visit after", changed_by(replace(_TWO, between=0), 1)),
    Scenario("unchanged, half a year of diary before", changed_by(replace(_TWO, weeks=26), 1)),
    Scenario("unchanged, 6 weeks of diary before", changed_by(replace(_OFTEN, weeks=6), 1)),
    Scenario("bad fortnight, 3 times 2 a week", bad_spell(_TWO, 3)),
    Scenario("bad fortnight, 3 times 5 a week", bad_spell(_OFTEN, 3)),
    Scenario("bad fortnight, diary of 3 weeks", bad_spell(replace(_TWO, weeks=3), 3)),
    Scenario("bad fortnight by chance, 2 a week", bad_luck(_TWO, 8)),
    Scenario("bad fortnight by chance, 1 a week", bad_luck(replace(_TWO, per_week=1), 5)),
    Scenario("season, 1 a week, a third", seasonal(replace(_TWO, per_week=1), _THIRD)),
    Scenario("season, 2 a week, a fifth", seasonal(_TWO, _FIFTH)),
    Scenario("season, 5 a week, a fifth", seasonal(_OFTEN, _FIFTH)),
    Scenario("season, 10 a week, a fifth", seasonal(_DAILY, _FIFTH)),
    Scenario("skin of two nurses, no log", _skin_alone(_TWO)),
    Scenario("skin as charted, no log", _skin_alone(_AS_CHARTED)),
    Scenario("skin as charted, and a log", changed_by(_AS_CHARTED, 1)),
    Scenario("small sore as charted, no log", _skin_alone(replace(_AS_CHARTED, sore=_SMALL))),
)
CHANGED = tuple(
    Scenario(
        f"{what}, {life.per_week:g} a week, {life.weeks} weeks before",
        changed_by(life, times),
        times,
    )
    for what, times in (("doubled", 2.0), ("halved", 0.5))
    for life in (Life(1, 12), _TWO, _OFTEN, _DAILY, replace(_OFTEN, weeks=6))
)

"""Which barriers answer for a plan, and how they count."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from planning.course.figures import figures
from planning.course.periods import (
    Period,
    checks_before,
    in_order,
    last_change,
    next_change,
    wear_in,
    wear_of,
    worn_before,
    worn_since,
)
from planning.course.record import Course, SignedVisit, Worn
from planning.course.series import series
from planning.inputs.usable_numbers import UnusableNumber
from tests.planning.course.course_builders import FELL, ITCH, LEAK, PLANNED, course, day, log, visit

PLAN = Period(day(10), day(20))


def held(on: int, off: int | None) -> bool:
    return PLAN.holds(Worn(day(on), None if off is None else day(off), (off and PLANNED) or None))


def test_a_barrier_belongs_where_it_was_put_on_whole() -> None:
    assert not held(9, 12)  # put on before the plan, although it lasted into it
    assert held(10, 12)
    assert held(19, 25)  # lasted beyond the next change
    assert not held(20, 22)
    assert held(15, None)


def test_put_on_and_off_on_the_day_of_a_visit_was_worn_before_it() -> None:
    assert not held(10, 10)
    assert held(20, 20)
    assert held(15, 15)


def test_no_barrier_is_counted_twice_or_lost() -> None:
    worn = [Worn(day(a), day(a + b), LEAK) for a in range(30) for b in (0, 1, 5)]
    parts = (Period(None, day(10)), PLAN, Period(day(20), None))
    assert [sum(part.holds(w) for part in parts) for w in worn] == [1] * len(worn)


# --- before and since a plan --------------------------------------------------------------------
VISITS = (visit(0, None, "ring"), visit(30), visit(60), visit(100, None, "belt"), visit(130))


def whole(worn: object, visits: tuple[SignedVisit, ...] = VISITS, today: int = 200) -> Course:
    return course(*visits, worn=worn, today=today)  # type: ignore[arg-type]


def test_the_plan_applies_until_the_next_one_that_changed_something() -> None:
    assert [next_change(VISITS, i) for i in range(5)] == [3, 3, 3, None, None]
    assert [last_change(VISITS, i) for i in range(5)] == [None, 0, 0, 0, 3]


def test_checks_are_the_visits_since_the_last_change_a_fortnight_before() -> None:
    """Section 13: 2 weeks after a first check [DV]."""
    assert checks_before(VISITS, 3) == VISITS[1:3]
    assert checks_before(VISITS, 4) == ()
    late = (visit(0), visit(1), visit(16), visit(17), visit(30))
    assert checks_before(late, 4) == late[:3]


@pytest.mark.parametrize(("put_on", "begins"), [(2, 2), (1, 5)])
def test_twelve_weeks_of_diary_are_compared_with_at_most(put_on: int, begins: int) -> None:
    """Design value: 84 days to the fortnight before the visit of day 100, so from day 2."""
    worn = (Worn(day(put_on), day(5), LEAK), *log(5, [(5, PLANNED)] * 19))
    assert worn_before(whole(worn, (visit(100, None, "belt"),)), 0).start == day(begins)


def test_what_is_put_on_as_the_fortnight_before_the_visit_begins_is_left_out() -> None:
    """A change every 4 days from day 2: that of day 82 is the last before day 86."""
    found = worn_before(whole(log(2, [(4, LEAK)] * 24), (visit(100, None, "belt"),)), 0)
    assert found.wear is not None
    assert found.wear.days == (4.0,) * 21


@pytest.mark.parametrize("index", [-1, 5])
@pytest.mark.parametrize("asked", [next_change, last_change, checks_before])
def test_a_visit_that_is_none_of_these_is_refused(
    asked: Callable[[tuple[SignedVisit, ...], int], object], index: int
) -> None:
    with pytest.raises(UnusableNumber, match=r"^index: "):
        asked(VISITS, index)


def test_all_since_the_last_change_counts_but_for_the_time_that_made_the_visit() -> None:
    """Not since the last visit: those of day 30 and 60 changed nothing. Days 86 to 100 are left
    out: a barrier of then, and what befell one after day 86."""
    worn = log(0, [(4, LEAK)] * 25)
    found = worn_before(whole(worn), 3)
    assert found.fair
    assert (found.start, found.end) == (day(4), day(86))  # 84 days at most, whole barriers
    assert found.wear is not None
    assert (found.wear.exposure, found.wear.leaks) == (82, 20)


@pytest.mark.parametrize(("begun", "fair"), [(58, True), (59, False)])
def test_four_weeks_before_the_time_that_made_the_visit_are_needed(begun: int, fair: bool) -> None:
    """Section 13: the 4 weeks before it [DV]; without a check."""
    visits = (visit(0, None, "ring"), visit(100, None, "belt"))
    worn = [Worn(day(n), day(n + 1), PLANNED) for n in range(begun, 100)]
    found = worn_before(whole(worn, visits), 1)
    assert found.fair is fair
    assert found.end == (day(86) if fair else day(100))


@pytest.mark.parametrize(("check", "fair"), [(72, True), (73, False)])
def test_or_two_weeks_after_a_check_that_changed_nothing(check: int, fair: bool) -> None:
    """Section 13: or 2 weeks after a first check [DV]."""
    worn = [Worn(day(n), day(n + 1), PLANNED) for n in range(65, 100)]
    visits = (visit(check), visit(100, None, "belt"))
    found = worn_before(whole(worn, visits), 1)
    assert found.fair is fair
    if fair:
        assert (found.start, found.end) == (day(72), day(86))
    changed = (visit(check, None, "ring"), visits[1])
    assert not worn_before(whole(worn, changed), 1).fair


def test_since_ends_with_the_next_change_and_knows_nothing_later_than_the_look() -> None:
    worn = (*log(0, [(5, LEAK)] * 20), *log(100, [(5, PLANNED)] * 10))
    first = worn_since(whole(worn), 0, day(84))
    assert first is not None
    assert (first.leaks, first.exposure) == (16, 84)
    assert worn_since(course(visit(0)), 0, day(84)) is None


def test_the_middles_of_both_times_are_so_far_apart() -> None:
    """By hand: from day 4 to 86, plan on day 100, look on day 128: 41 + 14 + 14."""
    found = worn_before(whole(log(0, [(4, LEAK)] * 25)), 3)
    assert found.gap(day(100), day(128)) == 41 + 14 + 14


def test_of_two_put_on_the_same_day_the_one_still_on_comes_last() -> None:
    still_on, came_off = Worn(day(3)), Worn(day(3), day(3), LEAK)
    assert in_order(course(worn=(still_on, came_off))).worn == (came_off, still_on)


def test_failed_leaked_and_ended_are_three_things() -> None:
    worn = (*log(0, [(3, PLANNED), (2, LEAK), (1, FELL), (4, ITCH)]), Worn(day(10)))
    found = wear_of(worn, day(14))
    assert list(found.days) == [3, 2, 1, 4, 4]
    assert list(found.failed) == [False, True, True, True, False]
    counted = [found.leaks, found.ended, found.failures, found.exposure]
    assert counted == [2, 4, 3, 14]


def test_fourteen_days_are_believed_fifteen_are_a_typing_error() -> None:
    believed = wear_of(log(0, [(14, LEAK)]), day(30))
    slip = wear_of(log(0, [(15, LEAK)]), day(30))
    assert (believed.ended, believed.left_out) == (1, 0)
    assert (slip.ended, slip.leaks, slip.left_out) == (0, 0, 1)


def test_what_came_off_on_an_unknown_day_lasted_as_long_as_it_was_seen() -> None:
    found = wear_of([Worn(day(0), day(3))], day(30))
    assert (found.days, found.failed, found.ended) == ((3.0,), (False,), 0)


def test_nothing_is_known_of_what_comes_after_the_end() -> None:
    worn = (Worn(day(0), day(9), LEAK), Worn(day(9), day(12), LEAK))
    found = wear_of(worn, day(5))
    assert (found.days, found.leaks, found.ended) == ((5.0,), 0, 0)


def test_a_barrier_put_on_today_counts_with_no_day_worn_yet() -> None:
    worn = [Worn(day(5)), Worn(day(6))]
    assert wear_of(worn, day(5)).days == (0.0,)


def test_what_was_not_seen_since_is_not_counted_as_lasting() -> None:
    """Last seen on day 2, asked on day 12: ten unobserved days do not lower the leak rate."""
    worn = (Worn(day(0), day(3), LEAK), Worn(day(3), seen_on=day(5)))
    found = wear_of(worn, day(15))
    assert (found.days, found.failed, found.ended) == ((3.0, 2.0), (True, False), 1)
    assert wear_of(worn, day(4)).days == (3.0, 1.0)


def test_records_that_contradict_one_another_do_not_count_twice() -> None:
    twice = (
        Worn(day(0), day(3), LEAK, disputed=True),
        Worn(day(0), day(4), LEAK, disputed=True),
        Worn(day(4), day(6), PLANNED),
    )
    found = wear_of(twice, day(30))
    assert (found.days, found.leaks, found.disputed) == ((2.0,), 0, 2)
    logged = course(visit(0), worn=twice)
    told = {one.key: one.text for one in figures(logged, series(logged))}
    assert told["leaks"].endswith("; 2 left out, as the log contradicts itself.")


def test_a_closed_stoma_ends_what_was_still_on() -> None:
    closed = course(visit(0), worn=(Worn(day(1)),), closed=day(4), today=60)
    found = wear_in(closed, Period(None, None))
    assert found is not None
    assert found.days == (3.0,)


def test_only_what_was_put_on_in_the_period_counts() -> None:
    found = wear_in(whole(log(8, [(3, LEAK), (4, ITCH), (5, PLANNED), (2, LEAK)])), PLAN)
    assert found is not None
    assert (found.days, found.leaks) == ((4.0, 5.0), 0)


def test_no_log_is_not_an_empty_log() -> None:
    assert wear_in(course(visit(0)), Period(None, None)) is None
    empty = wear_in(course(visit(0), worn=()), Period(None, None))
    assert empty is not None
    assert empty.days == ()

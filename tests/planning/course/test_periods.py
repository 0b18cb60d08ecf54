"""Which barriers answer for a plan, and how they count."""

from __future__ import annotations

from planning.course.figures import figures
from planning.course.periods import Period, in_order, periods_of, wear_in, wear_of
from planning.course.record import Worn
from planning.course.series import series
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


def test_the_plan_applies_until_the_next_one_that_changed_something() -> None:
    visits = (visit(0), visit(14, None, "ring"), visit(28), visit(42, None, "belt"))
    assert periods_of(visits, 0) == (Period(None, day(0)), Period(day(0), day(14)))
    assert periods_of(visits, 1) == (Period(day(0), day(14)), Period(day(14), day(42)))
    assert periods_of(visits, 3) == (Period(day(28), day(42)), Period(day(42), None))


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


def test_no_log_is_not_an_empty_log() -> None:
    assert wear_in(course(visit(0)), Period(None, None)) is None
    empty = wear_in(course(visit(0), worn=()), Period(None, None))
    assert empty is not None
    assert empty.days == ()

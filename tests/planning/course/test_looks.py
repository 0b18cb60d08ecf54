"""When a plan is judged: three looks, whatever is opened and visited in between."""

from __future__ import annotations

from datetime import date
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.course.looks import Looks, looks_of, window_ends
from tests.planning.course.course_builders import day


def looks(visits: tuple[int, ...] = (), until: int | None = None, end: int = 400) -> Looks:
    change = None if until is None else day(until)
    return looks_of(day(0), [day(n) for n in visits], change, day(end))


@pytest.mark.parametrize(
    ("visits", "until", "expected"),
    [
        ((), None, (28, 56, 84)),
        ((7, 14, 21), None, (14, 56, 84)),  # not yet on day 7; on the first from day 14 on
        ((13, 29, 41), None, (28, 56, 84)),
        ((14, 42, 70, 77), None, (14, 42, 70)),
        ((7,), 7, (7,)),  # the next change ends it
        ((14, 30, 50), 50, (14, 50)),
        ((14, 60), 60, (14, 56, 60)),
        ((14, 42, 70, 80), 80, (14, 42, 70)),  # three are used up
        ((90,), 90, (28, 56, 84)),  # another time
    ],
)
def test_the_days(visits: tuple[int, ...], until: int | None, expected: tuple[int, ...]) -> None:
    assert looks(visits, until).days == tuple(day(n) for n in expected)


def test_what_is_due_and_what_comes_next() -> None:
    early, second, last = (looks(end=n) for n in (27, 60, 84))
    assert (early.latest, early.next) == (None, day(28))
    assert (second.latest, second.next) == (day(56), day(84))
    assert (last.latest, last.next) == (day(84), None)


@given(st.sets(st.integers(1, 120), max_size=20), st.none() | st.integers(1, 120))
def test_never_more_than_three_and_never_after_the_window(
    visits: set[int], until: int | None
) -> None:
    found = looks(tuple(sorted(visits | ({until} if until else set()))), until)
    assert len(found.days) <= 3
    assert all(a < b for a, b in pairwise(found.days))
    assert all(date(2025, 3, 3) < one <= window_ends(day(0)) for one in found.days)
    assert until is None or all(one <= day(until) for one in found.days)


@given(st.sets(st.integers(1, 120), max_size=20), st.integers(1, 120))
def test_a_look_that_was_taken_is_never_another_day_later(visits: set[int], today: int) -> None:
    """Visits are made day by day: what is known of today never moves a look that is past."""
    known = looks(tuple(sorted(n for n in visits if n <= today)), end=today)
    later = looks(tuple(sorted(visits)), end=400)
    assert later.days[: known.due] == known.days[: known.due]

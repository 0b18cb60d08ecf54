"""The log-rank test against published results and a second library."""

from __future__ import annotations

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from planning.statistics.survival import LogRank, log_rank
from planning.statistics.too_few import TooFew
from tests.planning.statistics.sets import MAINTAINED, MERCAPTOPURINE, NOT_MAINTAINED, PLACEBO


def test_the_leukaemia_trial() -> None:
    """Freireich 1963, as R's survival package prints it: 16.8, 9 against 19.3, p 4.17e-05."""
    found = log_rank(*MERCAPTOPURINE, *PLACEBO)
    assert isinstance(found, LogRank)
    assert found.chi2 == pytest.approx(16.793, abs=5e-4)
    assert found.p == pytest.approx(4.17e-5, rel=1e-3)
    assert found.observed == 9
    assert found.expected == pytest.approx(19.25, abs=5e-3)


def test_the_second_published_set() -> None:
    """Miller 1981: 3.396, p 0.0653."""
    found = log_rank(*MAINTAINED, *NOT_MAINTAINED)
    assert isinstance(found, LogRank)
    assert found.chi2 == pytest.approx(3.396, abs=5e-4)
    assert found.p == pytest.approx(0.0653, abs=5e-5)


def test_too_few_failures() -> None:
    found = log_rank([1, 2, 3], [True] * 3, [1, 2, 3], [True, False, False])
    assert found == TooFew(4, 5, "failures in both groups")


def test_groups_never_watched_together() -> None:
    """All of the first were out of sight before anything happened in the second."""
    found = log_rank([1, 1], [False] * 2, [5, 6, 7, 8, 9], [True] * 5)
    assert found == TooFew(0, 1, "failures while both groups were watched")


GROUP = st.lists(st.tuples(st.integers(1, 15), st.booleans()), min_size=3, max_size=40)


@given(GROUP, GROUP)
@settings(max_examples=60)
def test_as_a_second_library_has_it(a: list[tuple[int, bool]], b: list[tuple[int, bool]]) -> None:
    """lifelines, on any two groups."""
    from lifelines.statistics import logrank_test

    one, other = tuple(map(list, zip(*a, strict=True))), tuple(map(list, zip(*b, strict=True)))
    found = log_rank(*one, *other)
    assume(isinstance(found, LogRank))
    assert isinstance(found, LogRank)
    theirs = logrank_test(one[0], other[0], one[1], other[1])
    assert found.chi2 == pytest.approx(theirs.test_statistic, abs=1e-9)
    assert found.p == pytest.approx(theirs.p_value, abs=1e-9)

"""Kaplan-Meier against published tables and a second library."""

from __future__ import annotations

import warnings

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning.evidence.thresholds import LEAST_EPISODES
from planning.statistics.survival import Estimate, SurvivalCurve, kaplan_meier, kaplan_meier_counted
from planning.statistics.too_few import TooFew
from tests.planning.statistics.sets import MAINTAINED, MERCAPTOPURINE, PLACEBO

#: Freireich 1963, the 6-mercaptopurine arm: week, at risk, failures, S, and the 95 % interval on
#: the log(-log) scale (Greenwood; also as lifelines and R give it).
TABLE = [
    (6, 21, 3, 0.8571, 0.6197, 0.9516),
    (7, 17, 1, 0.8067, 0.5631, 0.9228),
    (10, 15, 1, 0.7529, 0.5032, 0.8894),
    (13, 12, 1, 0.6902, 0.4316, 0.8491),
    (16, 11, 1, 0.6275, 0.3675, 0.8049),
    (22, 7, 1, 0.5378, 0.2678, 0.7468),
    (23, 6, 1, 0.4482, 0.1881, 0.6801),
]


def curve(days: list[int], failed: list[bool]) -> SurvivalCurve:
    found = kaplan_meier(days, failed)
    assert isinstance(found, SurvivalCurve)
    return found


@pytest.mark.parametrize(("week", "at_risk", "failures", "value", "low", "high"), TABLE)
def test_the_published_table(
    week: int, at_risk: int, failures: int, value: float, low: float, high: float
) -> None:
    """Freireich 1963."""
    found = curve(*MERCAPTOPURINE)
    row = found.times.index(week)
    assert (found.at_risk[row], found.failures[row]) == (at_risk, failures)
    estimate = found.at(week)
    assert estimate is not None
    assert estimate.value == pytest.approx(value, abs=5e-5)
    assert estimate.low == pytest.approx(low, abs=5e-5)
    assert estimate.high == pytest.approx(high, abs=5e-5)


def test_the_published_medians() -> None:
    """Freireich 1963: 23 weeks (13 to not reached) against 8 (4 to 11)."""
    treated, placebo = curve(*MERCAPTOPURINE).median, curve(*PLACEBO).median
    assert (treated.value, treated.low, treated.high) == (23, 13, None)
    assert (placebo.value, placebo.low, placebo.high) == (8, 4, 11)


def test_the_second_published_set() -> None:
    """Miller 1981, the maintained arm."""
    found = curve(*MAINTAINED)
    steps = [s for s, d in zip(found.survival, found.failures, strict=True) if d]
    published = [0.9091, 0.8182, 0.7159, 0.6136, 0.4909, 0.3682, 0.1841]
    assert steps == pytest.approx(published, abs=5e-5)


def test_who_is_still_waiting_is_neither_a_failure_nor_left_out() -> None:
    """The two usual mistakes with the same data give medians of 16 and 10, not 23."""
    days, failed = MERCAPTOPURINE
    ended = [d for d, f in zip(days, failed, strict=True) if f]
    assert curve(days, [True] * 21).median.value == 16
    assert curve(ended, [True] * 9).median.value == 10
    assert curve(days, failed).median.value == 23


def test_last_seen_on_the_day_of_a_failure_still_counts_as_at_risk() -> None:
    """Taken out first, S(6) would be 0.85."""
    estimate = curve(*MERCAPTOPURINE).at(6)
    assert estimate is not None
    assert estimate.value == pytest.approx(18 / 21)


def test_exactly_half_gone_is_the_median() -> None:
    """As lifelines has it; some others take the middle of the step."""
    assert curve(list(range(1, 11)), [True] * 10).median.value == 5


def test_a_median_that_is_not_reached_is_no_number() -> None:
    found = curve([1, 2, 3, 4, 5, 6], [True, False, False, False, False, False])
    assert found.median.value is None
    assert found.median.high is None


def test_between_two_days_the_share_stays() -> None:
    found = curve(*MERCAPTOPURINE)
    assert found.at(8.5) == found.at(7)
    assert found.at(6) != found.at(5.999)


def test_before_the_first_failure_all_last_without_an_interval() -> None:
    found = curve(*MERCAPTOPURINE)
    assert found.at(0) == found.at(5.9) == Estimate(1.0, None, None)


def test_past_the_last_day_watched_nothing_is_known() -> None:
    assert curve(*MERCAPTOPURINE).at(35) is not None
    assert curve(*MERCAPTOPURINE).at(36) is None


def test_when_all_have_failed_none_last_however_long() -> None:
    assert curve(*PLACEBO).at(1000) == Estimate(0.0, None, None)


@pytest.mark.parametrize("few", range(int(LEAST_EPISODES.value)))
def test_too_few_are_said_to_be_too_few(few: int) -> None:
    assert kaplan_meier([1] * few, [True] * few) == TooFew(few, 5, "observations")


def test_just_enough() -> None:
    assert isinstance(kaplan_meier([1, 2, 3, 4, 5], [True] * 5), SurvivalCurve)


def test_too_few_in_words() -> None:
    assert TooFew(2, 5, "observations").words == "too few to say: 2 of at least 5 observations"


@pytest.mark.parametrize(
    ("days", "failed"),
    [([1.0], [True, False]), ([-1.0], [True]), ([float("nan")], [True]), ([float("inf")], [True])],
)
def test_nonsense_is_refused(days: list[float], failed: list[bool]) -> None:
    with pytest.raises(ValueError, match=r"days|differ"):
        kaplan_meier(days, failed)


def test_counted_together_or_one_by_one() -> None:
    days, failed = MERCAPTOPURINE
    pairs = sorted(set(zip(days, failed, strict=True)))
    counts = [list(zip(days, failed, strict=True)).count(p) for p in pairs]
    together = kaplan_meier_counted([d for d, _ in pairs], [f for _, f in pairs], counts)
    assert together == kaplan_meier(days, failed)


TIMES = st.lists(
    st.tuples(st.integers(0, 20).map(lambda n: n / 2), st.booleans()), min_size=5, max_size=60
)


@given(TIMES)
@settings(max_examples=60)
def test_as_a_second_library_has_it(rows: list[tuple[float, bool]]) -> None:
    """lifelines, on any times with any censoring: shares, band and who is at risk."""
    from lifelines import KaplanMeierFitter

    days, failed = [d for d, _ in rows], [f for _, f in rows]
    found = kaplan_meier(days, failed)
    assert isinstance(found, SurvivalCurve)
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        theirs = KaplanMeierFitter().fit(days, failed)
    shares = theirs.survival_function_.iloc[:, 0]
    bands = theirs.confidence_interval_survival_function_
    for i, day in enumerate(found.times):
        assert found.survival[i] == pytest.approx(shares[day], abs=1e-9)
        assert found.at_risk[i] == theirs.event_table["at_risk"][day]
        assert found.failures[i] == theirs.event_table["observed"][day]
        if 1e-9 < found.survival[i] < 1:
            assert found.low[i] == pytest.approx(bands.iloc[:, 0][day], abs=1e-6)
            assert found.high[i] == pytest.approx(bands.iloc[:, 1][day], abs=1e-6)
        else:
            assert (found.low[i], found.high[i]) == (None, None)

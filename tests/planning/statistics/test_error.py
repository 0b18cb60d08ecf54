"""Measuring error against the published peak-flow data."""

from __future__ import annotations

from math import exp, log

import pytest

from planning.evidence.thresholds import (
    OUTPUT_SEM,
    PROTRUSION_SEM,
    SIZE_SEM,
    SKIN_SEM_SHARE,
)
from planning.statistics.error import (
    MeasuredError,
    beyond_error,
    measured_error,
    measured_share,
    sem_of_mean,
    smallest_detectable_change,
    within_subject_sd,
)
from planning.statistics.too_few import TooFew

#: Bland and Altman, Lancet 1986;1:307: peak flow (L/min), larger meter, first and second reading.
PEAK_FLOW: list[tuple[float, float]] = [
    (494, 490), (395, 397), (516, 512), (434, 401), (476, 470), (557, 611), (413, 415), (442, 431),
    (650, 638), (433, 429), (417, 420), (656, 633), (267, 275), (478, 492), (178, 165), (423, 372),
    (427, 421),
]  # fmt: skip


def test_the_published_readings() -> None:
    """Bland and Altman 1986: within-subject SD 15.307, repeatability 42.43."""
    sd = within_subject_sd(PEAK_FLOW)
    assert isinstance(sd, float)
    assert sd == pytest.approx(15.307, abs=5e-4)
    assert smallest_detectable_change(sd) == pytest.approx(42.43, abs=5e-3)


def test_how_sure_an_error_of_seventeen_pairs_is() -> None:
    """The same data; chi-squared with 17 degrees of freedom, tables: 7.564 and 30.191."""
    found = measured_error(PEAK_FLOW)
    assert isinstance(found, MeasuredError)
    low, high = 15.307 * (17 / 30.191) ** 0.5, 15.307 * (17 / 7.564) ** 0.5
    assert found.pairs == 17
    assert found.value == pytest.approx(15.307, abs=5e-4)
    assert (found.low, found.high) == pytest.approx((low, high), abs=2e-3)


def test_an_error_that_grows_with_what_is_measured_is_a_share_of_it() -> None:
    """A tenth more each time: ln 1.1 over the root of 2, at 100 as at 1000."""
    found = measured_share([(100, 110), (1000, 1100), (50, 55)])
    assert isinstance(found, MeasuredError)
    assert found.value == pytest.approx(exp(log(1.1) / 2**0.5) - 1)
    assert found.low < found.value < found.high
    assert measured_share([(1, 2)]) == TooFew(1, 2, "pairs of measurements")
    with pytest.raises(ValueError, match="above 0"):
        measured_share([(0, 1), (1, 1)])


@pytest.mark.parametrize(
    ("one", "two", "changes"),
    [(0.7, 1.0, (1.9, 2.8)), (1.0, 1.5, (2.8, 4.2)), (10, 15, (28, 42))],
)
def test_the_detectable_changes_of_the_facts(
    one: float, two: float, changes: tuple[float, float]
) -> None:
    """danger-restraint-teaching.md, section 12: diameter, height (mm), area (%); one nurse, two."""
    found = [round(smallest_detectable_change(sem), 1 if sem < 5 else 0) for sem in (one, two)]
    assert found == list(changes)


def test_the_planner_assumes_two_nurses() -> None:
    """Section 12: unknown observer = two."""
    assert (SIZE_SEM.value, PROTRUSION_SEM.value, SKIN_SEM_SHARE.value) == (1.0, 1.5, 0.15)
    assert OUTPUT_SEM.value == 0.10


@pytest.mark.parametrize(("sem", "change"), [(0.7, 1.940), (1.0, 2.772), (1.5, 4.158)])
def test_the_factor(sem: float, change: float) -> None:
    """1.96 times the root of two (Bland and Altman, BMJ 1996;313:744)."""
    assert smallest_detectable_change(sem) == pytest.approx(change, abs=5e-4)


def test_other_levels_and_more_readings() -> None:
    assert smallest_detectable_change(1.0, confidence=0.90) == pytest.approx(2.326, abs=5e-4)
    assert smallest_detectable_change(sem_of_mean(1.0, 3)) == pytest.approx(1.600, abs=5e-4)


@pytest.mark.parametrize(
    ("change", "told"), [(1.0, False), (2.77, False), (2.78, True), (-2.78, True), (0.0, False)]
)
def test_one_millimetre_is_no_change(change: float, told: bool) -> None:
    assert beyond_error(change, 1.0) is told


@pytest.mark.parametrize("pairs", [[], [(30.0, 31.0)]])
def test_too_few_pairs(pairs: list[tuple[float, float]]) -> None:
    assert within_subject_sd(pairs) == TooFew(len(pairs), 2, "pairs of measurements")


def test_nonsense_is_refused() -> None:
    with pytest.raises(ValueError, match="sem: a number from 0"):
        smallest_detectable_change(-1)
    with pytest.raises(ValueError, match="readings: a number from 1"):
        sem_of_mean(1, 0)

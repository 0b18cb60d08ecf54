"""Measuring error against the published peak-flow data."""

from __future__ import annotations

import pytest

from planning.statistics.error import (
    beyond_error,
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
    with pytest.raises(ValueError, match="negative"):
        smallest_detectable_change(-1)
    with pytest.raises(ValueError, match="reading"):
        sem_of_mean(1, 0)

"""Circular statistics against published examples and SciPy."""

import math

import numpy as np
import pytest
from scipy import stats

from planning.inputs.clock import ClockHours
from planning.statistics.circular import direction
from tests.planning.builders import LOW

#: Zar, example 26.5: counts in 30 degree sectors centred on 15, 45, ... 345 degrees.
ZAR_COUNTS = (0, 6, 9, 13, 15, 22, 17, 12, 8, 3, 0, 0)


def test_zar_example_26_5() -> None:
    """Book: r 0.55064, mean 162 degrees; corrected length 0.55698."""
    found = direction(dict(zip(range(1, 13), ZAR_COUNTS, strict=True)))
    assert found.length == pytest.approx(0.55064, abs=5e-6)
    assert found.corrected == pytest.approx(0.55698, abs=5e-6)
    # Our sectors are centred on the hours, 15 degrees further round than the book's.
    assert found.mean_degrees == pytest.approx(161.57 + 15, abs=0.005)


def test_counts_from_twelve_to_eleven() -> None:
    """Worked out apart from our code: 144.575 degrees, r 0.79326, corrected 0.80240."""
    counts = (0, 0, 1, 2, 5, 6, 4, 2, 0, 0, 0, 0)
    found = direction({hour or 12: n for hour, n in enumerate(counts)})
    assert found.mean_degrees == pytest.approx(144.575, abs=0.001)
    assert found.length == pytest.approx(0.79326, abs=5e-6)
    assert found.corrected == pytest.approx(0.80240, abs=5e-6)


def test_three_four_three_round_twelve() -> None:
    """(4 + 6 cos 30°) / 10: r 0.91962 towards 12 o'clock."""
    found = direction({11: 3, 12: 4, 1: 3})
    assert math.cos(math.radians(found.mean_degrees or 0)) == pytest.approx(1.0)
    assert found.length == pytest.approx(0.91962, abs=5e-6)


def test_an_opposed_pair_has_an_axis_but_no_direction() -> None:
    assert direction({12: 5, 6: 5}).mean_degrees is None
    assert direction({12: 5, 6: 5}, fold=2).length == pytest.approx(1.0)


@pytest.mark.parametrize(
    "hours", [LOW, ClockHours.of(1), ClockHours.arc(9, 2), ClockHours.of(2, 3, 8)]
)
def test_against_scipy(hours: ClockHours) -> None:
    angles = np.radians([30 * h for h in hours])
    found = direction(dict.fromkeys(hours, 1.0))
    expected = math.degrees(float(stats.circmean(angles)))
    difference = ((found.mean_degrees or 0) - expected + 180) % 360 - 180
    assert difference == pytest.approx(0.0, abs=1e-6)
    vectors = np.column_stack([np.cos(angles), np.sin(angles)])
    assert found.length == pytest.approx(
        float(stats.directional_stats(vectors).mean_resultant_length)
    )


def test_the_clock_face_agrees_with_the_counts() -> None:
    found = direction(dict.fromkeys(LOW, 1.0))
    assert LOW.concentration == pytest.approx(found.corrected)
    assert LOW.mean_hour == pytest.approx((found.mean_degrees or 0) / 30)

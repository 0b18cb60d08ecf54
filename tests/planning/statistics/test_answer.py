"""The three answers, on two published trials (danger-restraint-teaching.md, section 13)."""

from __future__ import annotations

from math import sqrt
from statistics import NormalDist

import pytest
from scipy.stats import fisher_exact

from planning.statistics.answer import Answer, answer

TEN_POINTS = (-10.0, 10.0)


def points(k: int, n: int, other: int, m: int, confidence: float) -> tuple[float, float]:
    """Limits of the difference of two shares, in points of per cent (Wald)."""
    p, q = k / n, other / m
    z = NormalDist().inv_cdf((1 + confidence) / 2)
    reach = z * sqrt(p * (1 - p) / n + q * (1 - q) / m)
    return 100 * (p - q - reach), 100 * (p - q + reach)


def test_a_trial_called_equally_effective_has_not_shown_it() -> None:
    """T71 (Lancet 1993), criticised in T72 (BMJ 1995): 44/49 v 41/49, 6.1 points, 95 % -7.3 to
    19.5, 90 % -5.1 to 17.3, Fisher p 0.553; with a margin of 10 points: not shown yet [C]."""
    wide, narrow = (points(44, 49, 41, 49, c) for c in (0.95, 0.90))
    assert wide == pytest.approx((-7.3, 19.5), abs=0.05)
    assert narrow == pytest.approx((-5.1, 17.3), abs=0.05)
    assert fisher_exact([[44, 5], [41, 8]]).pvalue == pytest.approx(0.553, abs=5e-4)
    assert answer(wide, narrow, TEN_POINTS, 0.0) is Answer.OPEN
    assert answer(wide, narrow, (-20.0, 20.0), 0.0) is Answer.ALIKE


def test_a_trial_that_showed_a_difference() -> None:
    """T73 (NEJM 1995), 85/98 v 72/101: computed 15.4 points (4.4 to 26.5): better [C]."""
    wide = points(85, 98, 72, 101, 0.95)
    assert wide == pytest.approx((4.4, 26.5), abs=0.05)
    assert sum(wide) / 2 == pytest.approx(15.4, abs=0.05)
    assert answer(wide, points(85, 98, 72, 101, 0.90), TEN_POINTS, 0.0) is Answer.HIGHER


@pytest.mark.parametrize(
    ("interval", "narrow", "told"),
    [
        ((0.1, 9.0), (1.0, 8.0), Answer.HIGHER),
        ((-9.0, -0.1), (-8.0, -1.0), Answer.LOWER),
        ((0.0, 9.0), (1.0, 9.0), Answer.ALIKE),
        ((-1.0, 11.0), (0.0, 10.0), Answer.OPEN),
        ((-11.0, 1.0), (-10.0, 0.0), Answer.OPEN),
    ],
)
def test_a_limit_that_is_only_reached_shows_nothing(
    interval: tuple[float, float], narrow: tuple[float, float], told: Answer
) -> None:
    assert answer(interval, narrow, TEN_POINTS, 0.0) is told

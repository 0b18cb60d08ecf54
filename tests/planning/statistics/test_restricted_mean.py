"""Mean days until failing, up to a day, against lifelines and what holds without censoring."""

from __future__ import annotations

import numpy as np
import pytest
from lifelines import KaplanMeierFitter
from lifelines.utils import restricted_mean_survival_time

from planning.statistics.restricted_mean import MeanDifference, compare_means, restricted_mean
from planning.statistics.survival import SurvivalCurve, kaplan_meier
from planning.statistics.too_few import TooFew
from tests.planning.statistics.sets import MAINTAINED, MERCAPTOPURINE, NOT_MAINTAINED, PLACEBO

Data = tuple[list[int], list[bool]]


def curve(data: Data) -> SurvivalCurve:
    found = kaplan_meier(*data)
    assert isinstance(found, SurvivalCurve)
    return found


@pytest.mark.parametrize("data", [MERCAPTOPURINE, PLACEBO, MAINTAINED, NOT_MAINTAINED])
@pytest.mark.parametrize("until", [5.0, 10.5, 23.0])
def test_the_area_under_the_curve_is_lifelines(data: Data, until: float) -> None:
    theirs = restricted_mean_survival_time(KaplanMeierFitter().fit(*data), t=until)
    assert restricted_mean(curve(data), until).days == pytest.approx(float(theirs), abs=1e-6)


@pytest.mark.parametrize("until", [4.0, 11.5, 23.0])
def test_without_censoring_it_is_the_mean_and_its_own_variance(until: float) -> None:
    """Placebo group, Freireich 1963: all failed."""
    cut = np.minimum(PLACEBO[0], until)
    found = restricted_mean(curve(PLACEBO), until)
    assert found.days == pytest.approx(cut.mean())
    assert found.variance == pytest.approx(cut.var() / len(cut))


def test_two_groups() -> None:
    """8.667 and 23.287 weeks up to week 35: all of the placebo group had failed by then."""
    found = compare_means(*PLACEBO, *MERCAPTOPURINE)
    assert isinstance(found, MeanDifference)
    assert (found.before, found.after, found.until) == pytest.approx((8.667, 23.287, 35), abs=1e-3)
    low, high = found.limits(0.95)
    assert (low + high) / 2 == pytest.approx(found.days)
    assert found.p == pytest.approx(3.4e-6, rel=0.05)
    turned = compare_means(*MERCAPTOPURINE, *PLACEBO)
    assert isinstance(turned, MeanDifference)
    assert (turned.days, turned.error) == pytest.approx((-found.days, found.error))


def test_the_time_of_both_is_as_long_as_both_were_watched() -> None:
    """Planned changes on day 3 say nothing of the days after it."""
    short, long = ([3.0] * 6, [False] * 6), ([2.0, *[7.0] * 6], [True, *[False] * 6])
    found = compare_means(*short, *long)
    assert isinstance(found, MeanDifference)
    assert (found.until, found.before) == (3, 3)
    assert found.after == pytest.approx(2 + 6 / 7)


def test_where_nothing_failed_nothing_differs() -> None:
    found = compare_means([3.0] * 6, [False] * 6, [5.0] * 6, [False] * 6)
    assert isinstance(found, MeanDifference)
    assert (found.days, found.p) == (0, 1)


def test_too_few() -> None:
    assert isinstance(compare_means([3.0], [True], *PLACEBO), TooFew)
    assert isinstance(compare_means(*PLACEBO, [3.0], [True]), TooFew)

"""The level of three looks, and several measures together, against what they promise."""

from __future__ import annotations

from itertools import pairwise
from math import sqrt

import numpy as np
import pytest
from scipy.stats import multivariate_normal, norm

from planning.evidence.thresholds import LOOK_LEVEL, LOOKS
from planning.statistics.several import any_difference


def beyond(level: float, looks: int) -> float:
    """Chance that one of ``looks``, equally far apart, is beyond ``level``, nothing being there."""
    z = norm.isf(level / 2)
    sizes = np.arange(1, looks + 1)
    together = np.sqrt(np.minimum.outer(sizes, sizes) / np.maximum.outer(sizes, sizes))
    inside = multivariate_normal(cov=together, seed=1)
    return 1 - float(inside.cdf([z] * looks, lower_limit=[-z] * looks))


@pytest.mark.parametrize(
    ("looks", "wrong"), [(1, 0.050), (2, 0.083), (3, 0.107), (5, 0.142), (10, 0.193)]
)
def test_looking_again_finds_more(looks: int, wrong: float) -> None:
    """danger-restraint-teaching.md, section 13 [C], as in Pocock 1977 [M]."""
    assert beyond(0.05, looks) == pytest.approx(wrong, abs=1e-3)


@pytest.mark.parametrize(("looks", "level"), [(2, 0.0294), (3, 0.0221), (5, 0.0158)])
def test_the_constant_level_leaves_a_twentieth_in_all(looks: int, level: float) -> None:
    """Section 13 [C]: 0.0294, 0.0221, 0.0158 for 2, 3, 5 looks."""
    assert beyond(level, looks) == pytest.approx(0.05, abs=5e-4)


def test_the_planner_takes_the_level_of_its_looks() -> None:
    """z 2.289, a 97.8 % interval."""
    assert LOOKS.value == 3
    assert norm.isf(LOOK_LEVEL.value / 2) == pytest.approx(2.289, abs=5e-4)
    assert beyond(LOOK_LEVEL.value, int(LOOKS.value)) == pytest.approx(0.05, abs=5e-4)


@pytest.mark.parametrize(
    ("chances", "told"),
    [
        ([0.01, 1.0, 1.0], True),  # 0.03 over 3
        ([0.011, 1.0, 1.0], False),
        ([0.02, 0.02, 1.0], True),  # two: 0.03 times 2/3
        ([0.02, 0.021, 1.0], False),
        ([0.03, 0.03, 0.03], True),
        ([0.03, 0.03, 0.031], False),
        ([0.03], True),
        ([], False),
    ],
)
def test_several_by_hand(chances: list[float], told: bool) -> None:
    """Simes 1986, at 0.03."""
    assert any_difference(chances, 0.03) is told


@pytest.mark.parametrize("alike", [0.0, 0.5, 0.95])
def test_several_keep_the_level_whether_or_not_they_go_together(alike: float) -> None:
    """20,000 draws of three, nothing being there; a share of 0.05 is exact where they have nothing
    in common."""
    dice = np.random.default_rng(4)
    shared, own = dice.normal(size=(20_000, 1)), dice.normal(size=(20_000, 3))
    chances = 2 * norm.sf(abs(sqrt(alike) * shared + sqrt(1 - alike) * own))
    found = np.mean([any_difference(row, 0.05) for row in chances.tolist()])
    assert found < 0.05 + 3 * sqrt(0.05 * 0.95 / 20_000)
    if not alike:
        assert found > 0.05 - 3 * sqrt(0.05 * 0.95 / 20_000)


def test_more_chance_never_makes_a_difference() -> None:
    told = [any_difference([p, 0.02, 0.4], 0.03) for p in (0.001, 0.01, 0.02, 0.3)]
    assert all(first or not then for first, then in pairwise(told))

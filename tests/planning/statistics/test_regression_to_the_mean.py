"""What is far off comes nearer by itself: why the spell that made the visit is no baseline.

Figures: danger-restraint-teaching.md, section 13 [C], after BMJ 1994 (T74).
"""

from __future__ import annotations

from itertools import chain

import numpy as np
import pytest
from scipy.stats import gamma, poisson

from planning.course.periods import worn_before
from planning.inputs.findings import RemovalReason
from tests.planning.course.course_builders import course, log, visit

#: Galton, Regression towards mediocrity in hereditary stature, J Anthropol Inst 1886, table I (open
#: data: HistData's Galton), inches: mid-parents' height, then how many adult children of each.
CHILDREN = (61.7, 62.2, 63.2, 64.2, 65.2, 66.2, 67.2, 68.2, 69.2, 70.2, 71.2, 72.2, 73.2, 73.7)
TABLE = {
    73.0: (0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 3, 0),
    72.5: (0, 0, 0, 0, 0, 0, 0, 1, 2, 1, 2, 7, 2, 4),
    71.5: (0, 0, 0, 0, 1, 3, 4, 3, 5, 10, 4, 9, 2, 2),
    70.5: (1, 0, 1, 0, 1, 1, 3, 12, 18, 14, 7, 4, 3, 3),
    69.5: (0, 0, 1, 16, 4, 17, 27, 20, 33, 25, 20, 11, 4, 5),
    68.5: (1, 0, 7, 11, 16, 25, 31, 34, 48, 21, 18, 4, 3, 0),
    67.5: (0, 3, 5, 14, 15, 36, 38, 28, 38, 19, 11, 4, 0, 0),
    66.5: (0, 3, 3, 5, 2, 17, 17, 14, 13, 4, 0, 0, 0, 0),
    65.5: (1, 0, 9, 5, 7, 11, 11, 7, 7, 5, 2, 1, 0, 0),
    64.5: (1, 1, 4, 4, 1, 5, 5, 0, 2, 0, 0, 0, 0, 0),
    64.0: (1, 0, 2, 4, 1, 2, 2, 1, 1, 0, 0, 0, 0, 0),
}
PAIRS = np.array(
    list(
        chain.from_iterable(
            [(parent, child)] * many
            for parent, row in TABLE.items()
            for child, many in zip(CHILDREN, row, strict=True)
        )
    )
)


def test_galtons_pairs() -> None:
    """928 pairs: r 0.4588, slope 0.6463, means 68.308 and 68.088."""
    parents, children = PAIRS.T
    assert len(PAIRS) == 928
    assert np.corrcoef(parents, children)[0, 1] == pytest.approx(0.4588, abs=5e-5)
    assert np.polyfit(parents, children, 1)[0] == pytest.approx(0.6463, abs=5e-5)
    assert PAIRS.mean(axis=0) == pytest.approx((68.308, 68.088), abs=5e-4)


@pytest.mark.parametrize(
    ("chosen", "many", "means"),
    [
        (PAIRS[:, 0] >= 70.5, 134, (71.179, 70.178)),
        (PAIRS[:, 0] <= 66.5, 181, (65.688, 66.584)),
    ],
    ids=["tall", "short"],
)
def test_what_was_chosen_for_being_extreme_is_less_so_the_next_time(
    chosen: np.ndarray, many: int, means: tuple[float, float]
) -> None:
    assert chosen.sum() == many
    first, then = PAIRS[chosen].mean(axis=0)
    assert (first, then) == pytest.approx(means, abs=5e-4)
    usual = PAIRS.mean(axis=0)
    assert abs(then - usual[1]) < abs(first - usual[0])


def test_a_week_of_four_leaks_is_followed_by_two_with_nothing_done() -> None:
    """Usual 1 a week, gamma shape 2: (2 + 4) / (2 + 1) = 2.0; here by adding up over all rates."""
    rates = np.linspace(1e-4, 30, 200_000)
    weights = gamma.pdf(rates, a=2, scale=0.5) * poisson.pmf(4, rates)
    assert (rates * weights).sum() / weights.sum() == pytest.approx(2.0, abs=1e-3)


def test_the_week_that_made_the_visit_is_not_what_a_plan_is_held_against() -> None:
    """The planner's answer to it: four weeks before the visit-making spell, whatever that held."""
    quiet = [(4, RemovalReason.PLANNED)] * 9
    spell = [(2, RemovalReason.LEAK)] * 6
    before = worn_before(course(visit(48), worn=log(0, [*quiet, *spell]), today=90), 0)
    assert before.fair
    assert before.wear is not None
    assert before.wear.leaks == 0
    short = worn_before(course(visit(48), worn=log(36, spell), today=90), 0)
    assert not short.fair

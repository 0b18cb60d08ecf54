"""The simulation of ``tests.benchmarks.verdicts``, small: seconds, and the same dice each time.

The whole of it, 2,000 courses of each kind, is run by hand.
"""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from planning.course.results import Verdict
from planning.inputs.findings import RemovalReason
from tests.benchmarks.verdicts.counting import IN_ALL, Tally, tally
from tests.benchmarks.verdicts.people import Rate, diary
from tests.benchmarks.verdicts.scenarios import CHANGED, UNCHANGED

RUNS = 12
#: Of every kind of truth one: nothing changed, a bad run before, a season, charting.
NOTHING = (
    "unchanged, 5 a week",
    "unchanged, no visit after",
    "bad fortnight, 3 times 2 a week",
    "bad fortnight, diary of 3 weeks",
    "bad fortnight by chance, 1 a week",
    "season, 5 a week, a fifth",
    "skin as charted, no log",
)
DOUBLED = "doubled, 10 a week, 12 weeks before"
HALVED = "halved, 10 a week, 12 weeks before"
BY_NAME = {scenario.name: scenario for scenario in (*UNCHANGED, *CHANGED)}


@cache
def counted(name: str) -> Tally:
    return tally(BY_NAME[name], RUNS)


def test_where_nothing_changed_few_are_called_helped_or_worse() -> None:
    """A twentieth of 84 courses are four; by the rules up to 2026.13 it were 62."""
    assert sum(counted(name).false[IN_ALL] for name in NOTHING) <= 4


@pytest.mark.parametrize("name", [DOUBLED, HALVED])
def test_what_doubled_or_halved_is_never_called_no_different(name: str) -> None:
    found = counted(name)
    assert found.ever[IN_ALL, Verdict.NO_DIFFERENT] == 0
    assert found.false[IN_ALL] == 0


@pytest.mark.parametrize("name", [DOUBLED, HALVED])
def test_a_long_diary_with_many_leaks_shows_it(name: str) -> None:
    found = counted(name)
    assert found.by_week[12] >= RUNS / 4
    assert found.by_week[12] >= found.by_week[2]


def constant(rate: float) -> Rate:
    return lambda _: rate


def test_a_bad_week_is_followed_by_a_better_one_with_nothing_done() -> None:
    """danger-restraint-teaching.md, section 13: usual 1 a week, gamma shape 2; a week of 4 is
    followed by (2 + 4) / (2 + 1) = 2.0 [C]. By our diaries, a standard error of 0.1."""
    dice = np.random.default_rng(7)
    following = []
    for usual in dice.gamma(2, 0.5, size=4_000):
        worn = diary(dice, constant(float(usual) / 7), 0.0, 14.0, planned=1.0)
        weeks = [0, 0]
        for one in worn:
            if one.reason is RemovalReason.LEAK and one.off is not None:
                at = (one.off - worn[0].on).days
                if at < 14:
                    weeks[at // 7] += 1
        if weeks[0] == 4:
            following.append(weeks[1])
    assert len(following) > 100
    assert np.mean(following) == pytest.approx(2.0, abs=0.35)

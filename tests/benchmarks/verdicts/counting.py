"""How often each verdict is given over a whole course of looks."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field

import numpy as np

from planning.course.results import Judged, Verdict
from tests.benchmarks.verdicts.scenarios import Scenario, weekly

CLEAR = (Verdict.HELPED, Verdict.WORSE)
IN_ALL = "in all"


@dataclass
class Tally:
    """Of ``runs`` courses: ``ever`` given this verdict at any look, of all and of each measure;
    ``by_week``: right and shown in that week."""

    runs: int = 0
    ever: Counter[tuple[str, Verdict]] = field(default_factory=Counter)
    false: Counter[str] = field(default_factory=Counter)
    by_week: Counter[int] = field(default_factory=Counter)

    def share(self, many: int) -> float:
        return many / self.runs

    @property
    def false_share(self) -> float:
        """Called helped or worse, in all, at any look."""
        return self.share(self.false[IN_ALL])

    @property
    def alike_share(self) -> float:
        """Called no different, in all, at any look."""
        return self.share(self.ever[IN_ALL, Verdict.NO_DIFFERENT])


def tally(scenario: Scenario, runs: int, *, seed: int = 1, step: int = 1, start: int = 0) -> Tally:
    """Every ``step``-th of ``runs`` courses from ``start``; each has dice of its own."""
    out = Tally()
    right = Verdict.HELPED if scenario.true_times < 1 else Verdict.WORSE
    for number in range(start, runs, step):
        dice = np.random.default_rng([seed, number])
        course, index = scenario.make(dice)
        said: set[tuple[str, Verdict]] = set()
        for week, outcome in enumerate(weekly(course, index), 1):
            said.add((IN_ALL, outcome.verdict))
            said |= {(str(found.of), found.verdict) for found in outcome.findings}
            if scenario.true_times != 1:
                out.by_week[week] += outcome.verdict is right
        out.runs += 1
        out.ever.update(said)
        wrong = set(CLEAR) - ({right} if scenario.true_times != 1 else set())
        out.false.update({of for of, verdict in said if verdict in wrong})
    return out


MEASURES = (IN_ALL, *map(str, Judged))

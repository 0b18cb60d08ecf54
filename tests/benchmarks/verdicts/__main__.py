"""How often a verdict is wrong, and how often it is right, where the truth is known.

    python -m tests.benchmarks.verdicts [--runs 2000] [--only unchanged] [--processes 1]

Of ``--runs`` invented courses of each kind, each looked at every week for 14 weeks: the share ever
called helped or worse though nothing changed (at most 5 %), and the share ever called no different
though leaks doubled or halved (at most 5 %); then how many are rightly shown after 4, 8 and 12
weeks. Exit code 1 where a limit is broken by more than the error of so many runs.
"""

from __future__ import annotations

import argparse
import sys
from multiprocessing import Pool

from planning.course.results import Verdict
from tests.benchmarks.verdicts.counting import MEASURES, Tally, tally
from tests.benchmarks.verdicts.scenarios import CHANGED, UNCHANGED, Scenario

LIMIT = 0.05
_BY_NAME = {scenario.name: scenario for scenario in (*UNCHANGED, *CHANGED)}


def beyond(share: float, runs: int) -> bool:
    """Above the limit by more than three standard errors of a share of so many runs."""
    return share > LIMIT + 3 * (LIMIT * (1 - LIMIT) / runs) ** 0.5


def run(asked: tuple[str, int]) -> tuple[str, Tally]:
    """One scenario in a process of its own."""
    name, runs = asked
    return name, tally(_BY_NAME[name], runs)


def _line(scenario: Scenario, found: Tally) -> str:
    each = "  ".join(f"{of} {100 * found.share(found.false[of]):4.1f}" for of in MEASURES)
    same = "  ".join(
        f"{of} {100 * found.share(found.ever[of, Verdict.NO_DIFFERENT]):4.1f}" for of in MEASURES
    )
    text = f"{scenario.name:45} wrong: {each} | no different: {same}"
    if scenario.true_times == 1:
        return text
    shown = "  ".join(
        f"{week}: {100 * found.share(found.by_week[week]):.0f}" for week in (4, 8, 12)
    )
    return f"{text} | shown after weeks {shown}"


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--runs", type=int, default=2000)
    parser.add_argument("--only", default="")
    parser.add_argument("--processes", type=int, default=1)
    asked = parser.parse_args()
    names = [name for name in _BY_NAME if asked.only in name]
    broken = 0
    with Pool(asked.processes) as pool:
        for name, found in pool.imap(run, [(name, asked.runs) for name in names]):
            scenario = _BY_NAME[name]
            bad = beyond(found.false_share, found.runs)
            if scenario.true_times != 1:
                bad = bad or beyond(found.alike_share, found.runs)
            broken += bad
            print(("BROKEN " if bad else "       ") + _line(scenario, found), flush=True)
    print(f"{asked.runs} courses each, per cent; {broken} limits broken.")
    return 1 if broken else 0


if __name__ == "__main__":
    sys.exit(main())

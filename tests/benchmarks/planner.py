"""One plan, and its choice step made three ways, side by side in one run.

    python -m tests.benchmarks.planner [--rounds 50] [--against CHECKOUT]

Times are medians of processor time, taken in turns so that a busy machine slows all alike; the
ratios are what counts.
Allocations are peaks of ``tracemalloc``. Exit code 1 where the three do not choose alike.
``--against``: the root of an older checkout; its plan is timed in turns with this one's, each in a
process of its own (``git worktree add CHECKOUT COMMIT`` makes one).
"""

from __future__ import annotations

import argparse
import sys
import time
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from statistics import median

from planning import recommend
from tests.benchmarks.assessment import FULL, HISTORY
from tests.benchmarks.brute_force import by_brute_force, combinations
from tests.benchmarks.choice import by_search, choice_of
from tests.benchmarks.engine import Engine
from tests.benchmarks.two_versions import Compared, compare

#: The brute force takes seconds: so many rounds of it are enough.
_SLOW_ROUNDS = 3


def main() -> int:
    """Measures and prints."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--rounds", type=int, default=50)
    parser.add_argument("--against", type=Path, metavar="CHECKOUT")
    options = parser.parse_args()
    rounds = options.rounds
    if options.against is not None:
        _report_older(compare(options.against, rounds))
    choice, engine = choice_of(FULL, HISTORY), Engine()
    quick: dict[str, Callable[[], object]] = {
        "plan": lambda: recommend(FULL, HISTORY),
        "search": lambda: by_search(choice),
        "engine": lambda: engine.choose(choice),
    }
    slow: dict[str, Callable[[], object]] = {"brute": lambda: by_brute_force(choice)}
    found = {name: run() for name, run in (quick | slow).items() if name != "plan"}
    times = _medians({"alone": quick["plan"]}, rounds)
    times |= _medians(quick, rounds) | _medians(slow, _SLOW_ROUNDS)
    peaks = {name: _peak(run) for name, run in quick.items()}
    _report(times, peaks, combinations(choice))
    if len(set(found.values())) > 1:
        print(f"They do not choose alike: {found}")
        return 1
    print(f"All three choose alike: {found['search']}.")
    return 0


def _medians(runs: dict[str, Callable[[], object]], rounds: int) -> dict[str, float]:
    """Median processor seconds of each, one after the other in every round."""
    taken: dict[str, list[float]] = {name: [] for name in runs}
    for _ in range(rounds):
        for name, run in runs.items():
            began = time.thread_time()
            run()
            taken[name].append(time.thread_time() - began)
    return {name: median(all_) for name, all_ in taken.items()}


def _peak(run: Callable[[], object]) -> int:
    """Bytes held at most by Python during one run (what the engine holds in C is not seen)."""
    tracemalloc.start()
    run()
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak


def _report(times: dict[str, float], peaks: dict[str, int], tried: int) -> None:
    print(
        f"Plan of a full assessment: {times['alone'] * 1e3:.2f} ms one after the other, "
        f"{times['plan'] * 1e3:.2f} ms in turns with the engine (medians)."
    )
    names = {
        "search": "the planner's search",
        "engine": "rules of CLIPS (options ready made, rules compiled)",
        "brute": f"brute force over {tried:,} combinations",
    }
    for name, words in names.items():
        ratio = times[name] / times["search"]
        print(f"Choice by {words}: {times[name] * 1e3:,.2f} ms, {ratio:,.1f} x the search.")
    print(f"Whole plan against the engine's choice alone: {times['engine'] / times['plan']:.1f} x.")
    for name, peak in peaks.items():
        print(f"Allocated at most by {name}: {peak / 1024:,.0f} KiB.")


def _report_older(found: Compared) -> None:
    print(
        f"Plan by rules {found.rule_set}: {found.here * 1e3:.2f} ms; by the older checkout's "
        f"{found.older_rule_set}: {found.older * 1e3:.2f} ms; {found.ratio:.2f} x (medians)."
    )


if __name__ == "__main__":
    sys.exit(main())

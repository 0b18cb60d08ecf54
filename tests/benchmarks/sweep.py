"""Every invariant of a plan over a great many states of the discretised space of findings.

    python -m tests.benchmarks.sweep --states 1000000 [--processes 2] [--from 0 --to 250000]

``--from`` and ``--to`` go through a part of those states, so that several runs make up the whole.
Prints states a second and every broken invariant with the number of its state, from which
``tests.planning.sweep.state`` makes the findings again. Exit code 1 where one broke.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections import Counter
from collections.abc import Iterator
from multiprocessing import Pool
from typing import NamedTuple

from tests.planning.invariants import INVARIANTS, make
from tests.planning.sweep import AXES, SIZE, numbers, state

#: Broken invariants that one process names before it only counts them.
_NAMED = 20


class Share(NamedTuple):
    """What one process goes through: every ``step``-th of the states from ``start`` up to, not
    including, ``stop``."""

    stop: int
    start: int
    step: int


class Found(NamedTuple):
    """States tried, plans by urgency, and (number of the state, what broke)."""

    tried: int
    urgencies: Counter[str]
    broken: list[tuple[int, str]]
    failures: int


def go_through(share: Share) -> Found:
    """All invariants over one share."""
    tried, failures = 0, 0
    urgencies: Counter[str] = Counter()
    broken: list[tuple[int, str]] = []
    for number in numbers(*share):
        tried += 1
        for what in _breaks(number, urgencies):
            failures += 1
            if len(broken) < _NAMED:
                broken.append((number, what))
    return Found(tried, urgencies, broken, failures)


def _breaks(number: int, urgencies: Counter[str]) -> Iterator[str]:
    """Names of the invariants that one state breaks; an error in the planner counts as one."""
    try:
        made = make(*state(number))
    except Exception as error:
        yield f"no plan: {error!r}"
        return
    urgencies["left alone" if made.plan.leave_alone else made.plan.urgency.value] += 1
    for holds in INVARIANTS:
        try:
            holds(made)
        except AssertionError:
            yield holds.__name__


def main() -> int:
    """Shares the states out, and reports."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--states", type=int, default=1_000_000)
    parser.add_argument("--processes", type=int, default=2)
    parser.add_argument("--from", type=int, default=0, dest="first", metavar="N")
    parser.add_argument("--to", type=int, metavar="N")
    options = parser.parse_args()
    stop = options.states if options.to is None else min(options.states, options.to)
    shares = [Share(stop, options.first + i, options.processes) for i in range(options.processes)]
    began = time.perf_counter()
    with Pool(options.processes) as pool:
        results = pool.map(go_through, shares, chunksize=1)
    return _report(results, time.perf_counter() - began, options.processes)


def _report(results: list[Found], seconds: float, processes: int) -> int:
    tried = sum(found.tried for found in results)
    failures = sum(found.failures for found in results)
    urgencies = sum((found.urgencies for found in results), Counter[str]())
    axes = " x ".join(str(len(values)) for values in AXES.values())
    print(f"Space: {SIZE:,} states ({axes}); tried {tried:,}, {len(INVARIANTS)} invariants each.")
    print(f"{seconds:,.0f} s on {processes} processes: {tried / seconds:,.0f} states a second.")
    print("Plans: " + ", ".join(f"{name} {n:,}" for name, n in urgencies.most_common()) + ".")
    for number, what in [broken for found in results for broken in found.broken]:
        print(f"State {number}: {what}")
    print(f"{failures:,} broken." if failures else "No invariant broke.")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())

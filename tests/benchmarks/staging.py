"""What is changed today by brute force, over states of the space and generated findings.

    python -m tests.benchmarks.staging [--states 20000] [--generated 5000] [--seed 1]

Prints every state where the planner differs from the order as it is stated in
``tests.planning.restraint.stated_order``. Exit code 1 where it does.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterator

from hypothesis import HealthCheck, Phase, given, seed, settings

from planning import Findings, History
from planning.inputs.age import AgeGroup
from planning.needs import needs_of
from planning.pipeline import ranked_facts_of
from planning.ranked_facts import RankedFacts
from planning.restraint.staging import staged
from planning.supplies.admissible import barred
from planning.supplies.worn import worn_now
from tests.planning.restraint.stated_order import Stand, stand
from tests.planning.strategies import findings, plain_histories
from tests.planning.sweep import numbers, state


def planned(now: RankedFacts) -> Stand:
    """What the planner comes to, in the words of the statement."""
    worn = worn_now(now.facts)
    plan = staged(now, needs_of(now), worn, barred(now, worn))
    return Stand(
        frozenset(plan.best.keys),
        plan.corrections,
        plan.today,
        None if plan.rung is None else plan.rung.key,
        plan.waits,
        tuple(rung.key for rung in plan.later),
    )


def differs(found: Findings, history: History) -> str:
    """Both, where they are not the same; empty where they are, or for a child."""
    now = ranked_facts_of(found, history)
    if now.facts.age_group is not AgeGroup.ADULT:
        return ""
    mine, its = planned(now), stand(now)
    return "" if mine == its else f"planned {mine}, stated {its}"


def main() -> int:
    """Goes through both and prints."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--states", type=int, default=20_000)
    parser.add_argument("--generated", type=int, default=5_000)
    parser.add_argument("--seed", type=int, default=1)
    options = parser.parse_args()
    began = time.process_time()
    found = [*_over_states(options.states), *_over_generated(options.generated, options.seed)]
    for name, words in found:
        print(f"{name}: {words}")
    seconds = time.process_time() - began
    print(
        f"{options.states:,} states and {options.generated:,} generated: {len(found):,} differ "
        f"({seconds:,.0f} s)."
    )
    return 1 if found else 0


def _over_states(count: int) -> Iterator[tuple[str, str]]:
    for number in numbers(count):
        if words := differs(*state(number)):
            yield f"State {number}", words


def _over_generated(count: int, start: int) -> list[tuple[str, str]]:
    different: list[tuple[str, str]] = []
    if not count:
        return different

    @seed(start)
    @settings(
        max_examples=count,
        database=None,
        deadline=None,
        phases=[Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    @given(findings, plain_histories)
    def go(found: Findings, history: History) -> None:
        if words := differs(found, history):
            different.append((f"{found!r} {history!r}", words))

    go()
    return different


if __name__ == "__main__":
    sys.exit(main())

"""The choice by trying every admissible combination, one after the other."""

from __future__ import annotations

from itertools import product
from math import prod

from tests.benchmarks.choice import Best, Choice


def combinations(choice: Choice) -> int:
    """How many there are."""
    return prod(len(group) for group in choice.groups)


def by_brute_force(choice: Choice) -> Best:
    """The best of all."""
    must, may = choice.must, choice.may
    best = Best(len(choice.needs) + 1, 0, 0)
    for row in product(*choice.groups):
        met = cost = 0
        for option in row:
            met |= option.met
            cost += option.cost
        found = ((must & ~met).bit_count(), (may & ~met).bit_count(), cost)
        if found < best:
            best = Best(*found)
    return best

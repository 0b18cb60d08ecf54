"""A trial from before this record, as it was typed in: often without its depth or feel.

What is not known of a barrier claims as little as it can: a failed or harmful one counts as the
weakest that it may have been, and one that helped counts only where it is certain which it was.
"""

from __future__ import annotations

from collections.abc import Collection
from enum import StrEnum

from planning.inputs.findings import PouchingSystem, Trial
from planning.supplies.trials import weakest
from planning.supplies.worn import possible_barriers


class EarlierOutcome(StrEnum):
    """How it went, as the person or an earlier letter says."""

    HELPED = "helped"
    PARTLY = "partly"
    NO_HELP = "no_help"
    HARMED = "harmed"
    UNKNOWN = "unknown"


def earlier_trial(
    barrier: PouchingSystem, others: Collection[str], outcome: EarlierOutcome
) -> Trial:
    """``barrier``: what is known of the barrier tried, its profile None where it was none.
    ``others``: keys of what else was tried."""
    possible = possible_barriers(barrier)
    helped = outcome is EarlierOutcome.HELPED
    claimed = possible if len(possible) == 1 or not helped else frozenset()
    supplies = frozenset(others) | (frozenset({weakest(claimed)}) if claimed else frozenset())
    failed = outcome in (EarlierOutcome.NO_HELP, EarlierOutcome.HARMED)
    return Trial(
        supplies=supplies,
        helped=True if helped else False if failed else None,
        hurt=supplies if outcome is EarlierOutcome.HARMED else frozenset(),
        partly=outcome is EarlierOutcome.PARTLY,
        before_record=True,
    )

"""A plan's supplies counted for the change day that the clinician decided on instead."""

from __future__ import annotations

import math
from dataclasses import replace

from planning.evidence.thresholds import WEAR_SHORT, WEAR_TYPING_ERROR
from planning.facts.change_interval import ChangeInterval
from planning.facts.in_words import every_days
from planning.instructions.amount_notices import over_maximum
from planning.instructions.monthly_maximum import against_maximum, monthly
from planning.instructions.quantities import REUSED, changes_until, closed_pouches
from planning.results.plan import ExpectedWear, Plan, Quantity


def recounted(plan: Plan, days: float | None) -> Plan:
    """``plan`` with amounts, notes on the usual maximum and notices for a change every ``days``.

    ``days`` None: how often the barrier is changed is not known, so no amount that depends on it
    is (None, never the planned one). Raises ``ValueError`` for days outside 1 to 14.
    """
    if days is None:
        lines = tuple(_unknown(line) for line in plan.quantities)
        wear = None
    else:
        if not WEAR_SHORT.value <= days <= WEAR_TYPING_ERROR.value:
            raise ValueError(f"No barrier is changed every {days:g} days.")
        fresh = tuple(_counted(line, plan, days) for line in plan.quantities)
        lines = against_maximum(fresh, ChangeInterval(None, days, ()))
        wear = _wear(plan, days)
    old = set(over_maximum(plan.quantities))
    notices = (*(one for one in plan.notices if one not in old), *over_maximum(lines))
    return replace(plan, quantities=lines, notices=notices, expected_wear=wear)


def by_change(line: Quantity) -> bool:
    """Whether its amount depends on how often the barrier is changed."""
    return line.per_month is not None and line.supply_key not in REUSED


def _counted(line: Quantity, plan: Plan, days: float) -> Quantity:
    bare = replace(line, over_maximum=None, cap_note=None)
    if not by_change(line):
        return bare
    each = closed_pouches(days) if _by_the_day(line, plan) else line.per_change
    until = changes_until(plan.follow_up.in_days, days)
    return replace(
        bare,
        per_change=each,
        until_next_visit=math.ceil(until * each),
        until_at_most=None,
        per_month=monthly(each, days),
    )


def _by_the_day(line: Quantity, plan: Plan) -> bool:
    """Closed pouches, and the barrier that is one with them."""
    alone = line.supply_key == "pouch"
    joined = line.supply_key == "barrier" and "one_piece" in plan.supplies
    return "closed" in plan.supplies and (alone or joined)


def _unknown(line: Quantity) -> Quantity:
    """Also what is used again: its code's maximum is not judged beside unknown amounts."""
    bare = replace(line, over_maximum=None, cap_note=None)
    if not by_change(line):
        return bare
    return replace(bare, until_next_visit=None, until_at_most=None, per_month=None)


def _wear(plan: Plan, days: float) -> ExpectedWear:
    lasting = plan.expected_wear.lasting if plan.expected_wear else None
    text = f"Counted for a change every {every_days(days)}, as the clinician decided."
    return ExpectedWear(days, None, None, 0, text, (), lasting)

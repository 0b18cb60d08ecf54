"""How long one barrier may stay, and how long it is likely to."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from scipy.special import stdtrit

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import EXTENDED_FROM, WEAR_ENOUGH, WEAR_LONG, WEAR_RAW
from planning.facts.change_day import SOURCES as CHANGE_DAY_SOURCES
from planning.facts.change_day import ChangeDay, change_day
from planning.facts.derive import Facts
from planning.facts.in_words import every_days, in_days, one_place
from planning.facts.wear_summary import usual_wear
from planning.facts.wear_survival import lasting
from planning.results.plan import ExpectedWear, Reason


@dataclass(frozen=True, slots=True)
class ChangeInterval:
    """``limit``: change at the latest after so many days (None: no reason for a limit).

    ``expected``: days one barrier is likely to stay, never above the limit. ``low`` and ``high``:
    its 95 % interval from ``barriers`` in the log; None, with 0 barriers: the published mean.
    ``worn`` the same three as they were worn, before any limit. ``log``: what the log says about
    the day, None where it asks for no other. ``as_now``: the limit asks for no other day.
    ``decided``: the clinician set the day, and supplies are counted for it.
    """

    limit: float | None
    expected: float
    because: tuple[Reason, ...]
    low: float | None = None
    high: float | None = None
    barriers: int = 0
    worn: tuple[float, float, float] | None = None
    log: ChangeDay | None = None
    as_now: bool = False
    decided: bool = False


#: Why the day is another than the rules would set.
DECIDED: Final = Reason("The clinician decided on this day.", (PRACTICE,))


def decided_interval(days: float) -> ChangeInterval:
    """Every ``days``, as the clinician decided; what the log says of it is not used."""
    return ChangeInterval(limit=days, expected=days, because=(DECIDED,), decided=True)


def change_interval(
    facts: Facts, *, new_system: bool = False, extended: bool = False
) -> ChangeInterval:
    """From raw skin and this person's own log; else the published mean for the kind.

    ``new_system``: what is chosen is another system than that of the log, which then sets no
    day. ``extended``: it is an extended-wear barrier.
    """
    log = None if new_system else log_day(facts, extended=extended)
    found_limits = [*limits(facts), *_of_log(log)]
    if new_system:
        found_limits += _of_new_system(facts)
    limit = min((days for days, _ in found_limits), default=None)
    found = as_worn(facts)
    most = math.inf if limit is None else limit
    return ChangeInterval(
        limit=limit,
        expected=min(found.expected, most),
        because=tuple(reason for _, reason in found_limits),
        low=None if found.low is None else min(found.low, most),
        high=None if found.high is None else min(found.high, most),
        barriers=found.barriers,
        worn=found.worn,
        log=log,
        as_now=log is not None and log.as_now and limit == log.day,
    )


def expected_wear(wear: ChangeInterval, facts: Facts) -> ExpectedWear:
    """How long barriers are worn, and how long they last until they fail, for the plan."""
    published = usual_wear(facts.kind)
    if wear.decided:
        text = f"Counted for a change every {every_days(wear.expected)}, as the clinician decided."
        return ExpectedWear(wear.expected, None, None, 0, text, (), lasting(facts.findings.wear))
    if wear.worn is None:
        text = (
            f"Worn {in_days(published.value)} on average: {published.meaning}, as the log "
            "holds too few barriers"
        )
        sources: tuple[str, ...] = (published.source, DESIGN)
    else:
        mean, low, high = in_days(wear.worn[0]), *map(one_place, wear.worn[1:])
        text = (
            f"Worn {mean} on average over {wear.barriers} barriers of the log "
            f"(95 % interval {low} to {high}), whatever the reason they came off"
        )
        sources = (DESIGN,)
    if wear.limit is not None and wear.limit <= wear.expected:
        days = "day" if wear.limit == 1 else "days"
        text += f"; from now on limited to the {wear.limit:g} {days} advised here"
    text += ". This sets how many are used."
    found = lasting(facts.findings.wear)
    return ExpectedWear(wear.expected, wear.low, wear.high, wear.barriers, text, sources, found)


def limits(facts: Facts) -> list[tuple[float, Reason]]:
    """Raw skin or a wound: every 3 days at the latest. A barrier worn for more than 7 days: 7."""
    out: list[tuple[float, Reason]] = []
    if facts.weeping or facts.separated:
        text = "Raw skin or a wound must be seen often."
        out.append((WEAR_RAW.value, Reason(text, (PRACTICE,), "skin")))
    wear = facts.wear
    if wear is not None and wear.longest_days is not None and wear.longest_days > WEAR_LONG.value:
        text = f"A barrier was worn for {wear.longest_days:g} days."
        out.append((WEAR_LONG.value, Reason(text, (PRACTICE,), "wear")))
    return out


def log_day(facts: Facts, *, extended: bool = False) -> ChangeDay | None:
    """What the log of the system in use says; an extended-wear barrier, which grips harder, is
    never peeled off before day 3."""
    wear = facts.findings.wear
    return change_day(wear, first=EXTENDED_FROM.value) if extended else change_day(wear)


def _of_log(log: ChangeDay | None) -> list[tuple[float, Reason]]:
    if log is None or log.day is None:
        return []
    return [(float(log.day), Reason(log.text, CHANGE_DAY_SOURCES, "wear"))]


def _of_new_system(facts: Facts) -> list[tuple[float, Reason]]:
    """The usual day for the kind of stoma, where a log of the system before might be followed."""
    wear = facts.wear
    if wear is None or not wear.changes:
        return []
    usual = usual_wear(facts.kind)
    text = (
        "A new system starts a new count: the log of the one before says nothing about it. "
        f"Usual for this kind of stoma: {in_days(usual.value)} ({usual.meaning})."
    )
    return [(float(math.floor(usual.value)), Reason(text, (usual.source, DESIGN), "wear"))]


def as_worn(facts: Facts) -> ChangeInterval:
    """How long barriers were worn, whatever the reason they came off: that is how many are used.

    The mean with Student's 95 % interval, held within the shortest and the longest wear seen: so
    few values say nothing about what lies beyond them. Not how long a barrier could last; for
    that, a planned change would have to count as censored.
    """
    wear = facts.wear
    if wear is None or wear.changes < WEAR_ENOUGH.value or not wear.mean_days:
        return ChangeInterval(None, usual_wear(facts.kind).value, ())
    half = _t(wear.changes) * (wear.spread_days or 0.0) / math.sqrt(wear.changes)
    low = max(wear.mean_days - half, wear.shortest_days or 0.0)
    high = min(wear.mean_days + half, wear.longest_days or math.inf)
    worn = (wear.mean_days, low, high)
    return ChangeInterval(None, wear.mean_days, (), low, high, wear.changes, worn)


def _t(count: int) -> float:
    """Student's two-sided 95 % factor for ``count`` values."""
    return float(stdtrit(count - 1, 0.975))

"""On which day a barrier comes off at the latest, as this person's own log says.

The last whole day on which at least nine in ten barriers had neither leaked nor lifted (Kaplan and
Meier). One bad barrier never decides, nor does the shortest wear. A planned change, itch or pain
and a barrier still on end the watching without a leak. Levels are design values.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from planning.evidence.thresholds import (
    CHANGE_DAY_BARRIERS,
    CHANGE_DAY_FIRST,
    CHANGE_DAY_HELD,
    CHANGE_DAY_LAST,
    CHANGE_DAY_STILL_ON,
    WEAR_TYPING_ERROR,
)
from planning.facts.wear_summary import system_failed
from planning.inputs.findings import RemovalReason, WearEpisode
from planning.statistics.survival import Estimate, SurvivalCurve, kaplan_meier
from planning.statistics.too_few import TooFew

SOURCES: Final = ("kaplan1958/curve", "design_value")
#: A product of fractions may land a hair below the share it stands for.
_ROUNDING: Final = 1e-9


class Says(StrEnum):
    """What a log says about the day."""

    DAY = "day"
    TOO_FEW = "too_few"
    NO_DAY = "no_day"


@dataclass(frozen=True, slots=True)
class ChangeDay:
    """``day`` whole days after it was put on, None unless ``says`` is a day; ``held`` the share
    that held to it. ``as_now``: at least half of the planned changes came by then already."""

    says: Says
    barriers: int
    failed: int
    text: str
    day: int | None = None
    held: Estimate | None = None
    as_now: bool = False


def change_day(
    wear: tuple[WearEpisode, ...] | None, *, first: float = CHANGE_DAY_FIRST.value
) -> ChangeDay | None:
    """What ``wear`` says; None where it holds no leak and no lift: nothing asks for another day.

    ``first``: the earliest whole day that may be advised.
    """
    kept = [one for one in wear or () if one.days <= WEAR_TYPING_ERROR.value]
    failed = sum(system_failed(one) for one in kept)
    if not failed:
        return None
    curve = kaplan_meier([one.days for one in kept], [system_failed(one) for one in kept])
    if isinstance(curve, TooFew) or len(kept) < CHANGE_DAY_BARRIERS.value:
        return _too_few(len(kept), failed)
    days = range(int(first), int(CHANGE_DAY_LAST.value) + 1)
    holding = [day for day in days if _holds(curve, day)]
    if not holding:
        return _no_day(curve, int(first))
    enough = [day for day in holding if _still_on(kept, day) >= CHANGE_DAY_STILL_ON.value]
    if not enough:
        return _too_few(len(kept), failed)
    return _day(max(enough), curve, kept)


def _holds(curve: SurvivalCurve, day: int) -> bool:
    found = curve.at(day)
    # Beyond the last day watched the share is not known: it held as far as anybody looked.
    share = curve.survival[-1] if found is None else found.value
    return share >= CHANGE_DAY_HELD.value - _ROUNDING


def _still_on(kept: list[WearEpisode], day: int) -> int:
    return sum(one.days >= day for one in kept)


def _day(day: int, curve: SurvivalCurve, kept: list[WearEpisode]) -> ChangeDay:
    planned = [one.days for one in kept if one.reason is RemovalReason.PLANNED]
    held = curve.at(day)
    share = "all" if held is None else f"{held.value * 100:.0f} %"
    low = "" if held is None or held.low is None else _interval(held)
    text = (
        f"{share} of {curve.observed} barriers in the log held to day {day} without a leak or a "
        f"lift{low}; {curve.failed} leaked or lifted in all."
    )
    by_then = sum(days <= day for days in planned)
    as_now = bool(planned) and 2 * by_then >= len(planned)
    return ChangeDay(Says.DAY, curve.observed, curve.failed, _upper(text), day, held, as_now)


def _interval(held: Estimate) -> str:
    return f" (95 % interval {(held.low or 0) * 100:.0f} to {(held.high or 0) * 100:.0f} %)"


def _too_few(barriers: int, failed: int) -> ChangeDay:
    text = (
        f"{failed} of {barriers} barriers in the log leaked or lifted: too few are known to set "
        f"another day ({CHANGE_DAY_BARRIERS.value:g} are needed, "
        f"{CHANGE_DAY_STILL_ON.value:g} of them still on that day)."
    )
    return ChangeDay(Says.TOO_FEW, barriers, failed, text)


def _no_day(curve: SurvivalCurve, first: int) -> ChangeDay:
    held = curve.at(first)
    share = 0.0 if held is None else held.value
    text = (
        f"{share * 100:.0f} % of {curve.observed} barriers held to day {first} without a leak or a "
        f"lift: under {CHANGE_DAY_HELD.value * 100:.0f} %, so no day from {first} on is safe."
    )
    return ChangeDay(Says.NO_DAY, curve.observed, curve.failed, text)


def _upper(text: str) -> str:
    return text[:1].upper() + text[1:]

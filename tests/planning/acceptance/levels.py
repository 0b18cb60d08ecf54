"""How soon a plan wants someone to act, on the six levels of the cases."""

from __future__ import annotations

import re
from typing import Final

from planning import Plan
from planning.results.plan import ItemKind, Recommendation, RedFlag, Urgency

#: Most urgent first. "telephone": the call is made today and its answer recorded; no one need be
#: seen.
LEVELS: Final = ("emergency", "same_day", "telephone", "days", "two_weeks", "routine")
_SOONEST_VISIT: Final = ((3, "days"), (14, "two_weeks"))


def sooner_by(level: str, than: str) -> int:
    """Levels by which ``level`` is sooner than ``than`` (negative: later).

    From *days* a call and a visit the same day both count as one level sooner.
    """
    steps = LEVELS.index(than) - LEVELS.index(level)
    past_the_call = LEVELS.index(level) < LEVELS.index("telephone") < LEVELS.index(than)
    return steps - 1 if past_the_call else steps


def level_of_flag(flag: RedFlag) -> str:
    """A call named as the act is a call, where the planner has no level of its own for it."""
    if flag.urgency is Urgency.SAME_DAY and re.search(r"telephone|call", flag.refer_to, re.I):
        return "telephone"
    return flag.urgency.value


def level_of(plan: Plan) -> str:
    """The worst finding's level; where somebody is to act sooner, that referral's or visit's."""
    flags = [level_of_flag(flag) for flag in plan.red_flags]
    referrals = (_asked_within(item) for item in plan.recommendations)
    asked = [level for level in referrals if level is not None]
    return min([*flags, *asked, _level_of_visit(plan.follow_up.in_days)], key=LEVELS.index)


def _asked_within(item: Recommendation) -> str | None:
    """Of a referral without a danger, by the time named before what is asked."""
    if item.kind is not ItemKind.REFER or item.key.startswith("refer_"):
        return None
    return referral_level(item.text.partition(":")[0])


def _level_of_visit(in_days: int) -> str:
    return next((level for days, level in _SOONEST_VISIT if in_days <= days), "routine")


def referral_level(text: str) -> str | None:
    """The level in the words of a referral; None where it names none."""
    words = (
        (r"\bnow\b|as an emergency", "emergency"),
        (r"by telephone today|telephone .*today|call .*today", "telephone"),
        (r"same day|\btoday\b", "same_day"),
        (r"within (1 to )?(3|three) days|within days", "days"),
        (r"within (2|two) weeks|within 14 days", "two_weeks"),
    )
    return next((level for pattern, level in words if re.search(pattern, text, re.I)), None)

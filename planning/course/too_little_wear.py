"""What the wear log lacks to judge a plan, in words."""

from __future__ import annotations

from planning.course.number_words import count
from planning.course.periods import Wear
from planning.evidence.thresholds import OUTCOME_BARRIERS

#: Goes on from what cannot be, *Leaks* or *Wear*; why follows.
CANNOT_COMPARE = "cannot be compared: "
#: The same where a side has barriers, and no time.
NO_WHOLE_DAY = f"{CANNOT_COMPARE}no barrier was worn for a whole day."


def too_few(before: Wear | None, since: Wear | None) -> str:
    """Said straight after *Leaks* or *Wear*; "" where there is enough to compare."""
    if before is None or since is None:
        return f"{CANNOT_COMPARE}no wear log was kept."
    least = int(OUTCOME_BARRIERS.value)
    short = [(w, when) for w, when in ((before, "before"), (since, "since")) if w.ended < least]
    if not short:
        return ""
    said = [
        f"{count(wear.ended, 'barrier')} {when}{left_out_words(wear, ' ({})')}"
        for wear, when in short
    ]
    only = "only " if short[0][0].ended else ""
    return f"{CANNOT_COMPARE}{only}{' and '.join(said)}, and it takes at least {least} each time."


def left_out_words(wear: Wear, form: str) -> str:
    """What was not counted and why, put into ``form``; "" where everything was."""
    parts = [
        f"{many} left out, {why}"
        for many, why in (
            (wear.left_out, "worn for an implausibly long time"),
            (wear.disputed, "as the log contradicts itself"),
        )
        if many
    ]
    return form.format("; ".join(parts)) if parts else ""

"""What the wear log lacks to judge a plan, in words."""

from __future__ import annotations

from planning.course.periods import Wear
from planning.course.words import count
from planning.thresholds import OUTCOME_BARRIERS


def too_few(before: Wear | None, since: Wear | None) -> str:
    """Why nothing can be told yet; "" where there is enough to compare."""
    if before is None or since is None:
        return "no wear log was kept."
    least = int(OUTCOME_BARRIERS.value)
    short = [
        f"{count(wear.ended, 'barrier')} {when}{left_out_words(wear, ' ({})')}"
        for wear, when in ((before, "before"), (since, "since"))
        if wear.ended < least
    ]
    return (
        f"{' and '.join(short)}: too few to tell ({least} are needed each time)." if short else ""
    )


def left_out_words(wear: Wear, form: str) -> str:
    """What was not counted and why, put into ``form``; "" where everything was."""
    parts = [
        f"{many} left out, {why}"
        for many, why in (
            (wear.left_out, "worn too long to be true"),
            (wear.disputed, "as the log contradicts itself"),
        )
        if many
    ]
    return form.format("; ".join(parts)) if parts else ""

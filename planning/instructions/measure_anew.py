"""What is measured at each visit, though all looks as it did last time."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date

from planning.evidence.thresholds import SHRINKS_DAYS

#: What was measured last time -> the flag over time that says it is changing.
CHANGING = {
    "size": "size",
    "height": "retraction",
    "prolapse": "prolapse",
    "bulge": "hernia",
}
#: A new stoma's own: it shrinks and settles in the weeks after surgery.
OF_NEW_STOMA = ("size", "height")


def still_shrinks(surgery: date | None, today: date) -> bool | None:
    """Whether the stoma is so new that it still shrinks; None where the day of surgery is not
    known."""
    return None if surgery is None else (today - surgery).days < SHRINKS_DAYS.value


def measure_anew(
    surgery: date | None, today: date, flagged: Collection[str] = ()
) -> dict[str, str]:
    """What is to be measured today (a key of ``CHANGING``) -> why, in words.

    ``flagged``: keys of the flags over time that hold. Where the day of surgery is not known, no
    one knows whether the stoma still shrinks. ``SHRINKS_DAYS`` has its source; that a changing
    measure is taken again at each visit is a design value.
    """
    found = {key: "it is changing" for key, flag in CHANGING.items() if flag in flagged}
    shrinks = still_shrinks(surgery, today)
    if shrinks is None:
        why = "the day of surgery is not recorded, so it may still shrink"
    elif shrinks:
        why = f"the stoma still shrinks until day {SHRINKS_DAYS.value:g} after surgery"
    else:
        return found
    return found | dict.fromkeys(OF_NEW_STOMA, why)

"""Is a size still good to cut an opening to? A stoma is measured again before an old one is."""

from __future__ import annotations

from planning.evidence.thresholds import SHRINKS_DAYS, SIZE_OLD, SIZE_OLD_EARLY


def most_days(days_since_surgery: int | None) -> int:
    """How old a size may be, days: fewer while a new stoma shrinks, and where no one knows whether
    this one still does (design values)."""
    settled = days_since_surgery is not None and days_since_surgery >= SHRINKS_DAYS.value
    return int(SIZE_OLD.value if settled else SIZE_OLD_EARLY.value)


def too_old(days: int, days_since_surgery: int | None) -> bool:
    """Whether a size taken ``days`` ago must be taken again before anything is cut to it."""
    return days > most_days(days_since_surgery)

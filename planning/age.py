"""Whose rules hold at an age: figures here were made for adults."""

from __future__ import annotations

from datetime import date
from enum import StrEnum

from planning.thresholds import CHILD_UNDER


class AgeGroup(StrEnum):
    """Not known is neither child nor adult."""

    ADULT = "adult"
    CHILD = "child"
    UNKNOWN = "unknown"


def completed_years(born: date, on: date) -> int:
    """Birthdays passed on the day ``on``; that of 29 February comes on 1 March in other years."""
    return on.year - born.year - ((on.month, on.day) < (born.month, born.day))


def age_group(age_years: int | None) -> AgeGroup:
    """Under 16 a child, from the birthday itself an adult (design value)."""
    if age_years is None:
        return AgeGroup.UNKNOWN
    return AgeGroup.CHILD if age_years < CHILD_UNDER.value else AgeGroup.ADULT

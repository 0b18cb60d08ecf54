"""Whose rules hold at an age: figures here were made for adults."""

from __future__ import annotations

from enum import StrEnum

from planning.evidence.thresholds import CHILD_UNDER


class AgeGroup(StrEnum):
    """Not known is neither child nor adult."""

    ADULT = "adult"
    CHILD = "child"
    UNKNOWN = "unknown"


def age_group(age_years: int | None) -> AgeGroup:
    """Under 16 a child, from the birthday itself an adult (design value)."""
    if age_years is None:
        return AgeGroup.UNKNOWN
    return AgeGroup.CHILD if age_years < CHILD_UNDER.value else AgeGroup.ADULT

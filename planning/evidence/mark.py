"""How a statement was checked when its rule was written; not how strong the study is."""

from __future__ import annotations

from enum import StrEnum


class Mark(StrEnum):
    """What was read for one statement, or that nothing was."""

    FULL_TEXT = "full text read"
    ABSTRACT = "abstract read"
    EXCERPT = "excerpt read"
    SECOND_HAND = "read in another text that reports it"
    BY_PROGRAM = "list read by program"
    COMMON_PRACTICE = "common practice, no source"
    FROM_MEMORY = "from memory, unverified"
    DESIGN_VALUE = "design value of this planner, no source"

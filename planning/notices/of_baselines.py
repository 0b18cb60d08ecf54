"""Notices of what was agreed as known: that it was compared, and what came of it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import DESIGN
from planning.facts.baselines import TITLES, compared
from planning.facts.derive import Facts
from planning.facts.in_words import joined
from planning.notices.rule import NoticeRule


def _compared(facts: Facts) -> Iterator[str]:
    for kind, title in TITLES.items():
        found = compared(kind, facts)
        if found is None:
            continue
        what = f"changed: {joined(found.worse)}" if found.worse else "no change"
        yield f"{title} was compared with what {found.baseline.agreed_by} agreed: {what}."


RULES: Final[tuple[NoticeRule[Facts], ...]] = (
    NoticeRule(
        "known_before",
        "Something long-standing and agreed is there today",
        (DESIGN,),
        _compared,
    ),
)

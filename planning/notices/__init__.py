"""Things to know that change no supply by themselves."""

from __future__ import annotations

from typing import Final

from planning.facts.derive import Facts
from planning.instructions.amount_notices import over_maximum
from planning.notices import of_choice, of_person, of_stoma
from planning.notices.rule import NoticeRule, notices_of
from planning.ranked_facts import RankedFacts
from planning.results.plan import Quantity, Reason
from planning.supplies.system_choice import SystemChoice

#: Notices from the findings alone, in the order of the visit.
OF_FINDINGS: Final[tuple[NoticeRule[Facts], ...]] = (
    *of_stoma.RULES,
    *of_person.RULES,
)
#: Notices from the choice of supplies.
OF_CHOICE: Final[tuple[NoticeRule[SystemChoice], ...]] = of_choice.RULES


def notices(situation: RankedFacts) -> tuple[Reason, ...]:
    """Notices from the findings alone."""
    return tuple(notices_of(OF_FINDINGS, situation.facts))


def plan_notices(chosen: SystemChoice, quantities: tuple[Quantity, ...]) -> tuple[Reason, ...]:
    """Notices from the choice: what was removed, limits of geometry, amounts."""
    return (*notices_of(OF_CHOICE, chosen), *over_maximum(quantities))


__all__ = ["OF_CHOICE", "OF_FINDINGS", "notices", "over_maximum", "plan_notices"]

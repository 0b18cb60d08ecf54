"""All red flags, the most urgent first."""

from __future__ import annotations

from typing import Final

from planning.derive import Facts
from planning.plan import RedFlag, Urgency
from planning.safety import flags_course, flags_output, flags_skin, flags_stoma
from planning.safety.flag import FlagRule

RULES: Final[tuple[FlagRule, ...]] = (
    *flags_stoma.RULES,
    *flags_output.RULES,
    *flags_skin.RULES,
    *flags_course.RULES,
)


def red_flags(facts: Facts) -> tuple[RedFlag, ...]:
    """Every danger in the findings; equal urgency keeps the order of the rules."""
    raised = [flag for rule in RULES if (flag := rule.raised(facts)) is not None]
    return tuple(sorted(raised, key=lambda flag: flag.urgency.rank))


def most_urgent(flags: tuple[RedFlag, ...]) -> Urgency:
    """How soon someone must look; routine without a flag."""
    return flags[0].urgency if flags else Urgency.ROUTINE

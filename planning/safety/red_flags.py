"""All red flags, the most urgent first; one finding calls one person once."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from planning.facts.derive import Facts
from planning.inputs.age import AgeGroup
from planning.results.plan import RedFlag
from planning.safety import (
    flags_bleeding,
    flags_blockage,
    flags_colour,
    flags_course,
    flags_fever,
    flags_growth,
    flags_hernia,
    flags_illness,
    flags_infection,
    flags_medicines,
    flags_opening,
    flags_output,
    flags_prolapse,
    flags_restless,
    flags_skin,
    flags_stoma,
    flags_urine,
    flags_urine_blood,
)
from planning.safety.flag import FlagRule
from planning.safety.flags_children import rules_without_figures

RULES: Final[tuple[FlagRule, ...]] = (
    *flags_colour.RULES,
    *flags_bleeding.RULES,
    *flags_prolapse.RULES,
    *flags_hernia.RULES,
    *flags_stoma.RULES,
    *flags_illness.RULES,
    *flags_fever.RULES,
    *flags_blockage.RULES,
    *flags_urine.RULES,
    *flags_urine_blood.RULES,
    *flags_output.RULES,
    *flags_medicines.RULES,
    *flags_restless.RULES,
    *flags_infection.RULES,
    *flags_opening.RULES,
    *flags_skin.RULES,
    *flags_growth.RULES,
    *flags_course.RULES,
)
#: Under 16, and where the age is not known.
NOT_FOR_ADULTS: Final = rules_without_figures(RULES)
_WITHIN: Final = {rule.key: rule.within for rule in (*RULES, *NOT_FOR_ADULTS)}
#: A dark prolapse is one finding, found by the colour or by the prolapse.
_OF_THE_STOMA: Final = frozenset(
    {
        "measurement.colour",
        "measurement.turgor",
        "measurement.bleeds_on_touch",
        "measurement.prolapse",
    }
)


def red_flags(facts: Facts) -> tuple[RedFlag, ...]:
    """Every danger in the findings; equal urgency keeps the order of the rules.

    What says less of the same finding to the same person is folded into the flag that says more.
    """
    adult = facts.age_group is AgeGroup.ADULT
    if facts.age_group is AgeGroup.CHILD:
        facts = _without_adult_vitals(facts)
    rules = RULES if adult else NOT_FOR_ADULTS
    raised = {rule.key: flag for rule in rules if (flag := rule.raised(facts)) is not None}
    for key in [key for key in raised if _WITHIN[key]]:
        if (home := _home(raised[key], raised)) is not None:
            raised[home.key] = _joined(home, raised.pop(key))
    return tuple(sorted(raised.values(), key=lambda flag: flag.urgency.rank))


def _without_adult_vitals(facts: Facts) -> Facts:
    """A child's pulse, breathing and blood pressure are never held against an adult's."""
    output = facts.findings.output
    vitals = replace(output.vitals, pulse=None, breaths=None, systolic_mmhg=None)
    found = replace(facts.findings, output=replace(output, vitals=vitals))
    return replace(facts, findings=found)


def _home(flag: RedFlag, raised: dict[str, RedFlag]) -> RedFlag | None:
    """The flag that ``flag`` is folded into."""
    others = (raised[key] for key in _WITHIN[flag.key] if key in raised)
    return next((other for other in others if _covers(other, flag)), None)


def _covers(other: RedFlag, flag: RedFlag) -> bool:
    at, its = flag.because[0].finding, other.because[0].finding
    same = at == its or {at, its} <= _OF_THE_STOMA
    return same and other.refer_to == flag.refer_to and other.urgency.rank <= flag.urgency.rank


def _joined(home: RedFlag, flag: RedFlag) -> RedFlag:
    return replace(
        home,
        because=(*home.because, *flag.because),
        includes=(*home.includes, flag.key, *flag.includes),
    )

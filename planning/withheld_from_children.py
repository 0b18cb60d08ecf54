"""A plan made by the rules for adults for somebody who was under 16: shown without its figures.

It was signed before the age was known, or before the date of birth was corrected.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from planning.children.plan import AGAIN, NO_RULES, plan_without_figures
from planning.evidence.sources import DESIGN
from planning.inputs.findings import Findings, History
from planning.pipeline import ranked_facts_of
from planning.results.message import to_patient
from planning.results.plan import Plan, Reason, RedFlag
from planning.safety.flags_children import PAST_A_LIMIT, without_figures
from planning.safety.red_flags import RULES

_MARKED: Final = {rule.key: rule for rule in RULES if rule.adult_figures}
MADE_BEFORE: Final = (
    "This plan was made by the rules for adults. Its supplies, sizes, amounts, limits and times "
    "are not shown."
)


def held_back(plan: Plan, findings: Findings) -> Plan:
    """What was decided of ``plan`` that holds at any age: red flags in words without figures, their
    referrals, the day of the next visit. ``findings``: those it was made from, with the age."""
    now = plan_without_figures(ranked_facts_of(findings, History()))
    referred = {f"refer_{flag.key}" for flag in plan.red_flags}
    return replace(
        now,
        rule_set=plan.rule_set,
        urgency=plan.urgency,
        headline=NO_RULES,
        red_flags=tuple(map(_flag, plan.red_flags)),
        recommendations=tuple(r for r in plan.recommendations if r.key in referred),
        follow_up=replace(plan.follow_up, because=(), patient_text=to_patient(AGAIN)),
        notices=(Reason(MADE_BEFORE, (DESIGN,)), *now.notices),
        suggested_codes=(),
    )


def _flag(flag: RedFlag) -> RedFlag:
    """``text`` stays as it was decided on."""
    if flag.key not in _MARKED:
        return flag
    words = without_figures(_MARKED[flag.key])
    because = tuple(replace(reason, text=PAST_A_LIMIT) for reason in flag.because)
    told = to_patient(words.patient_text)
    return replace(flag, do=words.do, patient_text=told, because=because)

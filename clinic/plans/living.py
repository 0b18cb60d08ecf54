"""What a leaf about living with a stoma may say to this person: what the plan and findings forbid.

The care sheet comes first: where the plan says anything of food or drink, or a danger forbids
more of it, the leaf keeps silent about it (design value).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.plans.stored_findings import stored_findings
from planning.evidence.thresholds import FIRST_AID_FROM, OUTPUT_CALL
from planning.facts.derive import Facts, derive
from planning.inputs.findings import Condition, Findings, History, StomaKind
from planning.recommendations.blockage import FIRST_AID, MASSAGE
from planning.results.plan import Urgency

_LIMITS: Final = (Condition.KIDNEY_DISEASE, Condition.HEART_FAILURE)
#: Recommendations that say what to eat or drink, or what not.
_OF_FOOD: Final = frozenset(
    {"fluids", "sip", "sips_only", "nothing_by_mouth", "no_solid_food", "slow_bowel"}
)
#: Flags that forbid advice to eat or drink more.
_AGAINST: Final = frozenset(
    {
        *("blocked_ileostomy", "blocked_colostomy", "overflow", "blocked_beside_urostomy"),
        *("pregnant_blocked", "narrow", "dehydration", "high_output", "watery"),
        "unmeasured_output",
    }
)


@dataclass(frozen=True)
class Living:
    """``limited``: a disease is recorded for which drinks are limited. ``plan_first``: the plan
    says what to eat and drink, or a danger forbids more. ``first_aid``: sentences of first aid
    for a blockage, () where this person telephones first."""

    limited: bool
    plan_first: bool
    first_aid: tuple[str, ...]


def living_of(decided: DecidedPlan) -> Living:
    """For an adult; what is not recorded forbids first aid and lifts no limit."""
    facts = derive(_findings(decided), History())
    return Living(
        limited=any(facts.has(one) is True for one in _LIMITS),
        plan_first=_plan_first(decided) or _much(facts),
        first_aid=_first_aid(facts),
    )


def _findings(decided: DecidedPlan) -> Findings:
    snapshot = getattr(decided.assessment, "plan", None)
    return stored_findings(snapshot) if snapshot else draft_plan(decided.assessment).findings


def _plan_first(decided: DecidedPlan) -> bool:
    standing = [
        flag
        for flag, decision in zip(decided.plan.red_flags, decided.flags, strict=True)
        if decision.choice != Choice.DROPPED
    ]
    keys = {key for flag in standing for key in (flag.key, *flag.includes)}
    pressing = any(flag.urgency.rank <= Urgency.SAME_DAY.rank for flag in standing)
    told = {item.key for item in decided.plan.recommendations}
    return pressing or bool(keys & _AGAINST or told & _OF_FOOD)


def _much(facts: Facts) -> bool:
    """More than usual comes out of a bowel stoma, agreed or not, or always does."""
    if facts.kind is StomaKind.JEJUNOSTOMY:
        return True
    volume = facts.findings.output.volume_ml_24h
    bowel = facts.kind is not StomaKind.UROSTOMY
    return bowel and volume is not None and volume >= OUTPUT_CALL.value


def _first_aid(facts: Facts) -> tuple[str, ...]:
    """Not in the first weeks after surgery, in pregnancy, nor beside a bulge or prolapse; without
    the massage beside a wound. Source: facts of 2026, blockage first aid (design value)."""
    days = facts.findings.stoma.days_since_surgery
    allowed = (
        facts.kind is StomaKind.ILEOSTOMY
        and days is not None
        and days > FIRST_AID_FROM.value
        and facts.has(Condition.PREGNANT) is not True
        and facts.bulging is False
        and facts.prolapsed is False
    )
    if not allowed:
        return ()
    wounded = facts.findings.wounds is None or bool(facts.findings.wounds)
    return tuple(line for line in FIRST_AID if not (wounded and line == MASSAGE))

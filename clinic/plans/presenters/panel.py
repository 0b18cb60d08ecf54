"""The plan in words: its answers, causes, sizes and steps, for a draft and for a signed visit."""

from __future__ import annotations

from typing import Any

from clinic import formatting
from clinic.plans.order_lines import accepted_quantities
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.plans.presenters.answers import answers_of
from clinic.plans.presenters.cards import cards_of_signed
from clinic.plans.presenters.plan_groups import groups_of
from clinic.plans.presenters.sources import citations, cited
from clinic.referrals.models import Urgency
from planning import Plan
from planning.inputs.age import AgeGroup
from planning.results.plan import CauseOf, Dimensions, Step

CAUTION = "Supports, never replaces, a licensed clinician's judgement and local policy."


def signed_context(decided: DecidedPlan) -> dict[str, Any]:
    """Template context of a signed plan."""
    return {
        **plan_context(decided.counted_plan),
        "groups": groups_of(decided.plan, cards_of_signed(decided), signed=True),
        # Without what was changed or dropped.
        "steps": [step_line(step) for step in decided.steps()],
        "quantities": accepted_quantities(decided),
        "referrals": decided.assessment.referrals.all(),
    }


def step_line(step: Step) -> dict[str, object]:
    return {"text": step.text, "sources": citations(step.sources)}


def plan_context(plan: Plan) -> dict[str, Any]:
    """What draft and signed plan share."""
    return {
        "plan": plan,
        "caution": CAUTION,
        "left_out": [] if plan.made_for is AgeGroup.ADULT else [n.text for n in plan.notices],
        "urgency": Urgency(plan.urgency.value),
        "answers": answers_of(plan),
        "next_steps": plan.next_steps,
        "skin_causes": _causes(plan, CauseOf.SKIN),
        "leak_causes": _causes(plan, CauseOf.LEAK),
        "tell_apart": plan.causes.would_tell_apart,
        "sizes": sizes(plan.dimensions),
        "steps": [step_line(step) for step in plan.steps],
        "quantities": plan.quantities,
        "notices": cited(plan.notices) if plan.made_for is AgeGroup.ADULT else [],
        "missing": cited(plan.missing),
    }


def _causes(plan: Plan, of: CauseOf) -> list[dict[str, Any]]:
    level = set(plan.causes.cannot_tell_apart)
    return [
        {
            "title": cause.title,
            "hours": cause.hours.words() if len(cause.hours) else "",
            "supports": cited(cause.supports),
            "against": cited(cause.against),
            "level": cause.key in level,
        }
        for cause in plan.causes.causes
        if cause.of == of
    ]


def sizes(d: Dimensions) -> list[tuple[str, str]]:
    """The dimensions that are known, in words."""
    lines = [
        ("Stoma", _pair(d.stoma_length_mm, d.stoma_width_mm)),
        ("Opening to cut", _pair(d.opening_length_mm, d.opening_width_mm)),
        ("Gap each side", _mm(d.gap_mm)),
        ("Nearest pre-cut size", _mm(d.nearest_pre_cut_mm)),
        ("Convex depth", _joined(_mm(d.convex_depth_mm), d.convex_depth_class)),
        ("Smallest plateau", _mm(d.plateau_mm)),
        ("Ring stretched to", _mm(d.ring_stretched_inner_mm)),
        ("Ring thickness then", _mm(d.ring_stretched_thickness_mm)),
        ("Half-ring layers", "" if d.half_ring_layers is None else str(d.half_ring_layers)),
        ("Left for paste", _mm(d.paste_mm)),
        ("Skin affected", _area(d)),
    ]
    return [(label, words) for label, words in lines if words]


def _mm(value: float | None) -> str:
    return "" if value is None else formatting.mm(round(value, 1))


def _pair(length: float | None, width: float | None) -> str:
    if length is None or width is None:
        return ""
    if length == width:
        return f"{formatting.mm(round(length, 1))} across"
    return f"{formatting.number(round(length, 1))} \u00d7 {formatting.mm(round(width, 1))}"


def _joined(*parts: str | None) -> str:
    return ", ".join(part for part in parts if part)


def _area(d: Dimensions) -> str:
    if not d.skin_burden_mm2:
        return ""
    return f"{d.skin_burden_mm2 / 100:.1f} cm\u00b2{_share(d.skin_burden_share)}"


def _share(share: float | None) -> str:
    """Against the skin a usual barrier covers. Damage may reach beyond it: then it is larger."""
    if share is None:
        return ""
    if share > 1:
        return ", more than the skin under a 4 by 4 inch barrier"
    return f", equal to {share * 100:.0f} % of the skin under a 4 by 4 inch barrier"

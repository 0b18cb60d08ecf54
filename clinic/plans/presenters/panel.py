"""The plan in words: its cards, causes, sizes and steps, for a draft and for a signed visit."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from clinic import formatting
from clinic.plans.decided_item import Decided
from clinic.plans.decision_forms import DecisionForm, Decisions
from clinic.plans.order_lines import accepted_quantities
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.plans.presenters.sources import citations, cited
from clinic.referrals.models import Urgency
from clinic.referrals.presenters.question import question_of
from clinic.visits.models import Assessment
from planning import Plan
from planning.inputs.age import AgeGroup
from planning.results.plan import CauseOf, Dimensions, Recommendation, RedFlag, Step

CAUTION = "Supports, never replaces, a licensed clinician's judgement and local policy."

KIND_TITLES = {
    "barrier": "Barrier",
    "opening": "Opening",
    "ring": "Ring",
    "filler": "Filling",
    "skin_care": "Skin care",
    "pouch": "Pouch",
    "support": "Belt or support",
    "wear": "Wear time",
    "teach": "Teaching",
    "refer": "Refer",
    "follow_up": "Next visit",
}

CHANGE_WORDS = {"keep": "keep", "start": "start", "change": "change", "stop": "stop"}


@dataclass(frozen=True)
class Card:
    """One thing to decide on. ``form`` on a draft, ``decided`` on a signed plan. ``sends``: the
    referral's question as it will go off if accepted."""

    key: str
    title: str
    text: str
    tag: str
    because: list[dict[str, object]]
    urgency: str = ""
    do: str = ""
    sends: str = ""
    caution: str = ""
    needs: tuple[str, ...] = ()
    form: DecisionForm | None = None
    decided: Decided | None = None
    can_vary: bool = False


def signed_context(decided: DecidedPlan) -> dict[str, Any]:
    """Template context of a signed plan."""
    everything = (*decided.flags, *decided.recommendations, decided.follow_up)
    cards = [_card(decided.plan, one.key, one.text, one.item, decided=one) for one in everything]
    return {
        **plan_context(decided.counted_plan),
        "cards": cards,
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
        "skin_causes": _causes(plan, CauseOf.SKIN),
        "leak_causes": _causes(plan, CauseOf.LEAK),
        "tell_apart": plan.causes.would_tell_apart,
        "sizes": sizes(plan.dimensions),
        "steps": [step_line(step) for step in plan.steps],
        "quantities": plan.quantities,
        "notices": cited(plan.notices) if plan.made_for is AgeGroup.ADULT else [],
        "missing": cited(plan.missing),
    }


def cards_of_draft(plan: Plan, decisions: Decisions) -> list[Card]:
    """Red flags first, then the recommendations, then the next visit, each with its form."""
    return [
        _card(
            plan,
            f.decidable.key,
            f.decidable.text,
            f.decidable.source,
            form=f,
            about=decisions.assessment,
        )
        for f in decisions
    ]


def _card(
    plan: Plan,
    key: str,
    text: str,
    item: Any,
    *,
    form: DecisionForm | None = None,
    decided: Decided | None = None,
    about: Assessment | None = None,
) -> Card:
    common: dict[str, Any] = {"key": key, "text": text, "form": form, "decided": decided}
    if isinstance(item, RedFlag):
        return Card(
            title=f"Refer to {item.refer_to}",
            tag=str(Urgency(item.urgency.value).label),
            urgency=item.urgency.value,
            do=item.do,
            sends=question_of(item, about) if about else "",
            because=cited(item.because),
            **common,
        )
    if isinstance(item, Recommendation):
        needs = {need.key: need.text for need in plan.needs}
        return Card(
            title=KIND_TITLES.get(item.kind.value, item.kind.value),
            tag=CHANGE_WORDS[item.change.value],
            because=cited(item.because),
            caution=item.caution or "",
            can_vary=plan.made_for is AgeGroup.ADULT,
            needs=tuple(needs[k] for k in item.need_keys if k in needs),
            **common,
        )
    return Card(title="Next visit", tag="", because=cited(item.because), **common)


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
    share = (
        "" if d.skin_burden_share is None else f", {d.skin_burden_share:.0%} of the landing zone"
    )
    return f"{d.skin_burden_mm2 / 100:.1f} cm\u00b2{share}"

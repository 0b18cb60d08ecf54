"""A plan as the rules alone propose it, and as it is with what the clinician chose instead."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from clinic.plans.models import Choice, Decision
from planning import Alternative, Findings, Fixed, History, Plan, Refused, alternatives, recommend
from planning.fixed_choice import key_made
from planning.inputs.fixed import NoSuchChoice, fixed_of
from planning.results.plan import Recommendation

__all__ = ["Planned", "chosen_of", "key_made", "only", "same_item", "with_choices"]


@dataclass(frozen=True)
class Planned:
    """``plan`` with what was ``chosen``; ``proposed`` without. ``refused``: by key, why a choice
    on record may no longer be made. ``findings`` None: a signed plan, to which nothing is
    offered."""

    plan: Plan
    proposed: Plan
    chosen: tuple[Fixed, ...] = ()
    refused: Mapping[str, str] = field(default_factory=dict)
    findings: Findings | None = None
    history: History | None = None

    @cached_property
    def offers(self) -> Mapping[str, tuple[Alternative, ...]]:
        """What may be chosen instead, by the key of what is proposed."""
        if self.findings is None or self.history is None:
            return {}
        return alternatives(self.findings, self.history, self.chosen)


def only(plan: Plan | Planned) -> Planned:
    """A plan in which nothing was chosen instead."""
    return plan if isinstance(plan, Planned) else Planned(plan, plan)


def with_choices(proposed: Planned, decisions: Iterable[Decision]) -> Planned:
    """``proposed`` with each choice on record that was made about what it still says; what may not
    be made any more is left out and said."""
    texts = {item.key: item for item in proposed.proposed.recommendations}
    fixed = [one for one in map(chosen_of, decisions) if one is not None]
    asked = {one.key: one for one in fixed if one.key in texts}
    asked = {
        d.key: asked[d.key] for d in decisions if d.key in asked and same_item(d, texts[d.key])
    }
    refused: dict[str, str] = {}
    while asked and proposed.findings is not None and proposed.history is not None:
        try:
            plan = recommend(proposed.findings, proposed.history, tuple(asked.values()))
        except Refused as no:
            refused[no.fixed.key] = no.why
            del asked[no.fixed.key]
        else:
            return replace(proposed, plan=plan, chosen=tuple(asked.values()), refused=refused)
    return replace(proposed, refused=refused)


def chosen_of(decision: Decision) -> Fixed | None:
    """The typed choice of a decision; None where there is none, or it is in words."""
    if decision.choice != Choice.CHANGED or not decision.chosen:
        return None
    try:
        return fixed_of(decision.key, decision.chosen)
    except NoSuchChoice:
        return None


def same_item(decision: Decision, proposed: Recommendation) -> bool:
    """Whether it was decided about the words in which this is proposed now."""
    return decision.text == proposed.text

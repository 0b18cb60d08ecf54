"""A plan's items as cards: one thing to decide on each, with its reasons."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from clinic.plans.decided_item import Decided, is_kept
from clinic.plans.decision_forms import DecisionForm, Decisions
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.plans.presenters.sources import cited
from clinic.referrals.models import Urgency
from clinic.referrals.presenters.question import question_of
from clinic.visits.models import Assessment
from planning import Plan
from planning.inputs.age import AgeGroup
from planning.results.plan import Recommendation, RedFlag

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
    #: Worn and staying so: its decision is folded away.
    kept: bool = False
    #: Stage of a change, "" for what is none; ``plan_groups`` says in which group.
    stage: str = ""

    @property
    def unfolded(self) -> bool:
        """A thing kept whose decision is open to see: it was begun, made, or asked for again."""
        form = self.form
        return bool(form and not form.stands and not (form.decided and not form.errors))


def cards_of_signed(decided: DecidedPlan) -> list[Card]:
    """Red flags first, then the recommendations, then the next visit, each as decided."""
    everything = (*decided.flags, *decided.recommendations, decided.follow_up)
    return [_card(decided.plan, one.key, one.text, one.item, decided=one) for one in everything]


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
            kept=is_kept(item),
            stage=item.stage.value if item.stage else "",
            **common,
        )
    return Card(title="Next visit", tag="", because=cited(item.because), **common)

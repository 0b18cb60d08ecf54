"""A plan's items as cards: one thing to decide on each, with its reasons."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from clinic.plans.decidables import FOLLOW_UP, Decidable
from clinic.plans.decided_item import Decided, is_kept
from clinic.plans.decision_forms import DecisionForm, Decisions
from clinic.plans.models import Choice, Decision
from clinic.plans.models.decision import OWN_WORDS
from clinic.plans.names import changed_since, kept_name
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
    item: Any = None
    #: In a few words; what was proposed instead of which this was chosen, "" where nothing was.
    name: str = ""
    instead_of: str = ""
    #: Asks again by name what has changed since it was decided; why a choice no longer may be.
    again: str = ""
    refused: str = ""

    @property
    def state(self) -> str:
        """What was decided: accepted, chosen, changed (in words), dropped; "" for nothing yet."""
        if self.form is not None:
            stored = self.form.stored if self.form.decided else None
            choice = stored.choice if stored else ""
        else:
            choice = (self.decided.choice or "") if self.decided else ""
        return "chosen" if choice == Choice.CHANGED and self.instead_of else str(choice)

    @property
    def _stored(self) -> Decision | Decided | None:
        return self.decided if self.form is None else self.form.stored

    @property
    def why(self) -> str:
        """The reason that was written."""
        return self._stored.reason if self._stored else ""

    @property
    def said(self) -> str:
        """What was written instead."""
        return self._stored.changed_words if self._stored else ""

    @property
    def noted(self) -> bool:
        """It is a note in their own words."""
        if isinstance(self._stored, Decided):
            return self._stored.note
        return bool(self._stored and self._stored.chosen == OWN_WORDS)

    @property
    def exception_words(self) -> str:
        """What may be done instead of accepting it."""
        if self.key == FOLLOW_UP:
            return "Another day, or none"
        return "Another question, or no referral" if self.urgency else "Other, or not today"

    @property
    def exception(self) -> bool:
        """Decided, and not as proposed."""
        return self.state not in {"", Choice.ACCEPTED}

    @property
    def excepting(self) -> bool:
        """Something else was begun or decided: its form is open to see."""
        form = self.form
        return bool(
            form
            and (self.again or form.errors or form["choice"].value())
            and (self.exception or self.again or form.errors)
        )

    @property
    def unfolded(self) -> bool:
        """A thing kept whose decision is open to see: it was begun, made, or asked for again."""
        form = self.form
        return bool(form and not form.stands and not (form.decided and not form.errors))


def cards_of_signed(decided: DecidedPlan) -> list[Card]:
    """Red flags first, then the recommendations, then the next visit, each as decided."""
    everything = (*decided.flags, *decided.recommendations, *decided.left_off, decided.follow_up)
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


def _asked(form: DecisionForm | None) -> dict[str, Any]:
    if form is None:
        return {}
    form.offer_choices()
    about = form.decidable
    return {
        "name": kept_name(about),
        "instead_of": about.proposal.text if about.proposal else "",
        "again": changed_since(about) if form.asks_again else "",
        "refused": form.refused,
    }


def _answered(item: Any, decided: Decided | None) -> dict[str, Any]:
    if decided is None:
        return {}
    about = Decidable(decided.key, decided.text, item)
    return {"name": kept_name(about), "instead_of": decided.instead_of}


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
    common: dict[str, Any] = {
        "key": key,
        "text": text,
        "form": form,
        "decided": decided,
        "item": item,
        **_asked(form),
        **_answered(item, decided),
    }
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
            can_vary=plan.made_for is AgeGroup.ADULT and not common.get("instead_of"),
            needs=tuple(needs[k] for k in item.need_keys if k in needs),
            kept=is_kept(item),
            stage=item.stage.value if item.stage else "",
            **common,
        )
    return Card(title="Next visit", tag="", because=cited(item.because), **common)

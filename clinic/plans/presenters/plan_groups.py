"""A plan's cards in the order in which they are done: danger, now, today, what waits, what is kept,
what else, when to change, when to come back."""

from __future__ import annotations

from dataclasses import dataclass

from clinic.plans.decidables import FOLLOW_UP
from clinic.plans.presenters.cards import Card
from planning import Plan
from planning.evidence.thresholds import MOST_CHANGES
from planning.results.plan import ItemKind, NextStep, Recommendation, Stage, Urgency

DANGER, NEXT, ALSO, WHEN, BACK = "danger", "next", "also", "when", "back"
#: In their order; a group without cards is not shown.
TITLES = {
    DANGER: "Danger: who to call",
    Stage.CORRECT_NOW.value: "Correct now",
    Stage.TODAY.value: "Change today",
    NEXT: "Next, if this does not hold",
    Stage.KEEP.value: "Keep",
    ALSO: "Also",
    WHEN: "When to change",
    BACK: "Come back",
}
UNTIL_HELP = "Until help comes"
KEPT_TOGETHER = "No decision needed: signing accepts it"


@dataclass(frozen=True)
class Group:
    """``note`` says how many changes there are, or how the cards are decided on. ``steps`` wait.
    ``names``: what is kept, on the line to which it is folded."""

    key: str
    title: str
    cards: tuple[Card, ...]
    note: str = ""
    steps: tuple[NextStep, ...] = ()
    names: tuple[str, ...] = ()

    @property
    def open(self) -> bool:
        """Something kept asks for a decision after all, or was decided otherwise."""
        return any(card.unfolded or card.exception for card in self.cards)


def groups_of(plan: Plan, cards: list[Card], *, signed: bool) -> tuple[Group, ...]:
    """One group without a title for a plan made before its changes had stages."""
    if plan.fit is None:
        return (Group("", "", tuple(cards)),)
    held: dict[str, list[Card]] = {key: [] for key in TITLES}
    for card in cards:
        held[_place(card)].append(card)
    changes = next((key for key in (Stage.TODAY, Stage.CORRECT_NOW) if held[key.value]), "")
    return tuple(
        Group(
            key,
            _title(key, plan),
            tuple(found),
            _note(key, plan, changes, signed=signed),
            plan.next_steps if key == NEXT else (),
            tuple(card.name for card in found) if key == Stage.KEEP.value else (),
        )
        for key, found in held.items()
        if found or (key == NEXT and plan.next_steps) or (key == WHEN and plan.expected_wear)
    )


def _place(card: Card) -> str:
    if card.urgency:
        return DANGER
    if card.key == FOLLOW_UP:
        return BACK
    wear = isinstance(card.item, Recommendation) and card.item.kind is ItemKind.WEAR
    return card.stage or (WHEN if wear else ALSO)


def _title(key: str, plan: Plan) -> str:
    return UNTIL_HELP if key == ALSO and plan.urgency is Urgency.EMERGENCY else TITLES[key]


def _note(key: str, plan: Plan, changes: str, *, signed: bool) -> str:
    if key == changes and plan.fit is not None:
        corrects = any(item.stage is Stage.CORRECT_NOW for item in plan.recommendations)
        both = key == Stage.TODAY.value and corrects
        return count_words(plan.fit.changes, with_corrections=both)
    if key == WHEN and plan.expected_wear is not None:
        return plan.expected_wear.text
    return KEPT_TOGETHER if key == Stage.KEEP.value and not signed else ""


def count_words(changes: int, *, with_corrections: bool = False) -> str:
    """Corrections are made whatever their number, so that there may be more than the limit.

    >>> count_words(1), count_words(2, with_corrections=True), count_words(3)
    ('1 of at most 2 changes', '2 of at most 2 changes, with what is corrected', '3 changes')
    """
    most = int(MOST_CHANGES.value)
    if changes > most:
        return f"{changes} changes"
    said = f"{changes} of at most {most} changes"
    return f"{said}, with what is corrected" if with_corrections else said

"""A plan's cards in the order in which they are done: danger, now, today, kept, also."""

from __future__ import annotations

from dataclasses import dataclass

from clinic.plans.presenters.cards import Card
from planning import Plan
from planning.evidence.thresholds import MOST_CHANGES
from planning.results.plan import Stage, Urgency

DANGER, ALSO = "danger", "also"
#: In their order; a group without cards is not shown.
TITLES = {
    DANGER: "Danger: whom to ask",
    Stage.CORRECT_NOW.value: "Correct now",
    Stage.TODAY.value: "Change today",
    Stage.KEEP.value: "Keep",
    ALSO: "Also",
}
UNTIL_HELP = "Until help comes"
KEPT_TOGETHER = "Accepted together by signing. Open one to see why, or to change it."


@dataclass(frozen=True)
class Group:
    """``note`` says how many changes there are, or how the cards are decided on."""

    key: str
    title: str
    cards: tuple[Card, ...]
    note: str = ""


def groups_of(plan: Plan, cards: list[Card], *, signed: bool) -> tuple[Group, ...]:
    """One group without a title for a plan made before its changes had stages."""
    if plan.fit is None:
        return (Group("", "", tuple(cards)),)
    held: dict[str, list[Card]] = {key: [] for key in TITLES}
    for card in cards:
        held[DANGER if card.urgency else card.stage or ALSO].append(card)
    changes = next((key for key in (Stage.TODAY, Stage.CORRECT_NOW) if held[key.value]), "")
    return tuple(
        Group(key, _title(key, plan), tuple(found), _note(key, plan, changes, signed=signed))
        for key, found in held.items()
        if found
    )


def _title(key: str, plan: Plan) -> str:
    return UNTIL_HELP if key == ALSO and plan.urgency is Urgency.EMERGENCY else TITLES[key]


def _note(key: str, plan: Plan, changes: str, *, signed: bool) -> str:
    if key == changes and plan.fit is not None:
        corrects = any(item.stage is Stage.CORRECT_NOW for item in plan.recommendations)
        both = key == Stage.TODAY.value and corrects
        return count_words(plan.fit.changes, with_corrections=both)
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

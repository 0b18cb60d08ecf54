"""What is to be ordered: each quantity with the recommendations it rests on."""

from __future__ import annotations

from dataclasses import dataclass

from clinic.plans.decided_item import Decided
from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from planning import Plan
from planning.instructions.recount import by_change
from planning.results.plan import Change, ItemKind, Need, Quantity, Recommendation

#: The planner's names for the two lines that several recommendations make up together.
BARRIER, POUCH = "barrier", "pouch"


@dataclass(frozen=True)
class OrderLine:
    """One line of an order, and what was decided about what it rests on."""

    quantity: Quantity
    rests_on: tuple[Decided, ...]
    needs: tuple[Need, ...]
    #: The number of changes is not known, so neither is the amount.
    uncounted: bool = False

    @property
    def as_planned(self) -> bool:
        """All of it as planned."""
        return all(one.as_planned for one in self.rests_on)

    @property
    def dropped(self) -> bool:
        """Nothing of it is left."""
        return bool(self.rests_on) and all(one.choice == Choice.DROPPED for one in self.rests_on)

    @property
    def own_words(self) -> str:
        """What it is now, where part of it was changed or dropped; "" where it was accepted."""
        if self.as_planned:
            return ""
        left = (one for one in self.rests_on if one.choice != Choice.DROPPED)
        return "; ".join(one.changed_words or one.text for one in left)

    @property
    def reason(self) -> str:
        """Why it is needed, in one sentence: what was found, then the need it meets."""
        items = [one.item for one in self.rests_on if isinstance(one.item, Recommendation)]
        serving = [item for item in items if item.need_keys] or items[:1]
        told = list(dict.fromkeys(filter(None, (_why(item, self.needs) for item in serving))))
        return "; ".join([*told[:1], *(_within(one) for one in told[1:])]) + ("." if told else "")


def _why(item: Recommendation, needs: tuple[Need, ...]) -> str:
    found = item.because[0].text.strip().rstrip(".") if item.because else ""
    met = ", ".join(need.text.lower() for need in needs if need.key in item.need_keys)
    return f"{found} (need: {met})" if met else found


def _within(words: str) -> str:
    """As it reads after a semicolon."""
    return words[0].lower() + words[1:] if words[1:2].islower() else words


def order_lines(decided: DecidedPlan) -> tuple[OrderLine, ...]:
    """Every line of the plan's quantities, in its order, counted for the change day decided."""
    decisions = {one.key: one for one in decided.recommendations}
    wear = decided.wear_decided
    plan = decided.counted_plan
    return tuple(
        OrderLine(
            quantity=quantity,
            rests_on=tuple(
                decisions[key] for key in rests_on(quantity.supply_key, plan) if key in decisions
            ),
            needs=plan.needs,
            uncounted=wear is not None and wear.days is None and by_change(planned),
        )
        for quantity, planned in zip(plan.quantities, decided.plan.quantities, strict=True)
    )


def accepted_quantities(decided: DecidedPlan) -> tuple[Quantity, ...]:
    """Supplies until the next visit, without anything dropped or changed."""
    return tuple(line.quantity for line in order_lines(decided) if line.as_planned)


def rests_on(supply_key: str, plan: Plan) -> tuple[str, ...]:
    """Keys of the recommendations that together make up one line.

    The pouch of a one-piece system comes with its barrier, so that line rests on both.
    """
    if supply_key == POUCH:
        return _of_kind(plan, ItemKind.POUCH)
    if supply_key == BARRIER:
        pouch = _of_kind(plan, ItemKind.POUCH) if "one_piece" in plan.supplies else ()
        return (*_of_kind(plan, ItemKind.BARRIER), *pouch)
    return (supply_key,)


def _of_kind(plan: Plan, kind: ItemKind) -> tuple[str, ...]:
    """Without what has a line of its own (a night bag) and what is to be left off."""
    own_line = {quantity.supply_key for quantity in plan.quantities}
    return tuple(
        item.key
        for item in plan.recommendations
        if item.kind is kind and item.change is not Change.STOP and item.key not in own_line
    )

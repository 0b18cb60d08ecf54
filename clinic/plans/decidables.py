"""What a plan asks a decision on: each thing it says, in the words that are shown."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import sha256
from typing import Any

from clinic import formatting
from clinic.plans.planned import Planned, key_made, only
from clinic.plans.proposed_day import proposed_day
from clinic.visits.models import Assessment
from planning import Fixed, FixedKind, Plan
from planning.results.plan import Change, Recommendation

FOLLOW_UP = "follow_up"
REFERRAL = "refer:"


@dataclass(frozen=True)
class Decidable:
    """One thing to accept, change or drop. ``source`` is the plan's own item.

    ``fixed``: what the clinician chose, ``proposal`` what it takes the place of; None: as the
    plan proposes it.
    """

    key: str
    text: str
    source: Any
    fixed: Fixed | None = None
    proposal: Decidable | None = None

    @property
    def about(self) -> str:
        """Names everything that is shown of it: posted back, it says what the clinician had before
        their eyes when they decided."""
        item, code = self.source, self.fixed.code if self.fixed else ""
        shown = [self.text, code, *(str(getattr(item, name, "") or "") for name in _SHOWN)]
        return sha256("\n".join(shown).encode()).hexdigest()[:16]

    @property
    def proposed(self) -> Decidable:
        """As the plan proposes it."""
        return self.proposal or self


#: Besides its words.
_SHOWN = ("stage", "change", "caution", "urgency", "refer_to", "do")


def decidables(plan: Plan | Planned, assessment: Assessment) -> list[Decidable]:
    """Red flags, then what changes, then what is kept, then the next visit."""
    planned = only(plan)
    flags = [Decidable(f"{REFERRAL}{f.key}", f.text, f) for f in planned.plan.red_flags]
    due, again = proposed_day(planned.plan, assessment), planned.plan.follow_up
    text = f"{again.text} ({formatting.day(due.day)})"
    follow_up = Decidable(FOLLOW_UP, " ".join(filter(None, (text, due.moved))), again)
    return [*flags, *_items(planned), follow_up]


def _items(planned: Planned) -> list[Decidable]:
    """Each recommendation; what was chosen, under the key of what it takes the place of."""
    proposed = {r.key: Decidable(r.key, r.text, r) for r in own_recommendations(planned.proposed)}
    chosen = {key_made(fixed): fixed for fixed in planned.chosen}
    items = [_item(item, chosen.get(item.key), proposed) for item in _ordered(planned.plan)]
    there = {item.key for item in planned.plan.recommendations}
    for fixed in planned.chosen:
        if fixed.kind is FixedKind.NONE and fixed.key not in there:
            old = proposed[fixed.key]
            items.append(Decidable(fixed.key, f"Left off: {old.text}", old.source, fixed, old))
    return items


def _item(item: Recommendation, fixed: Fixed | None, proposed: dict[str, Decidable]) -> Decidable:
    if fixed is None:
        return Decidable(item.key, item.text, item)
    return Decidable(fixed.key, item.text, item, fixed, proposed[fixed.key])


def _ordered(plan: Plan) -> list[Recommendation]:
    return sorted(own_recommendations(plan), key=lambda item: item.change is Change.KEEP)


def own_recommendations(plan: Plan) -> list[Recommendation]:
    """Without those that only repeat a red flag: a flag is decided on once."""
    of_flags = {f"refer_{flag.key}" for flag in plan.red_flags}
    return [item for item in plan.recommendations if item.key not in of_flags]

"""What changed in the plan since the page that was sent: one line, to be read out."""

from __future__ import annotations

from typing import Final

from django.http import QueryDict

from clinic.plans.decidables import Decidable
from clinic.plans.decision_forms import Decisions
from clinic.plans.names import key_name, news_of

#: How many changes are named; the others are counted.
NAMED: Final = 2
_PREFIX: Final = "decision-"
_ABOUT: Final = "-about"


def plan_changed(data: QueryDict, decisions: Decisions) -> str:
    """``Plan changed: soft convex barrier now; 2 to decide``; "" where the page that was sent held
    the plan as it is."""
    before = _on_the_page(data)
    now = {form.decidable.key: form.decidable for form in decisions}
    new = [item for key, item in now.items() if before.get(key) != item.about]
    gone = [key for key in before if key not in now]
    if not new and not gone:
        return ""
    return f"Plan changed: {_what(new, gone)}; {to_decide(decisions)}"


def to_decide(decisions: Decisions) -> str:
    """``2 to decide``, or that there is nothing left to."""
    left = len(decisions.undecided())
    return f"{left} to decide" if left else "all decided"


def _on_the_page(data: QueryDict) -> dict[str, str]:
    return {
        name[len(_PREFIX) : -len(_ABOUT)]: data.get(name, "")
        for name in data
        if name.startswith(_PREFIX) and name.endswith(_ABOUT)
    }


def _what(new: list[Decidable], gone: list[str]) -> str:
    told = [words for item in new if (words := news_of(item))]
    left = [name for key in gone if (name := key_name(key))]
    parts = []
    if told:
        parts.append(f"{_listed(told)} now")
    if left and not told:
        parts.append(f"no more {_listed(left)}")
    return ", ".join(parts) or "another recommendation"


def _listed(names: list[str]) -> str:
    named = list(dict.fromkeys(names))
    more = len(named) - NAMED
    listed = ", ".join(named[:NAMED])
    return f"{listed} and {more} more" if more > 0 else listed

"""A red mark that stays: press one step less, the belt first (order and step: design value)."""

from __future__ import annotations

from collections.abc import Collection
from typing import Final

from planning.evidence.sources import DESIGN
from planning.evidence.thresholds import MARK_STAYS
from planning.facts.derive import Facts, Seen
from planning.results.plan import Reason
from planning.supplies.catalogue import CONVEX, FLAT
from planning.supplies.worn import Worn

_DEPTHS: Final = ("shallow", "moderate", "deep")
_ALL: Final = CONVEX | FLAT | {"concave"}
_ONE_STEP: Final = "one step less pressure today, and no more than one"
_MORE_STEPS: Final = "less pressure today; the steps between may not be worn"


def step_down(facts: Facts, worn: Worn, closed: Collection[str]) -> dict[str, Reason]:
    """What may not be worn any more, with why; empty where no such mark is recorded, or nothing
    that presses is. ``closed``: barred for other reasons. The next softer barrier that is open is
    taken: one step, or more where the steps between may not be worn either."""
    marks = facts.lasting_marks
    if not marks:
        return {}
    if "belt" in worn.others:
        return {"belt": _reason(marks[0], _ONE_STEP)}
    if not worn.barrier_certain:
        return {}
    (barrier,) = worn.possible
    first = softer = one_step_less(barrier)
    while softer is not None and softer in closed:
        softer = one_step_less(softer)
    if softer is None:
        return {}
    less = _ONE_STEP if softer == first else _MORE_STEPS
    return dict.fromkeys(_ALL - {softer}, _reason(marks[0], less))


def _reason(mark: Seen, less: str) -> Reason:
    text = f"A red mark stays for more than {MARK_STAYS.value:g} minutes: {less}."
    return Reason(text, (DESIGN,), mark.path)


def one_step_less(barrier: str) -> str | None:
    """The barrier that presses one step less; None where it does not press.

    >>> one_step_less("firm_convex_deep"), one_step_less("firm_convex_shallow")
    ('firm_convex_moderate', 'soft_convex_shallow')
    >>> one_step_less("soft_convex_shallow"), one_step_less("flat_flexible")
    ('flat_flexible', None)
    """
    if barrier == "flat_firm":
        return "flat_flexible"
    if barrier not in CONVEX:
        return None
    kind, _, depth = barrier.rpartition("_")
    step = _DEPTHS.index(depth)
    if step:
        return f"{kind}_{_DEPTHS[step - 1]}"
    return "soft_convex_shallow" if kind.startswith("firm") else "flat_flexible"

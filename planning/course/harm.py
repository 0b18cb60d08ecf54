"""Which supplies of a plan hurt: a pressure injury or a contact reaction that came after it.

Only what was not likely at the plan's own visit counts, and only supplies that the plan held and
that may have been worn when it was seen. After the time in which a plan is judged, only those that
were charted as worn. A reaction to the barrier's adhesive names no supply: all barriers share it,
and a sensitivity is charted for the person.
"""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from functools import lru_cache
from typing import Final

from planning.course.record import SignedVisit
from planning.facts.derive import Facts, derive
from planning.inputs.check import check
from planning.inputs.findings import Accessory, Findings, History
from planning.pipeline import ranked_facts_of
from planning.supplies.catalogue import CONVEX, SUPPLIES
from planning.supplies.worn import worn_now

_BARRIERS_THAT_PRESS: Final = CONVEX | {"flat_firm"}
_NONE: Final[frozenset[str]] = frozenset()


def hurt_by(
    plan: SignedVisit, later: Iterable[SignedVisit], *, until: date = date.max
) -> frozenset[str]:
    """Supplies of ``plan`` suspected of an injury seen at a ``later`` visit; ``until``: the last
    day on which the plan alone is a reason to suspect them."""
    injured, reacted = _harm(plan.findings)
    found: set[str] = set()
    for visit in later:
        now_injured, now_reacted = _harm(visit.findings)
        if visit.day > until:
            certain = _charted(visit.findings)
            now_injured, now_reacted = now_injured & certain, now_reacted & certain
        if not injured:
            found |= now_injured
        if not reacted:
            found |= now_reacted
    return plan.supplies & found


@lru_cache(maxsize=512)
def _harm(findings: Findings) -> tuple[frozenset[str], frozenset[str]]:
    """What may press (with a pressure injury) and what may irritate (with a contact reaction)."""
    if check(findings):
        return _NONE, _NONE
    situation = ranked_facts_of(findings, History())
    injured = _pressing(situation.facts) if situation.likely("pressure_injury") else _NONE
    reacted = frozenset(s.key for s in SUPPLIES.values() if situation.left_off & s.materials)
    return injured, reacted


def _charted(findings: Findings) -> frozenset[str]:
    """What was certainly worn."""
    worn = worn_now(derive(findings, History()))
    return worn.others | (worn.possible if worn.barrier_certain else _NONE)


def _pressing(facts: Facts) -> frozenset[str]:
    """Supplies that press, and may be what was worn."""
    worn = worn_now(facts)
    barriers = _BARRIERS_THAT_PRESS
    if worn.possible:
        barriers &= worn.possible
    return barriers if facts.wears(Accessory.BELT) is False else barriers | {"belt"}

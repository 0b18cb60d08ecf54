"""A sore under the belt: a simple dressing, and does it hold without the belt?"""

from __future__ import annotations

from typing import Final

from planning.causes.where_products_touch import lies_outside
from planning.evidence.sources import PRACTICE
from planning.facts.derive import BROKEN, Facts, Seen
from planning.inputs.findings import Accessory, Material, Product, SkinKind
from planning.recommendations.situations.rule import Situation
from planning.recommendations.suspected_product import blames_latex
from planning.supplies.system_choice import SystemChoice

_MARKS: Final = (*sorted(BROKEN), SkinKind.PRESSURE_MARK, SkinKind.BRUISE)


def _under_belt(facts: Facts) -> tuple[Seen, ...]:
    return tuple(
        seen
        for seen in facts.find(*_MARKS)
        if seen.finding.outline_of is Product.BELT
        or (seen.finding.outline_of is None and lies_outside(seen, facts))
    )


def _sore(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    off = facts.wears(Accessory.BELT) is True and "belt" not in chosen.supplies
    latex = blames_latex(chosen.situation) or facts.reacts_to(Material.LATEX)
    return off and bool(_under_belt(facts)) and not latex


def _words(chosen: SystemChoice) -> str:
    found = _under_belt(chosen.situation.facts)
    broken = any(seen.finding.kind in BROKEN for seen in found)
    dressing = "A simple dressing on the sore. " if broken else ""
    return f"{dressing}Watch whether the seal holds without the belt, off until the skin has healed"


ROWS: Final = (
    Situation(
        "belt_sore",
        "Dressing, and the seal watched without the belt",
        "the belt comes off, skin beyond the barrier is marked or sore under it, and latex is not "
        "the reason",
        _sore,
        _words,
        "The skin is hurt where the belt lies.",
        ("urostomy2014/belt_sore", PRACTICE),
        "Leave the belt off until the skin has healed. Tell us if it leaks without it.",
        "skin",
    ),
)

"""Which supplies may be chosen at all, and why each other one may not."""

from __future__ import annotations

from planning.evidence.sources import DESIGN, PRACTICE
from planning.inputs.findings import Material
from planning.ranked_facts import RankedFacts
from planning.results.plan import Reason
from planning.supplies.catalogue import CONVEX, FLAT, LAST_RESORT, SUPPLIES, Supply
from planning.supplies.hazards import Hazard, Stay, in_force
from planning.supplies.opening_size import judge_opening
from planning.supplies.step_down import step_down
from planning.supplies.trials import hurt, too_strong
from planning.supplies.worn import Worn

#: Why a suspected product is left off.
SUSPECTED = Reason(
    "It is suspected of harming this skin: leave it off for two or three changes and "
    "change nothing else that touches the skin but what is named here.",
    ("hightech/outline", PRACTICE),
    "skin",
)
#: The same where latex may be the cause: it is not tried again at home.
SUSPECTED_LATEX = Reason(
    "It lies where the skin reacts, and rubber latex may be the cause: it stays off, and is not "
    "tried again at home.",
    (PRACTICE, DESIGN),
    "skin",
)
#: Why what presses as much as something that injured is left out.
STEP_DOWN = Reason(
    "A barrier that presses no more than this hurt this person before: a step down is due.",
    (PRACTICE,),
)
BARRIERS = (CONVEX | FLAT) - {LAST_RESORT}


def barred(situation: RankedFacts, worn: Worn) -> dict[str, tuple[Reason, ...]]:
    """Supplies that may not be chosen, each with every reason against it."""
    active = in_force(situation)
    harmed = hurt(situation.facts.history)
    stronger = too_strong(situation.facts.history, BARRIERS)
    known = situation.facts.findings.person.sensitivities or frozenset()
    out: dict[str, tuple[Reason, ...]] = {}
    for supply in SUPPLIES.values():
        reasons = [
            active[key].reason
            for key in supply.hazards
            if key in active and not _may_stay(active[key], supply, situation, worn)
        ]
        if known:
            reasons += [_sensitised(m) for m in sorted(supply.materials & known)]
        if situation.left_off & supply.materials:
            reasons.append(SUSPECTED_LATEX if Material.LATEX in supply.materials else SUSPECTED)
        if supply.key in harmed and supply.key != LAST_RESORT:
            reasons.append(Reason("It hurt this person before.", (PRACTICE,)))
        if supply.key in stronger:
            reasons.append(STEP_DOWN)
        if reasons:
            out[supply.key] = tuple(reasons)
    for key, mark in step_down(situation.facts, worn, frozenset(out)).items():
        out[key] = (*out.get(key, ()), mark)
    return out


def _may_stay(hazard: Hazard, supply: Supply, situation: RankedFacts, worn: Worn) -> bool:
    return supply.key in worn.keys and (
        hazard.stay is Stay.ALWAYS
        or (hazard.stay is Stay.WHILE_IT_FITS and not judge_opening(situation.facts).changes)
        or (hazard.stay is Stay.WHILE_IT_WORKS and situation.facts.works is True)
    )


def _sensitised(material: Material) -> Reason:
    words = material.value.replace("_", " ")
    return Reason(f"The person reacts to {words}.", (PRACTICE,), "person.sensitivities")

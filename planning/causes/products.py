"""Which products touch the reacting skin, and which of them comes under suspicion first."""

from typing import Final

from planning.causes.rule import HINT, STRONG, Evidence
from planning.derive import Facts, Seen
from planning.distribution import Shape
from planning.findings import Accessory, Material, SkinKind
from planning.thresholds import RING_INNER, RING_OUTER

_REACTING: Final = (SkinKind.ERYTHEMA, SkinKind.EROSION, SkinKind.BLISTERS)

#: Products that lie on the skin, and what they are made of as far as reactions go.
MATERIAL_OF: Final = {
    Accessory.PROTECTANT: Material.PROTECTANT,
    Accessory.ADHESIVE_REMOVER: Material.ADHESIVE_REMOVER,
    Accessory.PASTE: Material.PASTE,
    Accessory.RING: Material.RING,
    Accessory.HALF_RING: Material.RING,
    Accessory.STRIP: Material.RING,
    Accessory.POWDER: Material.POWDER,
    Accessory.ANTIFUNGAL_POWDER: Material.POWDER,
    Accessory.BELT: Material.LATEX,
}

#: Order of suspicion under the whole barrier, and close to the stoma (design value: wet products
#: before the adhesive, which few people can do without).
_UNDER_BARRIER: Final = (Accessory.PROTECTANT, Accessory.ADHESIVE_REMOVER)
_CLOSE_IN: Final = (Accessory.PASTE, Accessory.RING, Accessory.HALF_RING, Accessory.STRIP)


def contact_findings(facts: Facts) -> tuple[Seen, ...]:
    """Reacting skin that lies all round or copies a product."""
    wide = (Shape.ALL_ROUND, Shape.BARRIER_SHAPED)
    return tuple(
        s
        for s in facts.find(*_REACTING)
        if s.finding.product_outline
        or (s.spread.shape in wide and s.finding.product_outline is None)
    )


def weigh_place(seen: tuple[Seen, ...], evidence: Evidence) -> None:
    """What its place says for any contact reaction, allergic or irritant."""
    path = seen[0].path
    evidence.speaks_for(
        any(s.finding.product_outline for s in seen),
        STRONG,
        "The sharp edge copies the outline of a product.",
        "hightech",
        at=path,
    )
    evidence.speaks_for(
        any(s.spread.shape in (Shape.ALL_ROUND, Shape.BARRIER_SHAPED) for s in seen),
        HINT,
        "It lies all round, wherever the product touches.",
        "hightech",
        at=path,
    )


def suspects(facts: Facts) -> tuple[Material, ...]:
    """Materials worn on the reacting skin, the first to leave off first; the barrier last."""
    seen = contact_findings(facts)
    if not seen or facts.findings.system is None:
        return ()
    ends = [s.finding.outer_mm for s in seen if s.finding.outer_mm is not None]
    ring_reach = (RING_OUTER.value - RING_INNER.value) / 2
    close = bool(ends) and max(ends) <= ring_reach
    order = _CLOSE_IN + _UNDER_BARRIER if close else _UNDER_BARRIER
    worn = facts.findings.system.accessories or frozenset()
    found = [MATERIAL_OF[a] for a in order if a in worn]
    return (*dict.fromkeys(found), Material.BARRIER_ADHESIVE)


def reacted_before(facts: Facts) -> bool:
    """Something worn now is among the known sensitivities."""
    known = facts.findings.person.sensitivities or frozenset()
    system = facts.findings.system
    if system is None:
        return False
    worn = {MATERIAL_OF[a] for a in system.accessories or () if a in MATERIAL_OF}
    return bool(known & (worn | {Material.BARRIER_ADHESIVE}))

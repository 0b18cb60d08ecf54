"""Which products touch the reacting skin, and which of them is left off first.

What does not touch the place stays. At one place one product is left off at once; skin beyond the
barrier, where only a belt or a garment lies, is a place of its own.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from typing import Final

from planning.causes.rule import HINT, STRONG, Evidence
from planning.causes.where_products_touch import (
    PRODUCTS,
    Place,
    Product,
    copies,
    lies_outside,
    touches,
)
from planning.facts.derive import Facts, Seen
from planning.facts.distribution import Shape
from planning.inputs.findings import Accessory, Material, SkinKind
from planning.inputs.quantities import BEGUN_DAYS

_REACTING: Final = (SkinKind.ERYTHEMA, SkinKind.EROSION, SkinKind.BLISTERS)
#: Later than any day that can be charted.
_SOME_DAY: Final = BEGUN_DAYS.highest + 1
_OUTSIDE: Final = (Place.BELT, Place.GARMENT, Place.COVER)


def contact_findings(facts: Facts) -> tuple[Seen, ...]:
    """Reacting skin all round, in the shape of a product, or under a belt or garment."""
    return tuple(s for s in facts.find(*_REACTING) if _by_contact(s, facts))


def _by_contact(seen: Seen, facts: Facts) -> bool:
    if seen.finding.outline_of is not None:
        return True
    if seen.finding.product_outline is not None:
        return seen.finding.product_outline
    wide = (Shape.ALL_ROUND, Shape.BARRIER_SHAPED)
    return seen.spread.shape in wide or bool(_outside(seen, facts))


def weigh_place(seen: tuple[Seen, ...], evidence: Evidence) -> None:
    """What its place says for any contact reaction, allergic or irritant."""
    path = seen[0].path
    evidence.speaks_for(
        any(s.finding.product_outline for s in seen),
        STRONG,
        "The sharp edge follows the outline of a product.",
        "hightech/outline",
        at=path,
    )
    evidence.speaks_for(
        any(s.spread.shape in (Shape.ALL_ROUND, Shape.BARRIER_SHAPED) for s in seen),
        HINT,
        "It lies all round, wherever the product touches.",
        "hightech/outline",
        at=path,
    )


def suspects(facts: Facts) -> tuple[Material, ...]:
    """Materials on the skin that reacts at the barrier, the first to leave off first.

    Known sensitisers go first, then what has the outline, then what was begun since the last visit,
    then the order of the table.
    """
    here = tuple(s for s in contact_findings(facts) if not _outside(s, facts))
    since = _begun(facts)
    ranked: list[tuple[tuple[bool, bool, float, int], Material]] = []
    for place, product in enumerate(PRODUCTS):
        on = [s for s in here if touches(product, s, facts)]
        if not on or product.prescribed or not _in_use(product, facts):
            continue
        outlined = [s for s in on if copies(product, s, facts)]
        if product.place is Place.BORDER and not any(s.finding.product_outline for s in outlined):
            continue  # Tape is seldom recorded: only an outline suggests it.
        known = facts.reacts_to(product.material) and product.place not in _OUTSIDE
        rank = (not known, not outlined, since(product), place)
        ranked.append((rank, product.material))
    return tuple(dict.fromkeys(material for _, material in sorted(ranked)))


def worn_outside(facts: Facts) -> frozenset[Material]:
    """What is left off because skin beyond the barrier reacts, or has weals, under a belt or
    garment."""
    reacting = (*contact_findings(facts), *facts.find(SkinKind.WEAL))
    found = (p for s in reacting for p in _outside(s, facts))
    return frozenset(product.material for product in found)


def untouched(facts: Facts) -> bool:
    """Some skin reacts as to a product, and nothing that is recorded as worn lies there."""
    worn = [p for p in PRODUCTS if p.place is not Place.BORDER and _in_use(p, facts)]
    return bool(worn) and any(
        not any(touches(p, s, facts) for p in worn) for s in contact_findings(facts)
    )


def reacted_before(facts: Facts) -> bool:
    """Something that touches the reacting skin is among the known sensitivities."""
    return any(
        facts.reacts_to(p.material) and p.place is not Place.BORDER and touches(p, s, facts)
        for p in PRODUCTS
        if _in_use(p, facts)
        for s in contact_findings(facts)
    )


def _in_use(product: Product, facts: Facts) -> bool:
    """Worn as recorded; the barrier's own materials wherever a system is recorded."""
    worn = product.worn_as
    return facts.findings.system is not None and (worn is None or facts.wears(worn) is True)


def _outside(seen: Seen, facts: Facts) -> tuple[Product, ...]:
    """Belt and garment in use, where the finding lies under them and beyond the barrier."""
    if not lies_outside(seen, facts):
        return ()
    worn = (p for p in PRODUCTS if p.place in _OUTSIDE and _in_use(p, facts))
    return tuple(p for p in worn if touches(p, seen, facts))


def _begun(facts: Facts) -> Callable[[Product], float]:
    """Days since a product was begun, the newest first. One begun on a day that is not known comes
    after those with a day; what is not known to be begun comes last."""
    system = facts.findings.system
    days = {b.product: b.days for b in (system.begun or () if system else ())}
    new = began(facts)

    def since(product: Product) -> float:
        day = days.get(product.named)
        if day is not None:
            return day
        if product.worn_as in new:
            return 0.0
        return _SOME_DAY if product.named in days else math.inf

    return since


def began(facts: Facts) -> frozenset[Accessory | None]:
    """Accessories worn now and not at the last visit; none where either was not recorded, or was
    not asked then."""
    now = facts.findings.system
    last = facts.history.previous[-1].system if facts.history.previous else None
    if now is None or last is None or now.accessories is None or last.accessories is None:
        return frozenset()
    return now.accessories - last.accessories - last.accessories_not_asked

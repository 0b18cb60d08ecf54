"""What follows from a suspected product, and where no product on record explains the skin."""

from __future__ import annotations

from collections.abc import Iterator

from planning.causes.products import untouched
from planning.evidence.sources import DESIGN, PRACTICE
from planning.inputs.findings import Material
from planning.ranked_facts import RankedFacts
from planning.results.message import Words, to_patient
from planning.results.plan import CauseOf, Change, ItemKind, Reason, Recommendation

_LATEX = Reason(
    "Belts and garments often contain rubber latex; weals within minutes to hours mean contact "
    "urticaria, and rubber latex cross-reacts with chestnut, banana and avocado.",
    ("latexfood2000/cross", DESIGN),
    "skin",
)


def contact_advice(situation: RankedFacts) -> Iterator[Recommendation]:
    """What to do about products that the skin may react to."""
    suspect = situation.suspected
    if suspect is Material.TAPE:
        yield _tip(
            "no_tape",
            "Suspected: the tape border. The same barrier without it, and no other tape on this "
            "skin; where the barrier has none, look for what else ends there",
            None,
            (Reason("The reaction is a frame at the edge of the barrier.", (PRACTICE,), "skin"),),
            ItemKind.TEACH,
        )
    if suspect is not None and suspect is not Material.LATEX:
        yield _patch_test()
    if blames_latex(situation):
        yield _tip(
            "latex_clinic",
            "Suspected: the belt or garment over this skin, and rubber latex in it. Nothing with "
            "latex, in any garment and in gloves, until an allergy clinic has looked, within 2 "
            "weeks; no test at home",
            "Do not try the belt or support belt again at home. Use nothing with latex until a "
            "doctor has checked.",
            (_LATEX,),
        )
    if untouched(situation.facts):
        yield _tip(
            "look_for_product",
            "No product recorded as worn lies where this skin reacts: look for one that does "
            "(pouch "
            "or its cover, tape, clothing, wipes) and leave that off first; the barrier stays",
            None,
            (
                Reason(
                    "A product that does not touch the place is not suspected.", (DESIGN,), "skin"
                ),
            ),
            ItemKind.TEACH,
        )


def blames_latex(situation: RankedFacts) -> bool:
    """Belt or garment is suspected, and no pressure explains the skin under it better."""
    skin = [cause.key for cause in situation.causes.causes if cause.of is CauseOf.SKIN]
    return Material.LATEX in situation.left_off and skin[:1] != ["pressure_injury"]


def suspects_of(situation: RankedFacts) -> tuple[Material, ...]:
    """Every material suspected of a reaction, the one at the barrier first."""
    found = situation.left_off
    if not blames_latex(situation):
        found -= {Material.LATEX}
    return tuple(sorted(found, key=lambda one: (one is not situation.suspected, one.value)))


def _patch_test() -> Recommendation:
    reason = Reason(
        "The reaction lies where this product lies.", ("hightech/outline", PRACTICE), "skin"
    )
    patch = Reason(
        "Only a patch test with the person's own products can tell allergy from irritation.",
        ("contactderm/patch_test", "landis2012/patch_test"),
    )
    return _tip(
        "patch_test",
        "If it returns on re-exposure: dermatology, patch test with the person's own products; "
        "never test at home after a severe reaction",
        None,
        (reason, patch),
    )


def _tip(
    key: str,
    text: str,
    patient_text: Words | None,
    because: tuple[Reason, ...],
    kind: ItemKind = ItemKind.REFER,
) -> Recommendation:
    return Recommendation(key, kind, Change.START, text, because, (), to_patient(patient_text))

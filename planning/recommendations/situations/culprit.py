"""A suspected product: not proven, kept out of later steps, and what the record says."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from planning.evidence.sources import PRACTICE
from planning.facts.derive import BROKEN
from planning.inputs.findings import Material, SkinKind
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice

#: In words; tape, latex and the pouch cover have advice of their own.
_NAMES: Final[Mapping[Material, str]] = {
    Material.BARRIER_ADHESIVE: "barrier of this material",
    Material.PROTECTANT: "protectant film",
    Material.PASTE: "paste",
    Material.POWDER: "powder",
    Material.RING: "ring or strip",
    Material.ADHESIVE_REMOVER: "adhesive remover",
    Material.TAPE: "tape",
}
#: What lies flat on itching skin, where a prescriber may help.
_ITCHES: Final = (Material.BARRIER_ADHESIVE, Material.TAPE)


def _suspected(chosen: SystemChoice) -> bool:
    suspect = chosen.situation.suspected
    return suspect in _NAMES and suspect is not Material.TAPE


def _name(chosen: SystemChoice) -> str:
    suspect = chosen.situation.suspected
    return "" if suspect is None else _NAMES[suspect]


def _suspected_words(chosen: SystemChoice) -> str:
    return (
        f"Suspected: {_name(chosen)}, not proven; it stays out of every later step. An irritant "
        "sting and an allergy cannot be told apart yet"
    )


def _again(chosen: SystemChoice) -> bool:
    suspect = chosen.situation.suspected
    if suspect is None or suspect not in _NAMES:
        return False
    return chosen.situation.facts.reacts_to(suspect)


def _again_words(chosen: SystemChoice) -> str:
    return (
        f"No {_name(chosen)}, over powder either: a reaction before is on record. Record this time "
        "too, so that it is there twice"
    )


def _itches(chosen: SystemChoice) -> bool:
    situation = chosen.situation
    itch = any(seen.finding.itch for seen in situation.facts.damaged)
    other = situation.likely("yeast", "pyoderma", "infection")
    return situation.suspected in _ITCHES and itch and not other and not _open(chosen)


def _open(chosen: SystemChoice) -> bool:
    """Raw or wet: more than papules or closed blisters."""
    facts = chosen.situation.facts
    raw = facts.find(*(BROKEN - {SkinKind.BLISTERS}))
    return bool(raw) or any(seen.finding.moist for seen in facts.damaged)


def _cover(chosen: SystemChoice) -> bool:
    return Material.POUCH_COVER in chosen.situation.left_off


ROWS: Final = (
    Situation(
        "suspected_product",
        "Suspected, not proven; kept out of later steps",
        "a product at the barrier other than its tape border is suspected",
        _suspected,
        _suspected_words,
        "The reaction lies where this product lies.",
        ("hightech/outline", PRACTICE),
        at="skin",
    ),
    Situation(
        "reacted_before",
        "A reaction that was recorded before",
        "the suspected product is among the known sensitivities",
        _again,
        _again_words,
        "The same product is on record as a sensitivity.",
        (PRACTICE,),
        "You reacted to the same thing before. Do not use it again.",
        "person.sensitivities",
    ),
    Situation(
        "itch_lotion",
        "A steroid that is not greasy, for the itch",
        "barrier material or tape border is suspected and the skin itches, neither raw nor wet",
        _itches,
        "whether a steroid that is not greasy helps the itch for now",
        "It itches where the product lies.",
        ("lyon2000steroid/lotion", PRACTICE),
        at="skin",
        who="Prescriber",
        within=Urgency.TWO_WEEKS,
    ),
    Situation(
        "suspected_cover",
        "The pouch cover, or sweat under the pouch",
        "skin beyond the barrier reacts in the outline of the pouch cover",
        _cover,
        "Suspected: the pouch cover, not proven; leave it off, or use a plain one washed without "
        "scent. The rival cause is sweat under bare plastic, which would have no cover's outline",
        "The reaction lies where the cover lies.",
        ("agarwal2010/pouch_material", PRACTICE),
        "Leave this cover off, or use a plain one washed without scent.",
        "skin",
    ),
)

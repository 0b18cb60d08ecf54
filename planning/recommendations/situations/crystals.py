"""Crystals and thick skin at a urostomy."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.inputs.findings import Condition, Medicine, SkinKind, StomaKind, UrineSign
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice

_LIMITED: Final = (Condition.KIDNEY_DISEASE, Condition.HEART_FAILURE)


def _crystals(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    signs = facts.findings.output.urine_signs or frozenset()
    urine = facts.kind is StomaKind.UROSTOMY
    return urine and (UrineSign.CRYSTALS in signs or bool(facts.find(SkinKind.WARTY)))


def _fresh(chosen: SystemChoice) -> str:
    ph = chosen.situation.facts.findings.output.urine_ph
    known = "" if ph is None else f" (today {ph:g})"
    return (
        f"Acidity from a fresh drop off the stoma{known}, never from the pouch; where infection is "
        "asked about, a fresh sample from the stoma"
    )


def _drinks(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    return _crystals(chosen) and not any(facts.has(limit) for limit in _LIMITED)


def _thick(chosen: SystemChoice) -> bool:
    return bool(chosen.situation.facts.find(SkinKind.WARTY))


def _thinned(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    takes = facts.findings.person.takes(Medicine.ANTICOAGULANT)
    thinned = takes or facts.has(Condition.ANTICOAGULANT)
    return facts.kind is StomaKind.UROSTOMY and thinned is True


ROWS: Final = (
    Situation(
        "fresh_urine",
        "Acidity and sample from the stoma itself",
        "a urostomy has crystals or warty skin",
        _crystals,
        _fresh,
        "Urine in the pouch says nothing about acidity or infection.",
        ("urostomynz/pouch_sample", PRACTICE),
        at="output.urine_ph",
    ),
    Situation(
        "drink_against_crystals",
        "Drink more, unless limited",
        "a urostomy has crystals or warty skin and neither kidney nor heart disease is on record",
        _drinks,
        "Drink more, unless a limit is set",
        "Crystals come from thick, alkaline urine.",
        (PRACTICE,),
        "Drink well, unless a doctor set you a limit.",
        "output.urine_signs",
    ),
    Situation(
        "thick_skin_biopsy",
        "A biopsy if thick skin stays",
        "there is warty skin",
        _thick,
        "If it does not flatten in 6 to 8 weeks of a good fit: surgeon within 2 weeks, for a "
        "biopsy",
        "Warty skin should flatten once it is covered.",
        (DESIGN,),
        at="skin",
    ),
    Situation(
        "no_cranberry",
        "No cranberry with an anticoagulant",
        "somebody with a urostomy takes an anticoagulant",
        _thinned,
        "No cranberry with an anticoagulant such as warfarin",
        "A urostomy, and an anticoagulant is taken.",
        ("urostomytips/cranberry", DESIGN),
        "Do not take cranberry: it does not go with your blood thinner.",
        "person.medicines",
    ),
)

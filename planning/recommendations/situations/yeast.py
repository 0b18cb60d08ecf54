"""Yeast: dry skin, shorter wear, and the glucose where there is diabetes."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.evidence.thresholds import FOLLOW_YEAST
from planning.inputs.findings import Condition, SkinKind
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice

_FEW_CHANGES: Final = (Condition.RADIOTHERAPY_NOW, Condition.LAST_WEEKS_OF_LIFE)


def _likely(chosen: SystemChoice) -> bool:
    return chosen.situation.likely("yeast")


def _here(chosen: SystemChoice) -> bool:
    return _likely(chosen) and not _beyond(chosen)


def _beyond(chosen: SystemChoice) -> bool:
    """All of it lies where no barrier does: under the pouch or in a fold."""
    facts = chosen.situation.facts
    seen = facts.find(SkinKind.SATELLITES)
    return _likely(chosen) and not any(facts.under_barrier(one) for one in seen)


def _diabetes(chosen: SystemChoice) -> bool:
    return _likely(chosen) and chosen.situation.facts.has(Condition.DIABETES) is True


def _words(chosen: SystemChoice) -> str:
    """Shorter wear only where nothing asks for as few changes as the seal allows."""
    situation = chosen.situation
    few = any(situation.facts.has(one) for one in _FEW_CHANGES) or situation.likely("stripping")
    shorter = "" if few else "shorter wear until it has settled, and "
    again = f"looked at again after {FOLLOW_YEAST.value:g} days"
    return f"Dry well before each barrier; {shorter}{again}"


ROWS: Final = (
    Situation(
        "yeast_dry",
        "Dry well, shorter wear",
        "yeast is likely under the barrier; without the shorter wear where few changes matter more",
        _here,
        _words,
        "Yeast grows where it stays moist.",
        (PRACTICE,),
        "Dry the skin well before each new barrier.",
        "skin",
    ),
    Situation(
        "yeast_beyond",
        "Dry well, a cloth between pouch and skin",
        "yeast is likely beyond the barrier alone",
        _beyond,
        f"Dry well, with a cloth between pouch and skin; the barrier and its day stay. Looked at "
        f"again after {FOLLOW_YEAST.value:g} days",
        "Yeast grows where it stays moist; no barrier lies there.",
        (PRACTICE,),
        "Dry the fold well. Lay a thin cloth between pouch and skin.",
        "skin",
    ),
    Situation(
        "yeast_glucose",
        "Glucose mentioned to the prescriber",
        "yeast is likely in somebody with diabetes",
        _diabetes,
        "Mention blood glucose to the prescriber too",
        "Diabetes, and yeast is likely.",
        (PRACTICE,),
        at="person.has",
    ),
)

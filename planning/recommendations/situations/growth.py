"""A lump, a pigmented spot, a doubtful ulcer: pictured to scale, and peeled over gently."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.facts.harmless import harmless
from planning.inputs.findings import SkinKind
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice


def _seen(chosen: SystemChoice) -> bool:
    found = chosen.situation.facts.find(SkinKind.HARD_LUMP, SkinKind.PIGMENTED_SPOT)
    return any(not harmless(seen.finding) for seen in found)


def _doubtful_ulcer(chosen: SystemChoice) -> bool:
    return chosen.situation.flagged("pyoderma")


ROWS: Final = (
    Situation(
        "photo_to_scale",
        "Photo with a scale, size and hour; gentle removal",
        "there is a hard lump, or a pigmented spot that changes or whose change is not known",
        _seen,
        "Photo with a scale beside it, its size and hour on record; gentle removal over it",
        "The person who judges it needs to see whether it grows.",
        (PRACTICE,),
        "Peel slowly over the lump or spot, and do not rub it.",
        "skin",
    ),
    Situation(
        "photo_of_ulcer",
        "Photo of the ulcer with a scale, size and hour",
        "pyoderma must be thought of",
        _doubtful_ulcer,
        "Photo with a scale beside it, its size and hour on record, and whether it grows",
        "The person who judges it needs to see how fast it grows.",
        (PRACTICE,),
        at="skin",
    ),
)

"""Healed pyoderma under convexity that has been worn since: kept, with a rule when to stop."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import MEMORY
from planning.inputs.findings import Baseline, BaselineKind
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice


def _agreed(chosen: SystemChoice) -> Baseline | None:
    return chosen.situation.facts.history.baseline(BaselineKind.HEALED_PYODERMA)


def _healed(chosen: SystemChoice) -> bool:
    pressed = chosen.convex or "belt" in chosen.supplies
    open_ = chosen.situation.likely("pyoderma") or chosen.situation.flagged("pyoderma")
    return _agreed(chosen) is not None and pressed and not open_


def _words(chosen: SystemChoice) -> str:
    agreed = _agreed(chosen)
    whom = "" if agreed is None else agreed.agreed_by
    return (
        f"Healed pyoderma on record (agreed by: {whom}): what is worn is kept, never "
        "deeper, and no belt is begun. At the first sore or mark that stays, the pressure comes off"
    )


ROWS: Final = (
    Situation(
        "healed_pyoderma",
        "Healed pyoderma: kept, with a stop rule",
        "healed pyoderma is on record as known and convexity or a belt is worn",
        _healed,
        _words,
        "Healed pyoderma is known and accepted here.",
        (MEMORY,),
        "Call us at the first sore spot, or a mark that stays.",
        "skin",
    ),
)

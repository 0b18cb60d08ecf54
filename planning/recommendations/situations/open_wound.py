"""An open wound near the stoma: dressed apart, each changed without the other."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Material
from planning.recommendations.situations.rule import Situation, asked_sooner
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice


def _wound(chosen: SystemChoice) -> bool:
    return bool(chosen.situation.facts.findings.wounds)


def _within_days(chosen: SystemChoice) -> bool:
    """Where no flag asks for it sooner."""
    sooner = (asked_sooner(chosen, flag, Urgency.DAYS) for flag in ("wound", "wound_leaks"))
    return _wound(chosen) and not any(sooner)


def _apart(chosen: SystemChoice) -> str:
    """Without the strip where the person may not have its material."""
    strip = "" if chosen.situation.keeps_off(Material.RING) else "strip or "
    return (
        f"Dress the wound first, sealed against stool; a {strip}thin sheet bridges the skin "
        "between, and the barrier is trimmed or offset. Each can be changed without the other"
    )


ROWS: Final = (
    Situation(
        "wound_apart",
        "The wound is dressed apart",
        "an open wound lies near the stoma",
        _wound,
        _apart,
        "An open wound lies near the stoma.",
        (PRACTICE,),
        "Keep the wound dressing and the pouch apart. You can change one without the other.",
        "wounds",
        names=("strip",),
    ),
    Situation(
        "wound_team",
        "Surgeon or wound team",
        "an open wound lies near the stoma and nothing asks for them sooner",
        _within_days,
        "size, depth, distance and who dresses it; the same day with pus, fever or a parting edge",
        "An open wound lies near the stoma.",
        (PRACTICE,),
        at="wounds",
        who="Surgeon or wound team",
        within=Urgency.DAYS,
    ),
)

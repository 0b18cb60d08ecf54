"""An open wound near the stoma: dressed apart, each changed without the other."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice


def _wound(chosen: SystemChoice) -> bool:
    return bool(chosen.situation.facts.findings.wounds)


ROWS: Final = (
    Situation(
        "wound_apart",
        "The wound is dressed apart",
        "an open wound lies near the stoma",
        _wound,
        "Dress the wound first, sealed against stool; a strip or thin sheet bridges the skin "
        "between, and the barrier is trimmed or offset. Each can be changed without the other",
        "An open wound lies near the stoma.",
        (PRACTICE,),
        "Keep the wound dressing and the pouch apart. You can change one without the other.",
        "wounds",
    ),
    Situation(
        "wound_team",
        "Surgeon or wound team",
        "an open wound lies near the stoma",
        _wound,
        "size, depth, distance and who dresses it; the same day with pus, fever or a parting edge",
        "An open wound lies near the stoma.",
        (PRACTICE,),
        at="wounds",
        who="Surgeon or wound team",
        within=Urgency.DAYS,
    ),
)

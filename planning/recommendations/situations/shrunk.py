"""An opening that became too wide: why."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN
from planning.recommendations.situations.pregnancy import pregnant
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice


def _smaller(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    system = facts.findings.system
    worn = None if system is None else system.opening_length_mm
    wanted = chosen.sizes.opening_length_mm
    if worn is None or wanted is None or pregnant(facts):
        return False
    return chosen.opening.changes and wanted < worn


ROWS: Final = (
    Situation(
        "stoma_shrank",
        "Why the opening is too wide",
        "the opening in use is changed for a smaller one",
        _smaller,
        "Say why: a stoma shrinks for 6 to 8 weeks after surgery, and an opening cut then stays "
        "too wide",
        "The opening in use is wider than the stoma needs.",
        ("mskcc/shrinks", DESIGN),
        "A stoma shrinks after surgery. The hole you use is too wide for it now.",
        "system.opening_length_mm",
    ),
)

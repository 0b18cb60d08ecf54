"""A low stoma that has stayed dry: the number is recorded, and changes nothing."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.facts.height import Height
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice


def low_and_dry(chosen: SystemChoice) -> bool:
    """All kept, though it lies at or below the skin."""
    low = chosen.situation.facts.height in (Height.RETRACTED, Height.FLUSH)
    return chosen.kept and low


def _words(chosen: SystemChoice) -> str:
    height = chosen.situation.facts.findings.measurement.protrusion_mm
    return (
        f"Height {height:g} mm, on record. It seals and the skin is sound: nothing is changed "
        "because of the number"
    )


ROWS: Final = (
    Situation(
        "low_and_dry",
        "Low, dry, and why nothing changes",
        "a flush or retracted stoma is well sealed and all is kept",
        low_and_dry,
        _words,
        "No leak was found and the skin is sound.",
        ("hoeflok2017/seal_problem", PRACTICE),
        "Your stoma lies low, and what you wear seals well. That is why nothing changes.",
        "measurement.protrusion_mm",
    ),
)

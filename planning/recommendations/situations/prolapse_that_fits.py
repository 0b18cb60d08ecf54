"""A known prolapse with a system that fits: the opening passes the widest part."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice


def fitting_prolapse(chosen: SystemChoice) -> bool:
    """Prolapsed, and all is kept."""
    return chosen.kept and bool(chosen.situation.facts.prolapsed)


def _words(chosen: SystemChoice) -> str:
    findings = chosen.situation.facts.findings
    system, widest = findings.system, findings.measurement.widest_mm
    across = () if system is None else (system.opening_length_mm, system.opening_width_mm)
    known = [mm for mm in across if mm is not None]
    if widest is not None and known and min(known) >= widest:
        passes = f"The opening in use passes the widest part ({widest:g} mm)"
    else:
        passes = "Measure the widest part, and check that the opening passes it"
    return f"{passes}. Warn of: dark, hard, painful, stuck, no output"


ROWS: Final = (
    Situation(
        "prolapse_fits",
        "The opening passes the widest part; what to warn of",
        "a known prolapse is well sealed and all is kept",
        fitting_prolapse,
        _words,
        "A prolapse that works is kept as it is.",
        ("cambridgeprolapse/signs", PRACTICE, DESIGN),
        "Call us at once if it turns dark or hard, hurts, stays out or gives nothing.",
        "measurement.prolapse",
    ),
)

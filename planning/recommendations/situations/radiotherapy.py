"""Radiotherapy now: the team decides what touches the skin."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Condition
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice


def _now(chosen: SystemChoice) -> bool:
    return chosen.situation.facts.has(Condition.RADIOTHERAPY_NOW) is True


_WHY: Final = "Radiotherapy goes on now."
ROWS: Final = (
    Situation(
        "radiotherapy_skin",
        "Water only, marks kept, fewest changes",
        "radiotherapy of the belly goes on now",
        _now,
        "Water only, no rubbing, no heat, the marks of the field kept; as few changes as the seal "
        "allows",
        _WHY,
        (PRACTICE,),
        "Wash with water only and do not rub. Keep the marks on your skin.",
        "person.has",
    ),
    Situation(
        "radiotherapy_team",
        "The radiotherapy team is asked",
        "radiotherapy of the belly goes on now",
        _now,
        "whether the pouch comes off for treatment, and what may be put on this skin",
        _WHY,
        (PRACTICE,),
        "Ask whether the pouch comes off for treatment.",
        "person.has",
        who="Radiotherapy team",
        within=Urgency.DAYS,
    ),
)

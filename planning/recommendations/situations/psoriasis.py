"""Psoriasis under the barrier: a lotion for a limited time, never anything greasy."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN
from planning.inputs.findings import Condition
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice


def _plaques(chosen: SystemChoice) -> bool:
    situation = chosen.situation
    known = situation.facts.has(Condition.PSORIASIS_OR_ECZEMA) is True
    treated = situation.facts.has(Condition.RADIOTHERAPY_NOW) is True
    return known and situation.likely("dermatosis") and not treated


ROWS: Final = (
    Situation(
        "psoriasis_lotion",
        "A lotion for a limited time",
        "psoriasis or eczema is on record and a separate skin disease is likely",
        _plaques,
        "a lotion that is not greasy, for a limited time, then looked at again; dermatology if no "
        "better. Peel gently, no tape; a thicker hydrocolloid barrier may help later, as a step of "
        "its own",
        "Psoriasis or eczema is on record, and the patch looks like it.",
        ("psoriasis2017/treated", "lyon2000steroid/lotion", DESIGN),
        "Peel slowly, and use no tape on the patch.",
        "person.has",
        who="Prescriber",
        within=Urgency.TWO_WEEKS,
    ),
)

"""Dementia and carers: what is behind the pulling, and one routine for all hands."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.facts.derive import Facts
from planning.inputs.findings import Circumstance, Condition, Symptom
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice


def pulled_or_restless(facts: Facts) -> bool:
    """With dementia: barriers pulled off, or restless today."""
    worn = facts.findings.wear or ()
    pulled = any(episode.circumstance is Circumstance.PULLED_OFF for episode in worn)
    known = facts.has(Condition.DEMENTIA) is True
    return known and (pulled or facts.feels(Symptom.RESTLESS))


def _looked_for(chosen: SystemChoice) -> bool:
    return pulled_or_restless(chosen.situation.facts)


def _carers(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    return facts.has(Condition.DEMENTIA) is True and not chosen.kept


ROWS: Final = (
    Situation(
        "behind_restlessness",
        "What is behind the restlessness",
        "somebody with dementia pulls the pouch off or is restless",
        _looked_for,
        "Look for a full pouch, sore or itching skin, pain, new carers and infection; take "
        "temperature and pulse, and ask about drinking. The same day if drowsy, hot or not "
        "drinking",
        "Dementia, and pulled off or newly restless.",
        (PRACTICE, DESIGN),
        "For the carers: see whether the pouch is full, the skin sore or itchy, or something "
        "hurts. Call the same day if you see drowsiness, fever or too little drinking.",
        "output.present",
    ),
    Situation(
        "one_routine",
        "One routine in pictures for all carers",
        "somebody has dementia and the system is not simply kept",
        _carers,
        "One routine in pictures for all carers, no needless changes, clothing that covers the "
        "pouch. A carer named and taught back, with a sheet of their own and the night number",
        "Dementia: small steps, always the same, are easier.",
        ("dementiauk/small_steps", PRACTICE),
        "For the carers: follow the same pictures each time. Choose clothes that cover the pouch.",
        "person.has",
    ),
)

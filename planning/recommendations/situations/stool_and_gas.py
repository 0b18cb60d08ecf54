"""Thick stool and trapped gas: medicines named, the pouch vented and never pinned."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Medicine, Symptom
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice

_HARDENS: Final[Mapping[Medicine, str]] = {
    Medicine.OPIOID: "opioid",
    Medicine.IRON: "iron",
    Medicine.ANTICHOLINERGIC: "anticholinergic",
}


def _taken(chosen: SystemChoice) -> tuple[str, ...]:
    medicines = chosen.situation.facts.findings.person.medicines or frozenset()
    return tuple(name for medicine, name in _HARDENS.items() if medicine in medicines)


def _hardened(chosen: SystemChoice) -> bool:
    thick = chosen.situation.facts.feels(Symptom.THICK_STICKING_STOOL)
    return thick and bool(_taken(chosen))


def _names(chosen: SystemChoice) -> str:
    return f"name what is taken and hardens stool: {', '.join(_taken(chosen))}"


def _balloons(chosen: SystemChoice) -> bool:
    return chosen.situation.facts.feels(Symptom.BALLOONING)


def _opens(chosen: SystemChoice) -> bool:
    return _balloons(chosen) and "closed" not in chosen.supplies


def _closed(chosen: SystemChoice) -> bool:
    return _balloons(chosen) and "closed" in chosen.supplies


ROWS: Final = (
    Situation(
        "hardening_medicines",
        "Medicines that harden stool are named",
        "stool is thick and sticks, and an opioid, iron or an anticholinergic is taken",
        _hardened,
        _names,
        "Thick stool, and a medicine that hardens it.",
        (PRACTICE,),
        at="person.medicines",
        who="Prescriber",
        within=Urgency.ROUTINE,
    ),
    Situation(
        "ballooning",
        "Gas: filter, food, vented and never pinned",
        "the pouch blows up with gas and can be opened, or it is not known",
        _opens,
        "Look whether the filter is wet or covered, and ask about food that makes gas; vent at the "
        "outlet or coupling, never pin the pouch",
        "The pouch blows up.",
        (PRACTICE,),
        "Let gas out where the pouch opens. Never make a hole in it.",
        "output.present",
    ),
    Situation(
        "ballooning_closed",
        "Gas in a closed pouch: filter, food, changed and never pinned",
        "a closed pouch blows up with gas",
        _closed,
        "Look whether the filter is wet or covered, and ask about food that makes gas; vent at a "
        "coupling or change the pouch, never pin it",
        "The closed pouch blows up.",
        (PRACTICE,),
        "Change the pouch when it is full of gas. Never make a hole in it.",
        "output.present",
    ),
)

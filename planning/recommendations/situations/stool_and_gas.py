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
        "the pouch blows up with gas",
        _balloons,
        "Look whether the filter is wet or covered, and ask about food that makes gas; vent at the "
        "outlet or coupling, never pin the pouch",
        "The pouch blows up.",
        (PRACTICE,),
        "Let gas out where the pouch opens. Never make a hole in it.",
        "output.present",
    ),
)

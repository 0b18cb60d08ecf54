"""An ulcer and nicorandil: named, and decided by those who prescribe it."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Medicine, SkinKind
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice

_ULCERS: Final = (SkinKind.ULCER, SkinKind.UNDERMINED_ULCER)


def _taken(chosen: SystemChoice) -> bool | None:
    facts = chosen.situation.facts
    return facts.findings.person.takes(Medicine.NICORANDIL) if facts.find(*_ULCERS) else False


def _named(chosen: SystemChoice) -> bool:
    return _taken(chosen) is True


def _not_known(chosen: SystemChoice) -> bool:
    return _taken(chosen) is None


ROWS: Final = (
    Situation(
        "nicorandil",
        "Nicorandil named to prescriber and cardiology",
        "there is an ulcer and nicorandil is taken",
        _named,
        "nicorandil can cause such ulcers, and whether it goes on is theirs to decide. Until then, "
        "a dressing that does not stick",
        "An ulcer, and nicorandil is taken: of 21 such cases 18 lay beside a stoma.",
        ("nicorandil2012/ulcers", PRACTICE),
        "One of your heart medicines can cause such sores: your doctors decide about it. Do not "
        "stop it yourself.",
        "person.medicines",
        who="Prescriber and cardiology",
        within=Urgency.DAYS,
    ),
    Situation(
        "nicorandil_asked",
        "Nicorandil asked about",
        "there is an ulcer and the list of medicines is not known",
        _not_known,
        "Ask whether nicorandil is taken: it can cause such ulcers",
        "An ulcer, and the list of medicines is not known.",
        ("nicorandil2012/ulcers", PRACTICE),
        at="person.medicines",
    ),
)

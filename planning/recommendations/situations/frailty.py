"""Frail people: thin skin, and a weight that tells early."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.inputs.findings import Condition
from planning.recommendations.change_time import melts_early
from planning.recommendations.situations.last_weeks import last_weeks
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice


def _frail(chosen: SystemChoice) -> bool:
    return chosen.situation.facts.has(Condition.FRAIL) is True


def _thin(chosen: SystemChoice) -> bool:
    return _frail(chosen) and not chosen.kept and "tape" not in chosen.supplies


def _gently(chosen: SystemChoice) -> str:
    remover = ", with the remover" if "adhesive_remover" in chosen.supplies else ""
    short = chosen.situation.likely("yeast") or melts_early(chosen)
    longest = "" if short else ", and the longest wear that is safe"
    return f"Thin skin: peel slowly{remover}; no extra tape{longest}"


def _weighed(chosen: SystemChoice) -> bool:
    return _frail(chosen) and not last_weeks(chosen.situation.facts)


ROWS: Final = (
    Situation(
        "thin_skin",
        "Thin skin: no extra tape, longest safe wear",
        "somebody is frail, the system is not simply kept and no tape is part of it",
        _thin,
        _gently,
        "Frail: the skin is thin.",
        (PRACTICE, DESIGN),
        "Put no extra tape on your skin.",
        "person.has",
    ),
    Situation(
        "frail_weight",
        "Weight at each visit",
        "somebody is frail, not in the last weeks of life",
        _weighed,
        "Weigh at each visit",
        "Frail: dehydration shows late.",
        (DESIGN,),
        at="person.has",
    ),
)

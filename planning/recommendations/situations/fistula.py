"""A fistula beside the stoma: counted apart, and both teams asked."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.inputs.findings import SkinKind
from planning.recommendations.situations.rule import Situation, asked_sooner
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice


def _fistula(chosen: SystemChoice) -> bool:
    return bool(chosen.situation.facts.find(SkinKind.FISTULA))


def _within_days(chosen: SystemChoice) -> bool:
    """Where no flag asks for it sooner."""
    return _fistula(chosen) and not asked_sooner(chosen, "fistula", Urgency.DAYS)


ROWS: Final = (
    Situation(
        "fistula_volume",
        "The fistula's output is counted",
        "a fistula lies beside the stoma",
        _fistula,
        "Count the volume of the fistula apart from the stoma's, in mL a day; fever or belly pain: "
        "the same day",
        "A second opening gives output of its own.",
        (PRACTICE, DESIGN),
        at="skin",
    ),
    Situation(
        "fistula_teams",
        "Surgeon and gastroenterology",
        "a fistula lies beside the stoma and nothing asks for them sooner",
        _within_days,
        "where it comes from, and what the bowel disease needs",
        "A second opening beside the stoma may come from active bowel disease.",
        (DESIGN,),
        at="skin",
        who="Surgeon and gastroenterology",
        within=Urgency.DAYS,
    ),
)

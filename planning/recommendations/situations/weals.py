"""Weals soon after contact: what lies there comes off, and nothing is tried again at home."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN
from planning.inputs.findings import SkinKind
from planning.recommendations.situations.rule import Situation
from planning.recommendations.suspected_product import blames_latex
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice


def _weals(chosen: SystemChoice) -> bool:
    """Where the belt or garment is to blame, the advice about latex says it."""
    situation = chosen.situation
    return bool(situation.facts.find(SkinKind.WEAL)) and not blames_latex(situation)


ROWS: Final = (
    Situation(
        "weals",
        "Weals: contact urticaria, not dermatitis",
        "there are weals, and no belt or garment lies over them",
        _weals,
        "weals soon after contact are urticaria, not dermatitis: what lies where they are is left "
        "off, gloves count, and no test at home. Swollen lips, wheeze or faintness: emergency",
        "Weals were seen.",
        (DESIGN,),
        "Leave off what lies where the itchy swellings are. Do not try it again at home.",
        "skin",
        who="Allergy clinic",
        within=Urgency.TWO_WEEKS,
    ),
)

"""A bulge: measured again when it grows; a garment is for a trained fitter, another day."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.inputs.findings import Accessory, Material
from planning.recommendations.bulge_support import may_follow
from planning.recommendations.situations.last_weeks import last_weeks
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice


def _bulges(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    return bool(facts.bulging) and not last_weeks(facts)


def _another_day(chosen: SystemChoice) -> bool:
    worn = chosen.situation.facts.wears(Accessory.SUPPORT_GARMENT) is True
    turn = chosen.step is not None and chosen.step.key == "garment"
    changed = bool(chosen.corrections | chosen.today)
    later = changed and not worn and not turn
    return _bulges(chosen) and later and may_follow(chosen.situation)


def _later(chosen: SystemChoice) -> str:
    free = "latex-free " if chosen.situation.keeps_off(Material.LATEX) else ""
    return (
        f"A {free}support garment is a step for another day, once the skin is whole: measured and "
        "fitted by a trained fitter"
    )


ROWS: Final = (
    Situation(
        "bulge_grows",
        "Measured again when it grows",
        "there is a bulge",
        _bulges,
        "Measure the bulge again when it grows",
        "A bulge beside the stoma may grow.",
        (PRACTICE, DESIGN),
        "Tell us if the bulge grows, so that we can measure it again.",
        "abdomen.bulges",
    ),
    Situation(
        "garment_later",
        "A garment another day, by a trained fitter",
        "there is a bulge, something else is changed today, no garment is worn and nothing bars "
        "one for good",
        _another_day,
        _later,
        "One thing at a time.",
        (PRACTICE, DESIGN),
        at="abdomen.bulges",
        names=("support_garment",),
    ),
)

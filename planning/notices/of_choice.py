"""Notices about the chosen system: what was removed, and the limits of geometry."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import BARRIER_ACROSS, BARRIER_RIM
from planning.geometry.ring import fit_ring
from planning.instructions.dimension import levelling
from planning.notices.rule import NoticeRule
from planning.supplies.catalogue import SUPPLIES
from planning.supplies.system_choice import SystemChoice


def _held_back(chosen: SystemChoice) -> Iterator[str]:
    for key in sorted(chosen.held_back):
        name = SUPPLIES[key].name
        yield f"Removed by a safety rule: {name}. Tell the people who maintain the rules."


def _wide_ring(chosen: SystemChoice) -> Iterator[str]:
    outline = chosen.situation.facts.outline
    if "ring" not in chosen.supplies or outline is None:
        return
    if fit_ring(outline).outer_mm > BARRIER_ACROSS.value - 2 * BARRIER_RIM.value:
        yield (
            "The stretched ring comes within 10 mm of the rim of a barrier of 4 by 4 inches: take "
            "a larger one."
        )


def _wide_opening(chosen: SystemChoice) -> Iterator[str]:
    sizes = chosen.sizes
    longest = max(sizes.opening_length_mm or 0.0, sizes.opening_width_mm or 0.0)
    if longest > BARRIER_ACROSS.value - 2 * BARRIER_RIM.value:
        yield (
            "The opening leaves less than 10 mm of a barrier of 4 by 4 inches: take a larger one."
        )


def _high_step(chosen: SystemChoice) -> Iterator[str]:
    fill = levelling(chosen.situation.facts) if "half_ring" in chosen.supplies else None
    if fill is not None and fill.too_high:
        yield f"The step of {fill.gap_mm:.0f} mm is more than half rings can level."


def _antifungal(chosen: SystemChoice) -> Iterator[str]:
    if "antifungal_powder" in chosen.supplies and not chosen.situation.likely("yeast"):
        yield (
            "Antifungal powder is in use without signs of yeast today: the prescriber "
            "decides whether to stop it."
        )


def _tried_before(chosen: SystemChoice) -> Iterator[str]:
    """Said so that each sentence holds whether the plan uses the supply or not."""
    trials = chosen.situation.facts.history.trials
    failed = {key for t in trials if t.before_record and t.helped is False for key in t.supplies}
    harmed = {key for t in trials if t.before_record for key in t.hurt}
    if names := _names(failed - harmed):
        yield f"This would not be the first trial of {names}: it failed before this record."
    if names := _names(harmed):
        yield f"This would not be the first harm from {names}: it hurt the skin before this record."


def _names(keys: Collection[str]) -> str:
    return ", ".join(supply.name for key, supply in SUPPLIES.items() if key in keys)


_AT_SIZE: Final = "measurement.length_mm"
RULES: Final[tuple[NoticeRule[SystemChoice], ...]] = (
    NoticeRule("held_back", "A supply that the last gate took out", (PRACTICE,), _held_back),
    NoticeRule("wide_ring", "A stretched ring near the barrier's rim", (PRACTICE, DESIGN),
               _wide_ring,
               _AT_SIZE),
    NoticeRule("wide_opening", "An opening near the barrier's rim", (PRACTICE, DESIGN),
               _wide_opening,
               _AT_SIZE),
    NoticeRule("high_step", "A step higher than half rings can level", (DESIGN,), _high_step,
               "abdomen.bulges"),
    NoticeRule("antifungal_in_use", "Antifungal powder in use without signs of yeast", (PRACTICE,),
               _antifungal, "system.accessories"),
    NoticeRule("tried_before", "A supply that failed or hurt before this record", (PRACTICE,),
               _tried_before, "history.trials"),
)  # fmt: skip

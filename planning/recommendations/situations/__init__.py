"""What an expert nurse says in special situations, besides supplies: one file a situation."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.recommendations.situations import (
    belt_sore,
    bulge,
    crystals,
    culprit,
    dementia,
    every_step_tried,
    fistula,
    frailty,
    growth,
    healed_pyoderma,
    last_weeks,
    loop,
    low_and_dry,
    mark_that_stays,
    new_baseline,
    nicorandil,
    occasional_leak,
    open_wound,
    pregnancy,
    prolapse_that_fits,
    psoriasis,
    radiotherapy,
    resting_bowel,
    shrunk,
    sight_and_hands,
    stool_and_gas,
    two_stomas,
    weals,
    yeast,
)
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Recommendation
from planning.supplies.system_choice import SystemChoice

#: The person first, then the stoma and its neighbours, the skin, the seal, the output.
SITUATIONS: Final[tuple[Situation, ...]] = (
    *pregnancy.ROWS,
    *last_weeks.ROWS,
    *frailty.ROWS,
    *dementia.ROWS,
    *sight_and_hands.ROWS,
    *open_wound.ROWS,
    *two_stomas.ROWS,
    *resting_bowel.ROWS,
    *loop.ROWS,
    *fistula.ROWS,
    *growth.ROWS,
    *psoriasis.ROWS,
    *radiotherapy.ROWS,
    *yeast.ROWS,
    *nicorandil.ROWS,
    *belt_sore.ROWS,
    *culprit.ROWS,
    *weals.ROWS,
    *healed_pyoderma.ROWS,
    *low_and_dry.ROWS,
    *prolapse_that_fits.ROWS,
    *bulge.ROWS,
    *mark_that_stays.ROWS,
    *occasional_leak.ROWS,
    *shrunk.ROWS,
    *every_step_tried.ROWS,
    *crystals.ROWS,
    *stool_and_gas.ROWS,
    *new_baseline.ROWS,
)


def situation_advice(chosen: SystemChoice) -> Iterator[Recommendation]:
    """Advice of every situation that these findings hold."""
    for situation in SITUATIONS:
        if situation.holds(chosen):
            yield situation.said(chosen)


__all__ = ["SITUATIONS", "Situation", "situation_advice"]

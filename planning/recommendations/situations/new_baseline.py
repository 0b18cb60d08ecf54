"""What looks long-standing and is not yet on record as known: somebody may accept it."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import DESIGN
from planning.inputs.findings import BaselineKind
from planning.recommendations.situations.low_and_dry import low_and_dry
from planning.recommendations.situations.prolapse_that_fits import fitting_prolapse
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice


def _open(chosen: SystemChoice) -> Iterator[str]:
    history = chosen.situation.facts.history
    found = (
        (low_and_dry(chosen), BaselineKind.HEIGHT, "the low height"),
        (fitting_prolapse(chosen), BaselineKind.PROLAPSE, "the prolapse"),
        (chosen.kept and bool(chosen.situation.facts.bulging), BaselineKind.BULGE, "the bulge"),
    )
    for there, kind, name in found:
        if there and history.baseline(kind) is None:
            yield name


def _suggested(chosen: SystemChoice) -> bool:
    return any(True for _ in _open(chosen))


def _words(chosen: SystemChoice) -> str:
    return (
        f"Not on record as known, or lapsed: {' and '.join(_open(chosen))}. Record it as known, "
        "agreed by whom, and what change would alarm; nothing here accepts it by itself"
    )


ROWS: Final = (
    Situation(
        "suggest_baseline",
        "Record it as known, agreed by somebody",
        "all is kept with a low height, a prolapse or a bulge that is not on record as known",
        _suggested,
        _words,
        "All is kept, and this is not accepted yet.",
        (DESIGN,),
        at="measurement",
    ),
)

"""Steps in the order in which hands can do them, written apart from the steps themselves."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from typing import Final

from planning.consistency.said import Fault, Part, Said

#: Each before the next, whichever of them a plan has: empty, then lie down, then take off; measure,
#: then cut, then powder and film (facts of 2026 on teaching: practice).
ORDERS: Final = (
    ("lay_out", "empty", "lie_down", "remove_with_remover", "peel", "clean", "dry", "check"),
    ("clean", "dry_veins", "check"),
    ("check", "measure", "cut_after_measuring", "fill_wound", "powder"),
    ("measure", "cut_after_measuring", "film", "apply"),
    ("measure", "helper_cuts", "powder"),
    ("measure", "helper_cuts", "film", "apply"),
    ("powder", "brush_off", "seal_powder", "repeat_layers", "strip", "half_ring", "ring", "paste",
     "apply", "hold_flat", "couple", "thickener", "close", "belt", "note_date"),
    ("cut_opening", "peel"),
    ("trim", "powder"),
    ("trim", "film", "stretch_skin", "strip"),
    ("apply", "hold_plateau", "couple"),
    ("close", "night_bag", "note_date"),
)  # fmt: skip


def wrong_order(said: Said) -> Iterator[Fault]:
    """A step that comes after one that it must go before."""
    steps = {line.key: (place, line) for place, line in enumerate(said.of(Part.STEP))}
    for order in ORDERS:
        there = [steps[key] for key in order if key in steps]
        for (before, first), (after, _) in pairwise(there):
            if before > after:
                yield Fault("order", first, "it comes too late among the steps")

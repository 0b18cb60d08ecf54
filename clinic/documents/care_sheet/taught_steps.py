"""Which steps a shorter sheet still spells out: those of points that no one does alone yet."""

from __future__ import annotations

from clinic.patients.models import Stoma
from clinic.teaching.choices import Item
from clinic.teaching.missing import PointNow, Teaching, teaching_of

#: Point of the checklist -> keys of the steps that explain it (design value).
STEPS_OF = {
    Item.EMPTY: ("empty",),
    Item.TAKE_OFF: ("remove_with_remover", "peel"),
    Item.CLEAN: ("clean", "dry"),
    Item.LOOK: ("read_back", "check"),
    Item.MEASURE: ("measure",),
    Item.CUT: ("cut_opening", "cut_after_measuring", "helper_cuts"),
    Item.PUT_ON: ("apply", "hold_flat", "hold_plateau", "couple"),
    Item.CLOSE: ("close",),
}


def not_alone(teaching: Teaching) -> tuple[PointNow, ...]:
    """Points of a change that no one does alone; none where nothing was ever recorded as taught,
    so that the nurse's own choice of a shorter sheet is all there is to go by."""
    if not teaching.begun:
        return ()
    return tuple(point for point in teaching.explained if point.item in STEPS_OF)


def steps_to_explain(stoma: Stoma) -> frozenset[str]:
    """Keys of the steps of those points. One query."""
    return frozenset(key for p in not_alone(teaching_of(stoma)) for key in STEPS_OF[p.item])

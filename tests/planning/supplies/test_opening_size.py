"""When to leave the opening as worn."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.findings import (
    Accessory,
    Consistency,
    Oedema,
    OpeningKind,
    Prolapse,
    SkinKind,
    StomaKind,
)
from planning.results.plan import Change
from planning.supplies.opening_size import Verdict, judge_opening
from tests.planning.builders import LOW, raw, seen, situation, well

WIDE: dict[str, Any] = {"opening_length_mm": 42.0, "opening_width_mm": 42.0}
OUT: dict[str, Any] = {"prolapse": (Prolapse(30.0, True, False),)}
RING: dict[str, Any] = {"accessories": frozenset({Accessory.RING})}
STAYS, CORRECT, REFIT, UNKNOWN = Verdict.STAYS, Verdict.CORRECT, Verdict.REFIT, Verdict.UNKNOWN


def size(mm: float) -> dict[str, float]:
    return {"opening_length_mm": mm, "opening_width_mm": mm}


@pytest.mark.parametrize(
    ("changes", "verdict"),
    [
        (size(32.0), STAYS),
        (size(31.9), CORRECT),
        (size(31.0) | {"opening_kind": OpeningKind.MOULDABLE}, STAYS),
        (size(29.0) | {"opening_kind": OpeningKind.MOULDABLE}, CORRECT),
        (size(31.0) | RING, STAYS),
        (size(30.0) | RING, STAYS),
        (size(29.9) | RING, CORRECT),
        (size(36.3), STAYS),
        # Just 1/8 inch a side, and just more.
        (size(20.0) | {"length_mm": 13.65, "width_mm": 13.65, "skin": (raw(),)}, STAYS),
        (size(20.1) | {"length_mm": 13.65, "width_mm": 13.65, "skin": (raw(),)}, CORRECT),
        # Wider: the skin decides.
        (WIDE, STAYS),
        (WIDE | {"skin": (seen(SkinKind.ERYTHEMA),)}, STAYS),
        (WIDE | {"skin": (raw(),)}, CORRECT),
        (WIDE | {"skin": (raw(inner_mm=6.0),)}, STAYS),
        (WIDE | {"skin": (raw(inner_mm=None),)}, CORRECT),
        (WIDE | {"skin": (seen(SkinKind.WARTY),)}, CORRECT),
        # Wider over whole skin, and it leaks: liquid on bare skin only.
        (WIDE | {"leak": LOW}, REFIT),
        (WIDE | {"leak": LOW} | RING, STAYS),
        (WIDE | {"leak": LOW, "opening_kind": OpeningKind.MOULDABLE}, STAYS),
        (WIDE | {"leak": LOW, "kind": StomaKind.COLOSTOMY, "consistency": Consistency.FORMED},
         STAYS),
        # Room that is meant.
        (WIDE | {"oedema": Oedema.MARKED, "leak": LOW}, STAYS),
        (WIDE | {"widest_mm": 36.0, "leak": LOW}, STAYS),
        # The mucosa tells.
        ({"rubbed": True}, CORRECT),
        ({"deep_cut": True}, CORRECT),
        ({"presses": True}, CORRECT),
        # Not known.
        ({"opening_length_mm": None, "opening_width_mm": None}, UNKNOWN),
        ({"system": None}, UNKNOWN),
        ({"skin": (seen(SkinKind.FISTULA),)}, UNKNOWN),
        # What must pass is the widest part of a prolapse.
        (OUT, UNKNOWN),
        (OUT | {"widest_mm": 31.0}, STAYS),
        (WIDE | OUT | {"widest_mm": 36.0, "leak": LOW}, STAYS),
    ],
)  # fmt: skip
def test_when_the_opening_changes(changes: dict[str, Any], verdict: Verdict) -> None:
    found = judge_opening(situation(well(**changes)).facts)
    assert found.verdict is verdict
    assert (found.why is not None) is found.changes


@pytest.mark.parametrize(("before", "verdict"), [(33.0, CORRECT), (32.9, STAYS)])
def test_a_size_that_moved_beyond_error_corrects_a_wide_opening(
    before: float, verdict: Verdict
) -> None:
    history = History(previous=(well(length_mm=before, width_mm=before),))
    assert judge_opening(situation(well(**WIDE), history).facts).verdict is verdict


@pytest.mark.parametrize(
    ("changes", "words", "at"),
    [
        (size(29.0), "0.5 mm a side smaller than the stoma", "system.opening_length_mm"),
        (size(30.0), "only 0.0 mm from the stoma", "system.opening_length_mm"),
        (size(31.0), "only 0.5 mm from the stoma", "system.opening_length_mm"),
        ({"rubbed": True}, "pale line", "measurement.rubbed"),
        ({"rubbed": True, "deep_cut": True}, "pale line", "measurement.deep_cut"),
        ({"presses": True}, "tight on the stoma", "system.presses"),
    ],
)
def test_what_rubs_is_named(changes: dict[str, Any], words: str, at: str) -> None:
    why = judge_opening(situation(well(**changes)).facts).why
    assert why is not None
    assert words in why.text
    assert why.finding == at


def test_the_reason_names_the_one_condition() -> None:
    plan = recommend(well(**WIDE, skin=(raw(),), leak=LOW))
    opening = next(r for r in plan.recommendations if r.key == "opening")
    assert opening.change is Change.CHANGE
    assert "6.0 mm of skin bare a side, and the skin in it is sore" in opening.because[0].text


def test_an_opening_that_was_not_recorded_is_compared_not_changed() -> None:
    plan = recommend(well(opening_length_mm=None, opening_width_mm=None, leak=LOW))
    opening = next(r for r in plan.recommendations if r.key == "opening")
    assert opening.change is Change.KEEP
    assert "compare before cutting" in opening.text

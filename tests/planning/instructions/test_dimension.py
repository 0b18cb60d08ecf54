"""Sizes in the plan: from geometry, and none where it cannot be known."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Ability,
    Accessory,
    Bulge,
    Oedema,
    OpeningKind,
    Person,
    Profile,
    Prolapse,
    SkinKind,
)
from planning.results.plan import Dimensions
from tests.planning.builders import LOW, leaking, seen, well

RING = frozenset({Accessory.RING})


def sizes(**changes: Any) -> Dimensions:
    return recommend(leaking(**changes)).dimensions


def test_two_millimetres_on_every_side() -> None:
    found = sizes(length_mm=35.0, width_mm=30.0)
    assert (found.opening_length_mm, found.opening_width_mm) == (39.0, 34.0)


def test_gap_area_by_the_steiner_formula() -> None:
    """P d + pi d2 for a circle of 30 mm and a gap of 2 mm: 201.06 mm2."""
    assert sizes().gap_area_mm2 == pytest.approx(201.06, rel=0.01)


def test_a_swollen_stoma_gets_the_widest_usual_gap() -> None:
    found = sizes(oedema=Oedema.MARKED, opening_length_mm=28.0, opening_width_mm=28.0)
    assert found.gap_mm == pytest.approx(3.175)
    assert found.opening_length_mm == pytest.approx(36.35)


def test_a_prolapse_of_unknown_width_gets_no_opening() -> None:
    found = recommend(well(prolapse=(Prolapse(20.0, True, False),), leak=LOW))
    assert found.dimensions.opening_length_mm is None
    assert "measurement.widest_mm" in {m.finding for m in found.missing}


def test_without_a_size_there_is_no_size() -> None:
    found = sizes(length_mm=None, protrusion_mm=0.0)
    assert found.opening_length_mm is None
    assert found.ring_stretched_inner_mm is None
    assert found.plateau_mm is None
    assert found.convex_depth_mm == 3.0


def test_a_mushroom_passes_its_widest_part() -> None:
    found = sizes(widest_mm=42.0)
    assert found.opening_length_mm == 46.0


def test_twelve_radii_go_before_two_axes() -> None:
    found = sizes(radii_mm=(20.0,) * 12)
    assert found.stoma_length_mm == pytest.approx(40.0)
    assert found.opening_length_mm == pytest.approx(44.0)


def test_the_plateau_holds_the_opening() -> None:
    low = {"protrusion_mm": -1.0, "length_mm": 30.0, "width_mm": 30.0}
    worn = {"opening_length_mm": 40.0, "opening_width_mm": 33.0, "accessories": RING}
    found = recommend(well(**low, **worn, leak=LOW)).dimensions
    assert found.plateau_mm == 40.0
    assert found.convex_depth_class == "shallow"


@pytest.mark.parametrize(("height", "layers"), [(15.0, 1), (30.0, 2), (60.0, 3)])
def test_half_rings_follow_the_height_of_the_bulge(height: float, layers: int) -> None:
    bulge = Bulge(ClockHours.of(3), height, 60.0, True, False)
    found = recommend(leaking(bulges=(bulge,), profile=Profile.CONCAVE))
    if height < 60:
        assert found.dimensions.half_ring_layers == layers
    else:
        assert "half_ring" not in found.supplies
        assert "support_fitting" in {r.key for r in found.recommendations}


def test_a_bulge_of_unknown_height_gets_no_number_of_layers() -> None:
    found = recommend(leaking(bulges=(Bulge(ClockHours.of(3)),), profile=Profile.CONCAVE))
    assert "half_ring" in found.supplies
    assert found.dimensions.half_ring_layers is None


def test_a_ready_cut_opening_keeps_to_the_gap() -> None:
    hands = Person(sensitivities=frozenset(), dexterity=Ability.LIMITED)
    history = History(previous=(well(days_since_surgery=380),))
    # A known cause: where none is, one thing is changed, and the opening waits.
    plan = recommend(well(person=hands, skin=(seen(SkinKind.ERYTHEMA),)), history)
    opening = next(r for r in plan.recommendations if r.key == "opening")
    assert "1 3/8 in" in opening.text
    assert plan.dimensions.opening_length_mm == pytest.approx(34.925)
    assert plan.dimensions.gap_mm == pytest.approx(2.4625)


def test_a_mouldable_opening_is_rolled_not_cut() -> None:
    plan = recommend(leaking(opening_kind=OpeningKind.MOULDABLE, opening_length_mm=28.0))
    opening = next(r for r in plan.recommendations if r.key == "opening")
    assert opening.text.startswith("Roll the opening back")
    assert not {"cut_opening", "cut_after_measuring"} & {step.key for step in plan.steps}


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"length_mm": 60.0, "width_mm": 60.0, "accessories": RING}, "take a larger one"),
        ({"length_mm": 80.0, "width_mm": 80.0}, "less than 10 mm"),
    ],
)
def test_impossible_fits_are_said(changes: dict[str, Any], words: str) -> None:
    notices = [notice.text for notice in recommend(leaking(**changes)).notices]
    assert any(words in text for text in notices)

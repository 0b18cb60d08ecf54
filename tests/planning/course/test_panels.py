"""The axis of each panel shows a change as large as it matters to the person."""

from __future__ import annotations

from planning.course.channels import PANELS

BY_KEY = {panel.key: panel for panel in PANELS}


def test_only_a_size_and_a_weight_are_drawn_away_from_zero() -> None:
    """They never come near it: from zero a change of millimetres or of a kilogram is not seen."""
    assert {panel.key for panel in PANELS if not panel.from_zero} == {"size", "weight"}


def test_an_axis_of_weight_shows_kilograms_of_an_adult_and_grams_of_a_baby() -> None:
    def shown(kg: float) -> float:
        return max(BY_KEY["weight"].least, BY_KEY["weight"].least_share * kg)

    assert 1 <= shown(70.0) <= 10
    assert 0.05 <= shown(3.0) <= 0.5


def test_an_axis_of_size_is_no_wider_for_a_wide_stoma() -> None:
    assert BY_KEY["size"].least_share == 0

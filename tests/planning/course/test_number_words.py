"""How the course writes chance: never rounded over a limit it is held against."""

from __future__ import annotations

import pytest

from planning.course.number_words import chance


@pytest.mark.parametrize(
    ("p", "said"),
    [
        (0.00099, "p < 0.001"),
        (0.001, "p 0.001"),
        (0.0496, "p 0.050"),
        (0.0999, "p 0.100"),
        (0.1, "p 0.10"),
        (0.126, "p 0.13"),
    ],
)
def test_chance_has_three_figures_up_to_a_tenth(p: float, said: str) -> None:
    assert chance(p) == said

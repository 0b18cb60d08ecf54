"""The sizes beside a plan, in words."""

from dataclasses import replace

import pytest

from clinic.plans.presenters.panel import sizes
from planning.results.plan import Dimensions


@pytest.mark.parametrize(
    ("share", "words"),
    [
        (None, "12.5 cm²"),
        (0.4, "12.5 cm², equal to 40 % of the skin under a 4 by 4 inch barrier"),
        (1.61, "12.5 cm², more than the skin under a 4 by 4 inch barrier"),
    ],
)
def test_no_area_is_over_a_hundred_percent_of_another(share: float | None, words: str) -> None:
    found = replace(Dimensions(), skin_burden_mm2=1250.0, skin_burden_share=share)
    assert dict(sizes(found)) == {"Skin affected": words}

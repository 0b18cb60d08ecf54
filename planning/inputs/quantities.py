"""Every quantity that is charted, declared once: its label, its unit, and what can be meant.

The form field, the column, its constraint in the database and the planner's own check read it
here, so that all of them refuse the same numbers in the same words. A range only stops a slip of
the hand: nothing that a patient may have lies outside it, and what is merely unlikely is noticed,
not refused.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any, Final

from planning.evidence.sources import DESIGN


@dataclass(frozen=True, slots=True)
class Quantity:
    """One number of the chart.

    ``path``: where it is in ``Findings``, ``[]`` for each of several. ``lowest`` and
    ``highest``, both allowed, in ``unit``. ``decimals``: digits after the point that are kept.
    ``source``: where the limits come from. ``said``: what a letter says before the value ("" where
    the value needs no words, None where no letter gives it). ``of_person``: the same for every
    stoma of a visit, so it is charted with one of them only.
    """

    path: str
    label: str
    unit: str
    lowest: float
    highest: float
    decimals: int = 1
    source: str = DESIGN
    said: str | None = None
    of_person: bool = False

    @property
    def part(self) -> str:
        """The part of the findings it is in; "" where it is deeper in one of several."""
        part, _, name = self.path.rpartition(".")
        return "" if "[]" in self.path else part if name else ""

    @property
    def name(self) -> str:
        """Its field's name in that part."""
        return self.path.rpartition(".")[2].removesuffix("[]")

    @property
    def range_words(self) -> str:
        """``between 0.1 and 300 mm``."""
        return f"between {self.lowest:g} and {self.highest:g} {self.unit}".rstrip()

    def holds(self, value: float) -> bool:
        """Whether ``value`` can be meant."""
        return self.lowest <= value <= self.highest

    def found_in(self, findings: object) -> Iterator[tuple[str, float]]:
        """Each recorded value with its own path, such as ``skin[1].outer_mm``."""
        return _walk(findings, re.findall(r"[^.\[\]]+|\[\]", self.path), "")


def _walk(value: Any, steps: list[str], path: str) -> Iterator[tuple[str, float]]:
    if value is None:
        return
    if not steps:
        yield path, value
    elif steps[0] == "[]":
        for i, inner in enumerate(value):
            yield from _walk(inner, steps[1:], f"{path}[{i}]")
    else:
        name = f"{path}.{steps[0]}" if path else steps[0]
        yield from _walk(getattr(value, steps[0]), steps[1:], name)


AGE: Final = Quantity("person.age_years", "Age", "years", 0, 130, 0)
#: From a baby born before term upwards; to 10 g, as babies gain and lose.
WEIGHT: Final = Quantity(
    "person.weight_kg", "Weight", "kg", 0.2, 400, 2, said="weight", of_person=True
)

LENGTH: Final = Quantity("measurement.length_mm", "Length", "mm", 0.1, 300, said="length")
WIDTH: Final = Quantity("measurement.width_mm", "Width", "mm", 0.1, 300, said="width")
#: Below the skin is negative.
PROTRUSION: Final = Quantity(
    "measurement.protrusion_mm", "Protrusion", "mm", -150, 500, said="protrusion"
)
WIDEST: Final = Quantity("measurement.widest_mm", "Widest part", "mm", 0.1, 300)
RADIUS: Final = Quantity("measurement.radii_mm[]", "Twelve radii", "mm", 0.1, 300)
SEPARATION_DEPTH: Final = Quantity(
    "measurement.junction[].depth_mm", "Separation depth", "mm", 0, 300, said="depth of the gap"
)
PROLAPSE_LENGTH: Final = Quantity(
    "measurement.prolapse[].extra_length_mm", "Longer than usual by", "mm", 0, 500, said="longer by"
)

SKIN_FROM: Final = Quantity("skin[].inner_mm", "From the edge", "mm", 0, 300)
SKIN_TO: Final = Quantity("skin[].outer_mm", "Out to", "mm", 0, 300)

CREASE_DEPTH: Final = Quantity("abdomen.creases[].depth_mm", "Depth", "mm", 0, 300)
BULGE_HEIGHT: Final = Quantity(
    "abdomen.bulges[].height_mm", "Bulge height", "mm", 0, 300, said="height"
)
BULGE_WIDTH: Final = Quantity(
    "abdomen.bulges[].width_mm", "Bulge width", "mm", 0.1, 300, said="width"
)

VOLUME: Final = Quantity("output.volume_ml_24h", "Volume", "mL/24 h", 0, 20_000, 0, said="")
WATERY_FOR: Final = Quantity("output.watery_for_hours", "Watery for", "h", 0, 1000)
NOTHING_FOR: Final = Quantity("output.hours_without_output", "Nothing out for", "h", 0, 1000)
PAIN: Final = Quantity(
    "output.pain_0_10", "Pain at the stoma, 0 to 10", "", 0, 10, 0, said="pain 0 to 10:"
)

#: No barrier has a deeper dome: the range is a product's, not a patient's.
CONVEX_DEPTH: Final = Quantity("system.convex_depth_mm", "Convex depth", "mm", 0.1, 30, said="dome")
OPENING_LENGTH: Final = Quantity(
    "system.opening_length_mm", "Opening length", "mm", 0.1, 300, said="opening length"
)
OPENING_WIDTH: Final = Quantity(
    "system.opening_width_mm", "Opening width", "mm", 0.1, 300, said="opening width"
)

#: In the order of the form.
QUANTITIES: Final[tuple[Quantity, ...]] = tuple(
    value for value in list(globals().values()) if isinstance(value, Quantity)
)

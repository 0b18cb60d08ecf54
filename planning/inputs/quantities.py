"""Every quantity that is charted, declared once: its label, its unit, and what can be meant.

The form field, the column, its constraint in the database and the planner's own check read it
here, so that all of them refuse the same numbers in the same words. A range only stops a slip of
the hand: nothing that a patient may have lies outside it, and what is merely unlikely is noticed,
not refused.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Any, Final

from planning.evidence.sources import DESIGN
from planning.inputs.findings import BaselineKind


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

    def found_in(self, findings: object) -> Iterable[tuple[str, float]]:
        """Each recorded value with its own path, such as ``skin[1].outer_mm``."""
        steps = _steps(self.path)
        if "[]" in steps:
            return _walk(findings, steps, "")
        value: Any = findings
        for step in steps:
            value = getattr(value, step)
            if value is None:
                return ()
        return ((self.path, value),)


@cache
def _steps(path: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^.\[\]]+|\[\]", path))


def _walk(value: Any, steps: tuple[str, ...], path: str) -> Iterator[tuple[str, float]]:
    for taken, step in enumerate(steps, 1):
        if value is None:
            return
        if step == "[]":
            for i, inner in enumerate(value):
                yield from _walk(inner, steps[taken:], f"{path}[{i}]")
            return
        path = f"{path}.{step}" if path else step
        value = getattr(value, step)
    if value is not None:
        yield path, value


AGE: Final = Quantity("person.age_years", "Age", "years", 0, 130, 0)
#: From a baby born before term upwards; to 10 g, as babies gain and lose.
WEIGHT: Final = Quantity(
    "person.weight_kg", "Weight", "kg", 0.2, 400, 2, said="weight", of_person=True
)

#: Completed weeks.
PREGNANT_WEEKS: Final = Quantity(
    "person.pregnant_weeks", "Weeks pregnant", "weeks", 0, 45, 0, said="pregnant", of_person=True
)

LENGTH: Final = Quantity("measurement.length_mm", "Length", "mm", 0.1, 300, said="length")
WIDTH: Final = Quantity("measurement.width_mm", "Width", "mm", 0.1, 300, said="width")
#: Below the skin is negative.
PROTRUSION: Final = Quantity(
    "measurement.protrusion_mm", "Protrusion", "mm", -150, 500, said="protrusion"
)
SITTING: Final = Quantity(
    "measurement.protrusion_sitting_mm", "Height sitting", "mm", -150, 500, said="sitting"
)
STANDING: Final = Quantity(
    "measurement.protrusion_standing_mm", "Height standing", "mm", -150, 500, said="standing"
)
WORKING: Final = Quantity(
    "measurement.loop.working_mm",
    "Height of the working opening",
    "mm",
    -150,
    500,
    said="working opening",
)
RESTING: Final = Quantity(
    "measurement.loop.resting_mm",
    "Height of the resting opening",
    "mm",
    -150,
    500,
    said="resting opening",
)
BLEEDING_STOPS: Final = Quantity(
    "measurement.bleeding_stops_min",
    "Bleeding stops after",
    "min",
    0,
    1000,
    said="bleeding stops after",
)
BLEEDING_STOPPED: Final = Quantity(
    "measurement.bleeding_stopped_days",
    "A heavier bleed stopped, days ago",
    "days",
    0,
    1000,
    said="a heavier bleed stopped, days ago:",
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
SKIN_SPREAD: Final = Quantity("skin[].hours_to_spread", "Visibly spread within", "h", 0, 1000)
MARK_FADES: Final = Quantity("skin[].fades_min", "Mark gone after", "min", 0, 5000)
MARK_STAYS: Final = Quantity("skin[].stays_min", "Mark still there after", "min", 0, 5000)
WEALS_AFTER: Final = Quantity(
    "skin[].minutes_after_contact", "Weals appeared after contact of", "min", 0, 5000
)
SKIN_DAYS: Final = Quantity("skin[].days", "There for", "days", 0, 40_000, 0)
SKIN_ACROSS: Final = Quantity("skin[].across_mm", "Largest width", "mm", 0.1, 300)
SKIN_PAIN: Final = Quantity("skin[].pain_0_10", "Pain here, 0 to 10", "", 0, 10, 0)

WOUND_DISTANCE: Final = Quantity("wounds[].distance_mm", "From the stoma's edge", "mm", 0, 300)
WOUND_LENGTH: Final = Quantity("wounds[].length_mm", "Wound length", "mm", 0.1, 500)
WOUND_WIDTH: Final = Quantity("wounds[].width_mm", "Wound width", "mm", 0.1, 500)
WOUND_DEPTH: Final = Quantity("wounds[].depth_mm", "Wound depth", "mm", 0, 300)
OTHER_DISTANCE: Final = Quantity("other_stomas[].distance_mm", "From edge to edge", "mm", 0, 300)
OTHER_LENGTH: Final = Quantity("other_stomas[].length_mm", "Its length", "mm", 0.1, 300)
OTHER_WIDTH: Final = Quantity("other_stomas[].width_mm", "Its width", "mm", 0.1, 300)

CREASE_DEPTH: Final = Quantity("abdomen.creases[].depth_mm", "Depth", "mm", 0, 300)
BULGE_HEIGHT: Final = Quantity(
    "abdomen.bulges[].height_mm", "Bulge height", "mm", 0, 300, said="height"
)
BULGE_WIDTH: Final = Quantity(
    "abdomen.bulges[].width_mm", "Bulge width", "mm", 0.1, 300, said="width"
)

VOLUME: Final = Quantity("output.volume_ml_24h", "Volume", "mL/24 h", 0, 20_000, 0, said="")
WATERY_FOR: Final = Quantity("output.watery_for_hours", "Watery for", "h", 0, 1000)
NOTHING_FOR: Final = Quantity("output.hours_without_output", "No output for", "h", 0, 1000)
PAIN: Final = Quantity(
    "output.pain_0_10", "Pain at the stoma, 0 to 10", "", 0, 10, 0, said="pain 0 to 10:"
)

#: By the bladder, for a bowel stoma.
URINE: Final = Quantity("output.urine_ml_24h", "Urine", "mL/24 h", 0, 20_000, 0, said="urine")
NO_URINE_FOR: Final = Quantity(
    "output.hours_without_urine", "No urine for", "h", 0, 1000, said="no urine for"
)
USUAL_VOLUME: Final = Quantity(
    "output.usual_ml_24h", "Usual volume", "mL/24 h", 0, 20_000, 0, said="usual volume"
)
DAYS_AT_VOLUME: Final = Quantity(
    "output.days_at_volume", "As much as today for", "days", 0, 1000, 0, said="as today for"
)
STOOLS: Final = Quantity("output.stools_per_day", "Stools a day", "", 0, 100, said="stools a day:")
URINE_PH: Final = Quantity("output.urine_ph", "Urine pH", "", 1, 14, said="urine pH:")
STENTS: Final = Quantity("output.stents", "Stents in place", "", 0, 10, 0, said="stents:")

TEMPERATURE: Final = Quantity(
    "output.vitals.temperature_c", "Temperature", "°C", 20, 45, said="temperature", of_person=True
)
HIGHEST: Final = Quantity(
    "output.vitals.highest_c",
    "Highest in 24 h",
    "°C",
    20,
    45,
    said="highest in 24 h",
    of_person=True,
)
ANTIPYRETIC: Final = Quantity(
    "output.vitals.antipyretic_hours",
    "Antipyretic taken, hours ago",
    "h",
    0,
    1000,
    said="antipyretic taken, hours ago:",
    of_person=True,
)
PULSE: Final = Quantity(
    "output.vitals.pulse", "Pulse", "/min", 0, 350, 0, said="pulse", of_person=True
)
BREATHS: Final = Quantity(
    "output.vitals.breaths", "Breaths", "/min", 0, 150, 0, said="breaths", of_person=True
)
SYSTOLIC: Final = Quantity(
    "output.vitals.systolic_mmhg",
    "Systolic blood pressure",
    "mmHg",
    0,
    350,
    0,
    said="systolic",
    of_person=True,
)

#: No barrier has a deeper dome: the range is a product's, not a patient's.
CONVEX_DEPTH: Final = Quantity("system.convex_depth_mm", "Convex depth", "mm", 0.1, 30, said="dome")
OPENING_LENGTH: Final = Quantity(
    "system.opening_length_mm", "Opening length", "mm", 0.1, 300, said="opening length"
)
OPENING_WIDTH: Final = Quantity(
    "system.opening_width_mm", "Opening width", "mm", 0.1, 300, said="opening width"
)

LEAKS: Final = Quantity("system.leak_count.leaks", "Leaks", "", 0, 1000, 0, said="leaks:")
OF_BARRIERS: Final = Quantity(
    "system.leak_count.barriers", "Of the last barriers", "", 1, 1000, 0, said="of barriers:"
)
USUAL_WEAR: Final = Quantity(
    "system.usual_wear_days", "Usual wear", "days", 0, 1000, said="usual wear"
)
BEGUN_DAYS: Final = Quantity(
    "system.begun[].days", "Started, days ago", "days", 0, 40_000, 0, said="days ago:"
)

#: In the order of the form.
QUANTITIES: Final[tuple[Quantity, ...]] = tuple(
    value for value in list(globals().values()) if isinstance(value, Quantity)
)

#: The figure of what is agreed as known for one stoma, by kind: the same quantity as at a visit.
AGREED: Final[Mapping[BaselineKind, Quantity]] = MappingProxyType(
    {
        BaselineKind.OUTPUT_TARGET: VOLUME,
        BaselineKind.PROLAPSE: PROLAPSE_LENGTH,
        BaselineKind.HEIGHT: PROTRUSION,
        BaselineKind.BULGE: BULGE_WIDTH,
        BaselineKind.SEPARATION: SEPARATION_DEPTH,
    }
)

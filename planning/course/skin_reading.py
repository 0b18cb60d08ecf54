"""How sure one reading of the damaged skin is: as it was measured and as it was charted."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache
from math import hypot, sqrt

from planning.course.skin import burden_of
from planning.evidence.thresholds import CHART_STEP, SKIN_SEM_LEAST, SKIN_SEM_SHARE
from planning.inputs.clock import ClockHours, hour_after
from planning.inputs.findings import Findings, SkinFinding
from planning.inputs.usable_numbers import check_numbers
from planning.statistics.error import MeasuredError

#: Standard error of what lies anywhere within a step either side: a step over the root of three.
_STEP = CHART_STEP.value / sqrt(3)


@dataclass(frozen=True, slots=True)
class AreaError:
    """Error of a damaged area as it is measured: ``share`` of it, with a ``least`` (mm2).

    Ours is that of two nurses, for who measured is not known; a clinic's own repeats may take its
    place (``measured_by``).
    """

    share: float = SKIN_SEM_SHARE.value
    least: float = SKIN_SEM_LEAST.value

    @classmethod
    def measured_by(cls, found: MeasuredError) -> AreaError:
        """Of a clinic's own repeats the upper limit, so that few pairs promise no more."""
        return cls(share=found.high)

    def between(self, one: float, other: float) -> float:
        """Error (mm2) of measuring alone, for two areas: a share of the mean of both."""
        check_numbers(one=one, other=other, low=0)
        return max(self.share * (one + other) / 2, self.least)


@dataclass(frozen=True, slots=True)
class Reading:
    """A damaged area (mm2) and the standard error of that one reading."""

    area: float
    sem: float


@lru_cache(maxsize=512)
def reading_of(findings: Findings, error: AreaError) -> Reading | None:
    """The area with the error of measuring and of charting: a border between two hours, or between
    two millimetres, may be charted as the next. None: not known."""
    area = burden_of(findings)
    if area is None:
        return None
    skin = findings.skin or ()
    # Each spot counts once, so what is charted a step further only adds.
    further = (
        burden_of(replace(findings, skin=(*skin, other)))
        for one in skin
        for other in _a_step_further(one)
    )
    steps = [(more - area) * _STEP for more in further if more is not None]
    return Reading(area, max(hypot(error.share * area, *steps), error.least))


def _a_step_further(one: SkinFinding) -> Iterator[SkinFinding]:
    """One finding with each of its borders charted a step further out, one at a time."""
    step = CHART_STEP.value
    for hour in one.hours:
        for way in (-1, 1):
            beside = hour_after(hour, way)
            if beside not in one.hours:
                yield replace(one, hours=ClockHours.union((one.hours, ClockHours.of(beside))))
    if one.outer_mm is not None:
        yield replace(one, outer_mm=one.outer_mm + step)
    if one.inner_mm:
        yield replace(one, inner_mm=max(0.0, one.inner_mm - step))

"""Needs of uneven ground: a bulge, a lumen that points aside, creases."""

from __future__ import annotations

from collections.abc import Iterator

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import STRIP_LAYERS, STRIP_THICKNESS
from planning.facts.derive import Facts
from planning.geometry.bulge import low_side_gap
from planning.inputs.clock import ClockHours
from planning.inputs.findings import LumenPosition
from planning.results.plan import Need, Reason
from planning.supplies.trials import failed


def ground_needs(facts: Facts) -> Iterator[Need]:
    """All needs of the ground the barrier lies on."""
    yield from _bulge(facts)
    yield from _lumen_side(facts)
    yield from _creases(facts)


def worth_changing(facts: Facts) -> bool:
    """Trouble is seen, or nothing worn is recorded that a change could spoil."""
    return facts.troubled or (facts.findings.system is None and not facts.skin_clear)


def _bulge(facts: Facts) -> Iterator[Need]:
    """The step on the low side opposite each bulge."""
    bulges = facts.findings.abdomen.bulges
    if not bulges or not worth_changing(facts):
        return
    low = facts.bulge_hours.opposite()
    reason = Reason(
        f"The bulge{facts.bulge_hours.placed()} lifts the barrier off the other side.",
        (PRACTICE, DESIGN),
        "abdomen.bulges",
    )
    gap = step_beside_bulge(facts)
    text = f"Raise the low side{low.placed()}"
    yield Need("level_low_side", text, (reason,), gap, "" if gap is None else "mm", low)
    yield Need("bridge_step", "Bridge the step to the bulge", (reason,), hours=low)


def step_beside_bulge(facts: Facts) -> float | None:
    """The largest step (mm) any bulge leaves; None where a height, width or the size is unknown."""
    steps: list[float] = []
    for bulge in facts.findings.abdomen.bulges or ():
        if bulge.height_mm is None or bulge.width_mm is None or facts.outline is None:
            return None
        radius = facts.outline.across_mm / 2
        steps.append(low_side_gap(bulge.height_mm, bulge.width_mm, radius))
    return max(steps, default=None)


def _lumen_side(facts: Facts) -> Iterator[Need]:
    m = facts.findings.measurement
    if m.lumen is not LumenPosition.OFF_CENTRE or m.lumen_hour is None or not facts.troubled:
        return
    hours = ClockHours.of(m.lumen_hour).widened()
    if facts.leak_hours and not facts.leak_hours & hours:
        return
    reason = Reason(
        f"The lumen points to {m.lumen_hour} o'clock and pours there.",
        ("barrierfit2022/lumen", PRACTICE),
        "measurement.lumen_hour",
    )
    yield Need("raise_side", f"Raise the side{hours.placed()}", (reason,), hours=hours)


def _creases(facts: Facts) -> Iterator[Need]:
    """Creases at which it leaks; all of them where the barrier was not read."""
    if not facts.troubled:
        return
    guilty = [
        c
        for c in facts.findings.abdomen.creases or ()
        if not facts.leak_hours or c.hours.widened() & facts.leak_hours
    ]
    if not guilty:
        return
    hours = ClockHours.union(c.hours for c in guilty)
    known = [c.depth_mm for c in guilty if c.depth_mm is not None]
    depth = max(known) if len(known) == len(guilty) else None
    reason = Reason(
        f"A crease{hours.placed()} opens a channel under the barrier.",
        ("complicationsreview/crease", "morgan2015/fills"),
        "abdomen.creases",
    )
    text = f"Fill the crease{hours.placed()} to skin level"
    yield Need("fill_crease", text, (reason,), depth, "" if depth is None else "mm", hours)
    too_deep = depth is not None and depth > STRIP_THICKNESS.value * STRIP_LAYERS.value
    if too_deep or failed(facts.history, "strip"):
        yield Need("hold_fold", "Hold the deep fold open", (reason,), hours=hours)

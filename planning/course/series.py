"""What the trend draws: a point a visit where the value was recorded, nothing in between."""

from __future__ import annotations

from planning.course.channels import CHANNELS, Channel, Read
from planning.course.periods import end_of, in_order
from planning.course.record import Course
from planning.course.results import Bar, Face, Line, Point, Series, Sighting, Spot, Zone
from planning.course.skin import damage_kinds, damaged, damaged_hours
from planning.evidence.sources import DESIGN
from planning.evidence.thresholds import (
    COLOSTOMY_LONG,
    COLOSTOMY_TROUBLE,
    FLUSH_TO,
    OUTPUT_CALL,
    OUTPUT_EMERGENCY,
    OUTPUT_URGENT,
    RETRACTED_AT,
    SPOUT_LONG,
    SPOUT_TROUBLE,
    SPOUT_TROUBLE_URINE,
    Threshold,
)
from planning.inputs.findings import BaselineKind, Findings, History, StomaKind
from planning.safety.baselines.of_fluid import alarm_above


def series(course: Course) -> Series:
    """All series of ``course``, oldest first."""
    course = in_order(course)
    young = bool(course.young)
    return Series(
        points=tuple((channel.key, _to_draw(course, channel)) for channel in CHANNELS),
        faces=_faces(course),
        bars=_bars(course),
        zones=() if young else zones(course.kind),
        output_lines=() if young else output_lines(course),
        separation=tuple(Sighting(v.day, _separations(v.findings)) for v in course.visits),
        bulge=tuple(Sighting(v.day, _bulges(v.findings)) for v in course.visits),
        under_16=young,
    )


def _to_draw(course: Course, channel: Channel) -> tuple[Point, ...]:
    found = points(course, channel)
    return () if channel.once_found and not any(one.value for one in found) else found


def points(course: Course, channel: Channel) -> tuple[Point, ...]:
    """A point for each visit that recorded ``channel``, with its own error where it has one."""
    if channel.answered:
        return _answers(course, channel)
    return values(course, channel.read, channel.error)


def _answers(course: Course, channel: Channel) -> tuple[Point, ...]:
    """What was charted, else answered; () where the questions were never asked."""
    if not any(visit.answers for visit in course.visits):
        return ()
    found = ((v.day, channel.read(v.findings), dict(v.answers)) for v in course.visits)
    told = ((day, said.get(channel.key) if own is None else own) for day, own, said in found)
    return tuple(Point(day, value) for day, value in told if value is not None)


def values(course: Course, read: Read, error: Read = lambda _: None) -> tuple[Point, ...]:
    """The same of anything that ``read`` finds."""
    found = ((v.day, read(v.findings), error(v.findings)) for v in course.visits)
    return tuple(Point(day, value, own) for day, value, own in found if value is not None)


def _faces(course: Course) -> tuple[Face, ...]:
    return tuple(
        Face(
            day=visit.day,
            hours=damaged_hours(visit.findings),
            kinds=damage_kinds(visit.findings),
            intact=not damaged(visit.findings),
        )
        for visit in course.visits
        if visit.findings.skin is not None
    )


def _separations(findings: Findings) -> tuple[Spot, ...] | None:
    gaps = findings.measurement.junction
    if gaps is None:
        return None
    return tuple(Spot(gap.hours, _known(("deep", gap.depth_mm))) for gap in gaps)


def _bulges(findings: Findings) -> tuple[Spot, ...] | None:
    bulges = findings.abdomen.bulges
    if bulges is None:
        return None
    return tuple(Spot(b.hours, _known(("high", b.height_mm), ("wide", b.width_mm))) for b in bulges)


def _known(*sizes: tuple[str, float | None]) -> tuple[tuple[str, float], ...]:
    return tuple((word, size) for word, size in sizes if size is not None)


def _bars(course: Course) -> tuple[Bar, ...]:
    end = end_of(course)
    return tuple(
        Bar(w.on, None, None, None if w.seen_on is None else min(w.seen_on, end))
        if w.off is None or w.off > end
        else Bar(w.on, w.off, w.reason)
        for w in course.worn or ()
        if w.on <= end
    )


def zones(kind: StomaKind) -> tuple[Zone, ...]:
    """The word for each height of this ``kind`` of stoma, lowest first (mm, ``height_of``)."""
    trouble = trouble_threshold(kind)
    longest = COLOSTOMY_LONG if kind is StomaKind.COLOSTOMY else SPOUT_LONG
    low, flush, short, top = RETRACTED_AT.value, FLUSH_TO.value, trouble.value, longest.value
    return (
        Zone("retracted", "retracted", None, low, (RETRACTED_AT.source,)),
        Zone("flush", "flush", low, flush, (RETRACTED_AT.source, FLUSH_TO.source)),
        Zone("short", "short, tends to leak", flush, short, (FLUSH_TO.source, trouble.source)),
        Zone("adequate", "on target", short, top, (trouble.source, longest.source)),
        Zone("long", "long", top, None, (longest.source,)),
    )


def trouble_threshold(kind: StomaKind) -> Threshold:
    """The height under which this ``kind`` tends to leak, with its source."""
    if kind is StomaKind.COLOSTOMY:
        return COLOSTOMY_TROUBLE
    return SPOUT_TROUBLE_URINE if kind is StomaKind.UROSTOMY else SPOUT_TROUBLE


def output_lines(course: Course) -> tuple[Line, ...]:
    """Levels of high output (mL/24 h): the agreed target where there is one; none for urine."""
    if course.kind is StomaKind.UROSTOMY:
        return ()
    agreed = History(baselines=course.baselines).baseline(BaselineKind.OUTPUT_TARGET)
    if agreed is not None and agreed.value is not None:
        return (
            Line("agreed target", agreed.value, (DESIGN,)),
            Line("from here up: above what was agreed", alarm_above(agreed.value), (DESIGN,)),
        )
    return (
        Line("from here up: call the team", OUTPUT_CALL.value, (OUTPUT_CALL.source,)),
        Line("from here up: high output", OUTPUT_URGENT.value, (OUTPUT_URGENT.source,)),
        Line("from here up: emergency", OUTPUT_EMERGENCY.value, (OUTPUT_EMERGENCY.source,)),
    )

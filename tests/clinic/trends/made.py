"""Trends made by hand. Every figure is invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from planning.course.record import Event, EventKind
from planning.course.results import (
    Bar,
    CourseFlag,
    CourseReport,
    Face,
    Figure,
    Finding,
    Judged,
    Line,
    PlanOutcome,
    Point,
    Series,
    Sighting,
    Spot,
    Verdict,
    Zone,
)
from planning.evidence.sources import PRACTICE
from planning.inputs.clock import ClockHours
from planning.inputs.findings import RemovalReason
from planning.results.plan import Reason, Urgency

START = date(2025, 3, 3)
TODAY = date(2025, 8, 30)
BY = (PRACTICE,)


def day(after: int) -> date:
    """So many days after the start."""
    return START + timedelta(days=after)


def points(*values: float, every: int = 28) -> tuple[Point, ...]:
    """One value a visit, four weeks apart."""
    return tuple(Point(day(every * n), value) for n, value in enumerate(values))


ZONES = (
    Zone("retracted", "retracted", None, -5, BY),
    Zone("flush", "flush", -5, 4, BY),
    Zone("short", "short", 4, 20, BY),
    Zone("adequate", "adequate", 20, None, BY),
)
OUTPUT_LINES = (Line("high output", 1500, BY),)
REASONS = [*RemovalReason, None]


def bars(count: int = 24, *, every: int = 4) -> tuple[Bar, ...]:
    """Barriers one after the other, coming off for every reason in turn; the last is on."""
    worn = [
        Bar(day(every * n), day(every * n + 1 + n % every), REASONS[n % len(REASONS)])
        for n in range(count)
    ]
    return (*worn, Bar(day(every * count), None, None))


FACES = (
    Face(day(0), ClockHours.of(4, 5, 6, 7, 8), ("erosion", "maceration"), intact=False),
    Face(day(28), ClockHours.of(5, 6, 7), ("erosion",), intact=False),
    Face(day(56), ClockHours.of(6), ("erythema",), intact=False),
    Face(day(84), ClockHours(), (), intact=True),
)
SERIES = Series(
    points=(
        ("protrusion", points(12, 11, 9, 8, 3.5)),
        ("length", points(34, 32, 31, 30)),
        ("width", points(30, 29, 28, 28)),
        ("burden", points(1250, 640, 120, 0)),
        ("output", points(900, 1600, 1100, 850)),
    ),
    faces=FACES,
    bars=bars(),
    zones=ZONES,
    output_lines=OUTPUT_LINES,
)
#: Apart at two visits, nothing said at the third, whole again at the fourth.
SEPARATION = (
    Sighting(day(0), (Spot(ClockHours.of(6, 7), (("deep", 4.0),)),)),
    Sighting(day(28), (Spot(ClockHours(), (("deep", 2.5),)),)),
    Sighting(day(56), None),
    Sighting(day(84), ()),
)
NEVER = tuple(Sighting(day(28 * n), ()) for n in range(4))
BULGE = (
    *NEVER[:3],
    Sighting(day(84), (Spot(ClockHours.all_round(), (("high", 20.0), ("wide", 80.0))),)),
)
SPOTTED = replace(SERIES, separation=SEPARATION, bulge=BULGE)
EMPTY = Series((), (), (), (), ())


def only(**points: tuple[Point, ...]) -> Series:
    """A trend of nothing but these channels."""
    return replace(EMPTY, points=tuple(points.items()))


EVENTS = (
    Event(day(-20), EventKind.SURGERY, "end ileostomy made"),
    Event(day(28), EventKind.PLAN_CHANGE, "convex barrier, ring"),
    Event(day(56), EventKind.REFERRAL, "surgeon, within 2 weeks"),
    Event(day(61), EventKind.ANSWER, "seen, no operation now"),
    Event(day(84), EventKind.PLAN_CHANGE, "belt"),
)
OUTCOMES = (
    PlanOutcome(
        day(28),
        day(84),
        Verdict.HELPED,
        "Leaks fell and the skin is healing.",
        (
            Finding(Judged.LEAKS, Verdict.HELPED, "1.8 a week before, 0.4 after", BY, 1.8, 0.4),
            Finding(Judged.WEAR, Verdict.NO_DIFFERENT, "2.5 days before, 2.9 after", BY, 2.5, 2.9),
            Finding(Judged.SKIN, Verdict.HELPED, "1,250 mm² before, 120 after", BY, 1250, 120),
        ),
        frozenset({"convex_soft", "ring"}),
    ),
    PlanOutcome(
        day(84),
        None,
        Verdict.CANNOT_TELL,
        "Too early to tell: 3 barriers since.",
        (Finding(Judged.LEAKS, Verdict.CANNOT_TELL, "3 barriers since, 5 needed", BY),),
        frozenset({"belt"}),
    ),
)
FLAGS = (
    CourseFlag(
        "retraction",
        "Retraction emerging",
        "12 mm to 3.5 mm in 112 days",
        "Protrusion falls faster than its measurement error.",
        (Reason("Protrusion is 3.5 mm", BY),),
        BY,
        Urgency.TWO_WEEKS,
    ),
    CourseFlag("wear", "Wear is holding", "2.5 to 2.9 days", "No fall.", (), BY),
)
REPORT = CourseReport(
    headline=(
        "The convex barrier and ring helped: leaks fell from 1.8 to 0.4 a week.",
        "Protrusion fell from 12 mm to 3.5 mm in 112 days.",
    ),
    series=SERIES,
    outcomes=OUTCOMES,
    flags=FLAGS,
    figures=(Figure("leak_rate", "Leak rate", "0.4 a week (95 % interval 0.1 to 1.2)", BY),),
)

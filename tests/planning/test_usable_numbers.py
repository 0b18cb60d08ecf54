"""Nothing is worked out from what is no number: every public function that takes one refuses it.

The functions are found, not listed: one without an example below fails, and so does one that takes
NaN, the infinite, a negative value or nothing at all for a number.
"""

from __future__ import annotations

import importlib
import inspect
import math
import pkgutil
import typing
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, is_dataclass, replace
from enum import Enum
from functools import _lru_cache_wrapper
from typing import Any

import numpy as np
import pytest

import planning.course
import planning.geometry
import planning.statistics
from planning.course.errors import Measure
from planning.course.real_change import fixed
from planning.course.results import Point
from planning.course.skin_reading import AreaError
from planning.geometry.outline import ellipse
from planning.geometry.photo import Card, Line, Mark, Marks, Rounded, Setting
from planning.geometry.photo import Sized as PhotoSized
from planning.geometry.photo_possible import Pixels
from planning.geometry.photo_setting import Askew
from planning.geometry.photo_shape import smooth
from planning.geometry.photo_surface import Skin
from planning.inputs.usable_numbers import UnusableNumber, check_numbers
from planning.statistics.log_rank import LogRank
from planning.statistics.restricted_mean import MeanDifference
from planning.statistics.shrinkage import Sized
from planning.statistics.survival import SurvivalCurve, kaplan_meier
from planning.statistics.too_few import TooFew
from tests.factories.scene import SIZE, Camera, card_at, line_at, oval
from tests.planning.course.course_builders import course, day, leaks, visit

PACKAGES = (planning.statistics, planning.course, planning.geometry)
#: Data made of numbers alone; findings are checked where they come in (``planning.inputs.check``).
NUMERIC_DATA = (Point, Sized, PhotoSized, Mark)


@dataclass(frozen=True)
class Example:
    """Arguments that are right. ``signed``: may be negative. ``endless``: may be infinite.
    ``empty``: what may hold nothing, as the answer then says so or there is nothing to check."""

    given: dict[str, Any]
    signed: tuple[str, ...] = ()
    endless: tuple[str, ...] = ()
    empty: tuple[str, ...] = ()
    of: object = None


VIEW = Camera()
CARD, ENDS = VIEW.pixels(card_at(0, -50)), VIEW.pixels(line_at(0, 30, 80))
EDGE_PX = smooth(VIEW.pixels(oval(40, 30)))
EDGE = smooth(oval(40, 30))
TIMES = ([1.0, 2.0, 3.0, 4.0, 5.0], [True, True, False, True, False])
CURVE = kaplan_meier(*TIMES)
assert isinstance(CURVE, SurvivalCurve)
POINTS = [Point(day(n * 7), 20.0 + n, 1.0) for n in range(6)]
RAMP = {"points": POINTS, "error": fixed(1.0), "unit": "mm"}
VISITS = course(visit(0), visit(7), visit(14))
SIZES = [Sized(day(n), 40.0, 30.0) for n in (1, 8)]
BALL = Skin(0.0, 0.001)
THREE = {"points": EDGE, "at": np.zeros(2), "eye": np.array([0.0, 0.0, 400.0])}
SQUARE = ((0.0, 0.0), (1.0, 0.0), (1.0, 1.0))
INDEX = {"course": VISITS, "index": 1}


def marked(points: Any) -> tuple[Mark, ...]:
    return tuple(Mark(float(x), float(y), 0.5) for x, y in points)


SETTING = Setting(SIZE, 0.0, Rounded.FLAT, Askew.STRAIGHT)
FIRST, LAST = marked(ENDS)
LINE = Line(FIRST, LAST, 80.0)
BY_LINE = Marks(LINE, marked(VIEW.pixels(oval(40, 30))), SETTING)

EXAMPLES = {
    "statistics.answer.answer": Example(
        {"interval": (0.1, 9.0), "narrow": (1.0, 8.0), "margin": (-1.0, 1.0), "none": 0.0},
        signed=("interval", "narrow", "margin", "none"),
        endless=("interval", "narrow", "margin", "none"),
    ),
    "statistics.circular.direction": Example({"amounts": {3: 1.0}, "fold": 1}, empty=("amounts",)),
    "statistics.error.within_subject_sd": Example(
        {"pairs": [(1.0, 2.0), (2.0, 3.0)]}, signed=("pairs",), empty=("pairs",)
    ),
    "statistics.error.measured_error": Example(
        {"pairs": [(1.0, 2.0), (2.0, 3.0)], "confidence": 0.95},
        signed=("pairs",),
        empty=("pairs",),
    ),
    "statistics.error.measured_share": Example(
        {"pairs": [(1.0, 2.0), (2.0, 3.0)], "confidence": 0.95}, empty=("pairs",)
    ),
    "statistics.error.sem_of_mean": Example({"sem": 1.0, "readings": 2}),
    "statistics.error.smallest_detectable_change": Example({"sem": 1.0, "confidence": 0.95}),
    "statistics.error.beyond_error": Example({"change": 1.0, "sem": 1.0}, signed=("change",)),
    "statistics.healing.healing": Example(
        {"burdens": [(day(0), 1.0), (day(7), 0.0)]}, empty=("burdens",)
    ),
    "statistics.incidence.per_hundred": Example({"k": 1, "n": 2}),
    "statistics.log_rank.LogRank.p_of": Example({"kept": 0.5}, of=LogRank(4.0, 0.05, 3, 1.5)),
    "statistics.log_rank.log_rank": Example(
        {"days_a": TIMES[0], "failed_a": TIMES[1], "days_b": TIMES[0], "failed_b": TIMES[1]}
    ),
    "statistics.power.weeks_to_show": Example(
        {"events": 4, "days": 28.0, "times": 0.5, "level": 0.05, "power": 0.8, "most": 4}
    ),
    "statistics.rates.rate_per_week": Example({"events": 4, "days": 61.0, "confidence": 0.95}),
    "statistics.rates.compare_rates": Example(
        {
            "events_before": 6,
            "days_before": 20.0,
            "events_after": 4,
            "days_after": 20.0,
            "confidence": 0.95,
            "drift": 0.1,
        }
    ),
    "statistics.rates.garwood": Example({"events": 4, "confidence": 0.95}),
    "statistics.new_findings.months_of": Example({"days": 61.0}),
    "statistics.new_findings.new_per_hundred_months": Example(
        {"new": 4, "days": 61.0, "confidence": 0.95}
    ),
    "statistics.rates.kept_share": Example({"together": 10.0, "share": 0.5, "drift": 0.1}),
    "statistics.rates.tails": Example({"before": 6.0, "after": 4.0, "share": 0.5}),
    "statistics.rates.proportion": Example({"k": 1, "n": 2, "confidence": 0.95}),
    "statistics.restricted_mean.MeanDifference.limits": Example(
        {"confidence": 0.95}, of=MeanDifference(3.0, 4.0, 9.0, 1.0)
    ),
    "statistics.restricted_mean.restricted_mean": Example({"curve": CURVE, "until": 4.0}),
    "statistics.restricted_mean.compare_means": Example(
        {
            "days_before": TIMES[0],
            "failed_before": TIMES[1],
            "days_after": TIMES[0],
            "failed_after": TIMES[1],
        }
    ),
    "statistics.several.any_difference": Example(
        {"chances": [0.01, 0.2], "level": 0.05}, empty=("chances",)
    ),
    "statistics.shrinkage.shrinkage": Example(
        {"sizes": SIZES, "surgery": day(0)}, empty=("sizes",)
    ),
    "statistics.shrinkage.settled_on": Example(
        {"sizes": SIZES, "surgery": day(0)}, empty=("sizes",)
    ),
    "statistics.slope.theil_sen": Example(
        {"days": [1.0, 2.0, 3.0, 4.0, 5.0], "values": [1.0, 2.0, 4.0, 3.0, 5.0]},
        signed=("days", "values"),
    ),
    "statistics.survival.SurvivalCurve.at": Example({"time": 2.0}, of=CURVE),
    "statistics.survival.kaplan_meier": Example(
        {"days": TIMES[0], "failed": TIMES[1], "confidence": 0.95}
    ),
    "statistics.survival.kaplan_meier_counted": Example(
        {"days": TIMES[0], "failed": TIMES[1], "counts": [1, 2, 1, 2, 1], "confidence": 0.95}
    ),
    "statistics.times.Times.at_risk": Example({}),
    "statistics.times.Times.failures": Example({}),
    "statistics.times.times_of": Example(
        {"days": TIMES[0], "failed": TIMES[1], "counts": [1, 2, 1, 2, 1]}
    ),
    "course.hernia.hernia_type": Example({"defect_mm": 30.0, "incisional": False}),
    "course.judge_leaks.judge_leaks": Example(
        {"before": leaks(6), "since": leaks(2), "level": 0.05, "gap": 40.0}
    ),
    "course.judge_leaks.halving_words": Example({"leaks": 4, "days": 28.0, "level": 0.05}),
    "course.judge_skin.judge_skin": Example(
        {"plan": VISITS.visits[0], "later": VISITS.visits[1:], "level": 0.05}
    ),
    "course.judge_wear.judge_wear": Example(
        {"before": leaks(6), "since": leaks(2), "level": 0.05, "gap": 40.0}
    ),
    "course.margin.interval_words": Example({"level": 0.05}),
    "course.margin.season": Example({"gap": 40.0}),
    "course.margin.rates_answer": Example(
        {
            "events": 6,
            "days": 20.0,
            "events_since": 4,
            "days_since": 20.0,
            "level": 0.05,
            "drift": 0.1,
        }
    ),
    "course.number_words.number": Example(
        {"value": 1.5, "places": 1}, signed=("value",), endless=("value",)
    ),
    "course.number_words.measure": Example(
        {"value": 1.5, "unit": "mm"}, signed=("value",), endless=("value",)
    ),
    "course.number_words.count": Example({"many": 2, "thing": "barrier"}),
    "course.outcome.outcome_of": Example(INDEX),
    "course.outcome.seen_by": Example(INDEX),
    "course.outcome.hurt_of": Example(INDEX),
    "course.periods.check_index": Example({"visits": VISITS.visits, "index": 1}),
    "course.periods.next_change": Example({"visits": VISITS.visits, "index": 1}),
    "course.periods.last_change": Example({"visits": VISITS.visits, "index": 1}),
    "course.periods.checks_before": Example({"visits": VISITS.visits, "index": 1}),
    "course.periods.worn_before": Example(INDEX),
    "course.periods.worn_since": Example({**INDEX, "look": day(30)}),
    "course.real_change.sem_between": Example(
        {"one": POINTS[0], "other": POINTS[1], "error": fixed(1.0)}, signed=("one", "other")
    ),
    "course.real_change.fixed": Example({"sem": 1.0}),
    "course.real_change.share_of_mean": Example({"share": 0.1}),
    "course.real_change.rise": Example(RAMP, signed=("points",), empty=("points",)),
    "course.real_change.fall": Example(RAMP, signed=("points",), empty=("points",)),
    "course.real_change.moved": Example(RAMP, signed=("points",), empty=("points",)),
    "course.real_change.in_window": Example(
        {"points": POINTS}, signed=("points",), empty=("points",)
    ),
    "course.real_change.slope": Example({"points": POINTS}, signed=("points",), empty=("points",)),
    "course.skin_reading.AreaError.between": Example({"one": 10.0, "other": 20.0}, of=AreaError()),
    "course.errors.amount": Example({"measure": Measure.SIZE, "error": 1.5}),
    "geometry.barrier.fistula_near": Example({"start_mm": 10.0, "outline": None}),
    "geometry.bulge.low_side_gap": Example({"height_mm": 9.0, "width_mm": 50.0, "radius_mm": 20.0}),
    "geometry.bulge.level": Example({"gap_mm": 3.0}),
    "geometry.convexity.depth_class": Example({"depth_mm": 3.0}),
    "geometry.convexity.outlet_height": Example(
        {"protrusion_mm": 3.0, "lumen": None}, signed=("protrusion_mm",)
    ),
    "geometry.convexity.lift_wanted": Example({"outlet_mm": 3.0}, signed=("outlet_mm",)),
    "geometry.opening.opening_for": Example(
        {"outline": ellipse(40, 30), "gap_mm": 2.0, "widest_mm": 45.0}
    ),
    "geometry.opening.rounded": Example({"points": SQUARE}, signed=("points",)),
    "geometry.outline.Outline.radius_at": Example({"hour": 3}, of=ellipse(40, 30)),
    "geometry.outline.ellipse": Example(
        {"length_mm": 40.0, "width_mm": 30.0, "turned_degrees": 30.0}, signed=("turned_degrees",)
    ),
    "geometry.outline.traced": Example({"hour_radii": (20.0,) * 12}),
    "geometry.outline.ellipse_perimeter": Example({"a": 20.0, "b": 15.0}),
    "geometry.outline.polygon_area": Example({"points": SQUARE}, signed=("points",)),
    "geometry.outline.polygon_perimeter": Example({"points": SQUARE}, signed=("points",)),
    "geometry.photo_agreement.contradicts": Example(
        {"photo": PhotoSized(40.0, 1.0), "ruler_mm": 41.0}
    ),
    "geometry.photo_card.read_card": Example(
        {"corners": CARD, "sds": np.ones(4), "picture": SIZE}, signed=("corners",)
    ),
    "geometry.photo_card.shape_of": Example(
        {"corners": CARD, "focals": np.array([3000.0])}, signed=("corners",)
    ),
    "geometry.photo_card.eye_of": Example(
        {"corners": CARD, "picture": SIZE, "focal_px": 3000.0}, signed=("corners",)
    ),
    "geometry.photo_error.budget_of": Example({}),
    "geometry.photo_plane.line_plane": Example({"ends": ENDS, "length_mm": 80.0}, signed=("ends",)),
    "geometry.photo_plane.card_plane": Example({"corners": CARD}, signed=("corners",)),
    "geometry.photo_plane.in_turn": Example({"corners": CARD}, signed=("corners",)),
    "geometry.photo_plane.homography": Example(
        {"source": CARD, "target": card_at(0, 0)}, signed=("source", "target")
    ),
    "geometry.photo_plane.head_up": Example(
        {"points": EDGE, "foot": np.zeros(2), "tip": np.ones(2)}, signed=("points", "foot", "tip")
    ),
    "geometry.photo_possible.Pixels.of": Example(
        {"edge": EDGE_PX, "head_degrees": 10.0}, signed=("edge", "head_degrees")
    ),
    "geometry.photo_possible.possible_by_line": Example(
        {"marks": BY_LINE, "line": LINE, "ends": ENDS, "pixels": Pixels.of(EDGE_PX, 0.0)},
        signed=("ends",),
    ),
    "geometry.photo_shape.smooth": Example({"points": oval(40, 30)}, signed=("points",)),
    "geometry.photo_shape.check_edge": Example({"edge": EDGE}, signed=("edge",)),
    "geometry.photo_shape.middle_of": Example({"edge": EDGE}, signed=("edge",)),
    "geometry.photo_shape.sizes_of": Example({"edge": EDGE}, signed=("edge",)),
    "geometry.photo_surface.rounded_skins": Example(
        {"levels": (0.0, 1.0), "bend": 0.001, "way": 0.0}, signed=("levels", "way")
    ),
    "geometry.photo_surface.on_skin": Example(
        {**THREE, "touch": np.zeros(2), "skin": BALL}, signed=(*THREE, "touch")
    ),
    "geometry.photo_view.rays": Example(
        {"pixels": CARD, "picture": SIZE, "focal_px": 3000.0}, signed=("pixels",)
    ),
    "geometry.photo_view.tilted_views": Example(
        {"at": CARD[0], "picture": SIZE, "focal_px": 3000.0, "tilt_degrees": 10.0}, signed=("at",)
    ),
    "geometry.photo_view.basis": Example({"normal": np.array([0.0, 0.0, 1.0])}, signed=("normal",)),
    "geometry.precut.pre_cut_for": Example({"stoma_mm": 30.0}),
    "geometry.precut.inches": Example({"size_mm": 28.575}),
    "geometry.ring.stretched_thickness": Example(
        {"inner_mm": 30.0, "hole_mm": 20.0, "outer_mm": 48.0, "thickness_mm": 4.0}
    ),
    "geometry.ring.fit_ring": Example({"outline": ellipse(40, 30), "passing_mm": 45.0}),
}
#: Take numbers that were checked before they got there, and are of no use without them.
INSIDE = {
    "statistics.times.Times.at_risk": "sorted times that ``times_of`` let in",
    "statistics.times.Times.failures": "sorted times that ``times_of`` let in",
    "geometry.photo_error.budget_of": "marks that ``check_marks`` let in",
}


def takes_numbers(hint: Any) -> bool:
    if hint in {float, int, np.ndarray, Any} or hint in NUMERIC_DATA:
        return hint is not Any
    if typing.get_origin(hint) is np.ndarray:
        return True
    if isinstance(hint, type) and (hint is bool or issubclass(hint, Enum)):
        return False
    if typing.get_origin(hint) is typing.get_origin(Callable[[int], int]):
        return False
    return any(takes_numbers(inner) for inner in typing.get_args(hint))


def numbers_of(function: Callable[..., Any]) -> tuple[str, ...]:
    hints = typing.get_type_hints(inspect.unwrap(function))
    hints.pop("return", None)
    return tuple(name for name, hint in hints.items() if takes_numbers(hint))


def found() -> Iterator[tuple[str, Callable[..., Any]]]:
    """Every public function and method of the packages that takes a number."""
    for package in PACKAGES:
        for info in pkgutil.walk_packages(package.__path__, f"{package.__name__}."):
            for name, thing in vars(importlib.import_module(info.name)).items():
                if not name.startswith("_") and getattr(thing, "__module__", "") == info.name:
                    yield from functions_of(f"{info.name.removeprefix('planning.')}.{name}", thing)


def functions_of(where: str, thing: Any) -> Iterator[tuple[str, Callable[..., Any]]]:
    if inspect.isfunction(thing) or isinstance(thing, _lru_cache_wrapper):
        yield where, thing
    elif inspect.isclass(thing):
        for name, method in vars(thing).items():
            plain = getattr(method, "__func__", method)
            if inspect.isfunction(plain) and not name.startswith("_"):
                yield f"{where}.{name}", getattr(thing, name)


FOUND = {where: function for where, function in found() if numbers_of(function)}


def test_every_function_that_takes_numbers_has_an_example() -> None:
    assert set(FOUND) == set(EXAMPLES)
    assert INSIDE.keys() <= FOUND.keys()
    for where, example in EXAMPLES.items():
        if where not in INSIDE:
            missing = set(numbers_of(FOUND[where])) - set(example.given)
            assert not missing or where == "statistics.slope.theil_sen", (where, missing)


def call(where: str, **changes: Any) -> Any:
    example = EXAMPLES[where]
    of = () if example.of is None else (example.of,)
    answer = inspect.unwrap(FOUND[where])(*of, **{**example.given, **changes})
    return list(answer) if isinstance(answer, Iterator) else answer


def with_one(value: Any, bad: float) -> Iterator[Any]:
    """The same with one of its numbers replaced, each in turn (of an array the last)."""
    if isinstance(value, np.ndarray):
        changed = value.copy()
        changed.flat[-1] = bad
        yield changed
    elif isinstance(value, float | int) and not isinstance(value, bool):
        yield bad
    else:
        for key, inner in parts_of(value):
            for one in with_one(inner, bad):
                yield with_part(value, key, one)


def parts_of(value: Any) -> list[tuple[Any, Any]]:
    if isinstance(value, Mapping):
        return list(value.items())
    if is_dataclass(value):
        return [(name, getattr(value, name)) for name in value.__dataclass_fields__]
    return list(enumerate(value)) if isinstance(value, list | tuple) else []


def with_part(value: Any, key: Any, one: Any) -> Any:
    if isinstance(value, Mapping):
        return {**value, key: one}
    if isinstance(value, list | tuple):
        return type(value)([*value[:key], one, *value[key + 1 :]])
    return replace(value, **{key: one})


def bad_numbers(example: Example, name: str) -> Iterable[float]:
    yield math.nan
    if name not in example.endless:
        yield from (math.inf, -math.inf)
    if name not in example.signed:
        yield -1


@pytest.mark.parametrize("where", sorted(EXAMPLES.keys() - INSIDE.keys()))
def test_what_is_no_number_is_refused_by_name(where: str) -> None:
    example = EXAMPLES[where]
    call(where)
    for name in set(numbers_of(FOUND[where])) & set(example.given):
        given = example.given[name]
        for bad in bad_numbers(example, name):
            tried = list(with_one(given, bad))
            assert tried, name
            for one in tried:
                with pytest.raises(UnusableNumber):
                    call(where, **{name: one})


def test_nothing_given_is_refused_or_too_little_to_say() -> None:
    for where in EXAMPLES.keys() - INSIDE.keys():
        example = EXAMPLES[where]
        for name in set(numbers_of(FOUND[where])) & set(example.given) - set(example.empty):
            given = example.given[name]
            if isinstance(given, np.ndarray | list | tuple) and not is_dataclass(given):
                nothing = given[:0]
                # What is given beside it is as long.
                beside: dict[str, Any] = {
                    other: []
                    for other, value in example.given.items()
                    if isinstance(value, list) and other.rpartition("_")[2] != name
                }
                try:
                    answer = call(where, **{**beside, name: nothing})
                except UnusableNumber:
                    continue
                assert isinstance(answer, TooFew) or where == "statistics.times.times_of", where


def test_marks_on_a_photo_are_numbers_too() -> None:
    from planning.geometry.photo import measure

    card = Card(*[marked(CARD)])  # type: ignore[arg-type]
    for marks in (replace(BY_LINE, reference=card), BY_LINE):
        measure(marks)
        outline = marks.outline
        for name in ("x", "y", "wide"):
            broken = replace(outline[0], **{name: math.nan})
            with pytest.raises(UnusableNumber):
                measure(replace(marks, outline=(broken, *outline[1:])))
        with pytest.raises(UnusableNumber):
            measure(replace(marks, head_degrees=math.inf))


def test_the_value_is_not_in_the_words() -> None:
    """Errors go into logs; a figure may be a patient's."""
    with pytest.raises(UnusableNumber, match="days: a number from 0 is needed") as told:
        check_numbers(days=-17.25, low=0)
    assert "17" not in str(told.value)
    with pytest.raises(UnusableNumber, match="level: a number above 0 below 1 is needed"):
        check_numbers(level=1.0, above=0, below=1)
    check_numbers(recorded=None, also=[None, 1.0])

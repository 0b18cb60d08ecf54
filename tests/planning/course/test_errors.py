"""Which error of measuring is used: by worked figures, and for any repeats."""

from __future__ import annotations

from dataclasses import replace
from math import inf, log, nan, sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.course.errors import (
    ASSUMED,
    LEAST,
    ONE_NURSE,
    TWO_NURSES,
    Repeat,
    errors_of,
    estimates,
)
from planning.course.flags import flags
from planning.course.outcome import outcome_of
from planning.course.report import course_report
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Separation
from planning.inputs.usable_numbers import UnusableNumber
from planning.statistics.error import MeasuredError
from planning.statistics.too_few import TooFew
from tests.planning.builders import leaking, well
from tests.planning.course.course_builders import course, seen, visit
from tests.planning.statistics.test_error import PEAK_FLOW

MM = st.floats(0, 200, allow_nan=False)
AREA = st.just(0.0) | st.floats(0.1, 20_000)


def pairs(of: st.SearchStrategy[float]) -> st.SearchStrategy[tuple[float, float] | None]:
    return st.none() | st.tuples(of, of)


REPEAT = st.builds(
    Repeat, length=pairs(MM), width=pairs(MM), height=pairs(st.floats(-80, 200)), area=pairs(AREA)
)


def test_the_published_pairs_give_the_published_error() -> None:
    """Bland and Altman's 17 pairs (standards-and-references.md, 5f): 15.307, whatever is measured.
    They are too few to be used."""
    height = estimates([Repeat(height=pair) for pair in PEAK_FLOW])[1]
    assert isinstance(height.found, MeasuredError)
    assert height.found.value == pytest.approx(15.307, abs=5e-4)
    assert height.used.words == ASSUMED
    twice = errors_of([Repeat(height=pair) for pair in PEAK_FLOW * 2]).height
    assert twice.measured is not None
    # Chi-squared with 34 degrees of freedom, lower 2.5 %: 19.806 (tables).
    assert twice.sem == pytest.approx(15.307 * sqrt(34 / 19.806), abs=2e-3)


def test_from_the_least_number_on_the_clinics_own_is_used_and_said() -> None:
    """Chi-squared with 20 degrees of freedom: 9.591 and 34.170 (tables)."""
    few = errors_of([Repeat(height=(20, 22))] * (LEAST - 1))
    assert few == TWO_NURSES
    assert few.height.own_words == ""
    own = errors_of([Repeat(height=(20, 22))] * LEAST)
    assert (own.size, own.area) == (TWO_NURSES.size, TWO_NURSES.area)
    assert own.height.sem == pytest.approx(sqrt(2) * sqrt(20 / 9.591), abs=1e-3)
    assert own.height.words == "this clinic's own, from 20 repeats, 95 % interval 1.08 to 2.04 mm"
    assert "this clinic's own, from 20 repeats" in own.height.own_words


def test_length_and_width_of_a_visit_are_one_repeat() -> None:
    both = [Repeat(length=(30, 34), width=(25, 25))]
    size = estimates(both * 10)[0]
    assert isinstance(size.found, MeasuredError)
    assert size.found.pairs == 10
    assert size.found.value == pytest.approx(sqrt((16 + 0) / 2 / 2))


def test_an_area_errs_as_a_share_and_none_gives_no_share() -> None:
    area = estimates([Repeat(area=(100, 120))] * 3 + [Repeat(area=(0, 40)), Repeat(area=(0, 0))])[2]
    assert isinstance(area.found, MeasuredError)
    assert log(1 + area.found.value) == pytest.approx(log(1.2) / sqrt(2))
    assert (area.found.pairs, area.left_out) == (3, 2)
    assert errors_of([Repeat(area=(100, 120))] * LEAST).area.words.endswith("10 to 20 %")


def test_no_repeats_and_one_are_too_few() -> None:
    for some in ([], [Repeat(height=(1, 2))]):
        assert estimates(some)[1].found == TooFew(len(some), 2, "pairs of measurements")
    assert [one.assumed for one in estimates([], ONE_NURSE)] == [0.7, 1.0, 0.10]


def test_equal_readings_do_not_make_a_ruler_perfect() -> None:
    """Read to a whole millimetre: at least 1 over the root of 3."""
    own = errors_of([Repeat(length=(30, 30), height=(20, 20), area=(90, 90))] * LEAST)
    assert own.size.sem == own.height.sem == pytest.approx(1 / sqrt(3))
    assert own.of_area.share == 0
    assert own.of_area.least == 10
    still = replace(seen(protrusion_mm=(20, 20), length_mm=(30, 30)), errors=own)
    assert flags(still) == ()


@pytest.mark.parametrize("wrong", [nan, inf, -inf])
def test_what_is_no_figure_is_refused(wrong: float) -> None:
    for name in ("length", "width", "height", "area"):
        with pytest.raises(UnusableNumber):
            Repeat(**{name: (10.0, wrong)})


@pytest.mark.parametrize("name", ["length", "width", "area"])
def test_a_negative_size_is_refused_but_not_a_height_below_the_skin(name: str) -> None:
    with pytest.raises(UnusableNumber, match="from 0"):
        Repeat(**{name: (-1.0, 10.0)})
    assert Repeat(height=(-4.0, -5.0)).height == (-4.0, -5.0)


def test_every_judgement_uses_it_and_says_so() -> None:
    """A coarse ruler silences what the assumed error raises; a fine one raises more."""
    sure = errors_of([Repeat(length=(30, 30.1), height=(20, 20.1), area=(100, 101))] * LEAST)
    unsure = errors_of([Repeat(length=(30, 38), height=(20, 30), area=(100, 300))] * LEAST)
    moved = seen(protrusion_mm=(10, 3), length_mm=(30, 35), width_mm=(30, 30))
    assumed = {flag.key: flag for flag in flags(moved)}
    assert {"retraction", "size"} <= assumed.keys()
    assert {assumed["retraction"].error, assumed["size"].error} == {ASSUMED}
    assert not {"retraction", "size"} & {flag.key for flag in flags(replace(moved, errors=unsure))}
    less = seen(protrusion_mm=(6, 3), length_mm=(30, 32), width_mm=(30, 30))
    assert not {"retraction", "size"} & {flag.key for flag in flags(less)}
    raised = {flag.key: flag for flag in flags(replace(less, errors=sure))}
    assert "this clinic's own, from 20 repeats" in raised["size"].error
    assert raised["retraction"].error == sure.height.words
    # Wherever its figures are shown.
    assert raised["retraction"].figures.endswith(sure.height.own_words)
    assert raised["size"].figures.endswith(sure.size.own_words)
    assert "clinic's own" not in assumed["size"].figures
    assert [one.key for one in course_report(replace(less, errors=sure)).moved]
    told = {one.key: one.text for one in course_report(replace(less, errors=sure)).figures}
    assert "size 0.58 mm, this clinic's own" in told["measuring_error"]
    assert ASSUMED in {one.key: one.text for one in course_report(less).figures}["measuring_error"]


@given(st.lists(REPEAT, max_size=40))
def test_any_repeats(given_repeats: list[Repeat]) -> None:
    """The order of visits and of readings says nothing; what is used is never below the estimate,
    and is the assumed error below the least number of pairs."""
    found = estimates(given_repeats)
    turned = estimates(
        [
            Repeat(*(pair and (pair[1], pair[0]) for pair in (r.length, r.width, r.height, r.area)))
            for r in reversed(given_repeats)
        ]
    )
    for one, other in zip(found, turned, strict=True):
        many = one.found.pairs if isinstance(one.found, MeasuredError) else one.found.have
        assert isinstance(one.found, MeasuredError) is isinstance(other.found, MeasuredError)
        assert one.used.sem == pytest.approx(other.used.sem)
        if many < LEAST:
            assert one.used.sem == one.assumed
            assert one.used.words == ASSUMED
        else:
            assert isinstance(one.found, MeasuredError)
            assert one.used.sem >= one.found.value


def test_a_course_without_repeats_is_judged_as_before() -> None:
    plain = course(visit(0, None, "ring"), visit(28))
    assert plain.errors == TWO_NURSES
    assert outcome_of(plain, 0) == outcome_of(replace(plain, errors=errors_of([])), 0)


def test_the_skin_and_a_separation_say_it_too() -> None:
    own = errors_of([Repeat(height=(20, 21), area=(100, 110))] * LEAST)
    sore = course(visit(0, well()), visit(28, leaking()), visit(56, leaking()), today=60)
    (skin,) = [one for one in flags(replace(sore, errors=own)) if one.key == "skin"]
    assert skin.error == own.area.words
    assert skin.figures.endswith(own.area.own_words)
    gaps = [(Separation(ClockHours.of(4, 5), depth_mm=mm),) for mm in (3.0, 12.0)]
    deeper = replace(seen(junction=gaps), errors=own)
    (gap,) = [one for one in flags(deeper) if one.key == "separation"]
    assert gap.error == own.height.words
    assert gap.figures.endswith(own.height.own_words)

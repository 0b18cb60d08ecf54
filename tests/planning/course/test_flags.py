"""Flags over time: each limit on both sides, and nothing made of a millimetre.

The smallest detectable change is 1.96 times the root of 2 times the error (Bland and Altman):
2.77 mm of length and width, 4.16 of protrusion, 6.93 of a prolapse, 5.54 and 13.86 of a bulge's
height and width, 277 mL of output.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from planning.course.flags import flags
from planning.course.flags_wear import recent
from planning.course.hernia import hernia_type
from planning.course.record import Course, Worn
from planning.course.results import CourseFlag
from planning.evidence.citation import CITABLE
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bulge,
    Prolapse,
    Separation,
    StomaKind,
    Symptom,
)
from planning.results.plan import Urgency
from tests.planning.builders import LOW, raw, well
from tests.planning.course.course_builders import (
    LEAK,
    PLANNED,
    START,
    course,
    day,
    log,
    seen,
    visit,
)


def raised(course_: Course) -> dict[str, CourseFlag]:
    return {flag.key: flag for flag in flags(course_)}


# --- the stoma --------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("heights", "flagged"),
    [
        ((24.0, 19.0), True),
        ((23.0, 19.0), False),  # 4 mm: within error
        ((26.0, 21.0), False),  # beyond error, but still on target
        ((25.0, 20.0), False),  # 20 mm is not under 20
        ((24.0, 22.0, 20.0, 18.0), True),  # 2 mm at a time, 6 mm in all
        ((19.0, 24.0), False),
        ((None, 5.0), False),
    ],
)
def test_retraction(heights: tuple[float | None, ...], flagged: bool) -> None:
    assert ("retraction" in raised(seen(protrusion_mm=heights))) is flagged


def test_retraction_says_its_figures_and_the_error() -> None:
    flag = raised(seen(protrusion_mm=(24.0, 3.0)))["retraction"]
    assert "flush now" in flag.text
    assert flag.figures == (
        "Protrusion from 24 mm (3 Mar 2025) to 3 mm (17 Mar 2025); less than 4.2 mm is "
        "measurement error."
    )


@pytest.mark.parametrize(
    ("mm", "now"),
    [
        (-6.0, "now retracted, below the skin."),
        (-3.0, "now retracted, below the skin."),
        (0.0, "is flush now: retraction may be emerging."),
    ],
)
def test_what_is_below_the_skin_is_retracted(mm: float, now: str) -> None:
    text = raised(seen(protrusion_mm=(24.0, mm)))["retraction"].text
    assert text == f"The stoma is lower than before and {now}"


def test_a_colostomy_has_its_own_height() -> None:
    low = replace(seen(protrusion_mm=(15.0, 8.0)), kind=StomaKind.COLOSTOMY)
    assert "retraction" not in raised(low)
    lower = replace(seen(protrusion_mm=(15.0, 4.0)), kind=StomaKind.COLOSTOMY)
    assert "retraction" in raised(lower)


@pytest.mark.parametrize(("days", "flagged"), [(180, True), (181, False)])
def test_a_fall_is_looked_for_half_a_year_back(days: int, flagged: bool) -> None:
    """A slow fall: 24, then 19 mm and 18 mm, the first of them so many days ago."""
    heights = {0: 22.0, days - 1: 19.0, days: 17.0}
    found = course(*(visit(n, well(protrusion_mm=v)) for n, v in heights.items()), today=days)
    assert ("retraction" in raised(found)) is flagged


def prolapsed(mm: float | None) -> tuple[Prolapse, ...]:
    return (Prolapse(extra_length_mm=mm),)


@pytest.mark.parametrize(
    ("before", "now", "text"),
    [
        (prolapsed(20.0), prolapsed(26.0), None),
        (prolapsed(20.0), prolapsed(27.0), "The prolapse is growing."),
        ((), prolapsed(6.9), None),
        ((), prolapsed(7.0), "There is a new prolapse."),
        (prolapsed(20.0), prolapsed(0.5), None),
        (None, prolapsed(40.0), None),
        (prolapsed(40.0), (), None),
        (prolapsed(None), prolapsed(40.0), None),
        (prolapsed(20.0), prolapsed(30.0) + prolapsed(None), None),
        (prolapsed(20.0) + prolapsed(30.0), prolapsed(36.0), None),
    ],
)
def test_prolapse(before: object, now: object, text: str | None) -> None:
    found = raised(seen(prolapse=(before, now))).get("prolapse")
    assert (found.text if found else None) == text


def apart(mm: float | None = None) -> tuple[Separation, ...]:
    return (Separation(LOW, depth_mm=mm),)


@pytest.mark.parametrize(
    ("course_", "text"),
    [
        ((), None),
        (((), apart(8.0)), "The mucocutaneous junction has opened: 4 to 8 o'clock, 8 mm deep."),
        (
            ((), apart()),
            "The mucocutaneous junction has opened: 4 to 8 o'clock, depth not recorded.",
        ),
        # It healed and opened again.
        (
            (apart(9.0), (), apart(3.0)),
            "The mucocutaneous junction has opened: 4 to 8 o'clock, 3 mm deep.",
        ),
        ((apart(4.0), apart(8.1)), None),  # 4.16 mm is the error of a height
        (
            (apart(4.0), apart(8.2)),
            "The mucocutaneous separation is getting deeper: 4 to 8 o'clock, 8.2 mm deep.",
        ),
        ((apart(8.2), apart(4.0)), None),
        (
            (apart(4.0), apart(9.0), None),
            "The mucocutaneous separation is getting deeper: 4 to 8 o'clock, 9 mm deep.",
        ),
        ((apart(4.0), apart(9.0), ()), None),
        # Not looked at before is not whole before.
        ((None, apart(9.0)), None),
        ((apart(4.0), apart()), None),
    ],
)
def test_separation(course_: tuple[object, ...], text: str | None) -> None:
    found = raised(seen(junction=course_ or ((),))).get("separation")
    assert (found.text if found else None) == text


def test_separation_says_since_when() -> None:
    opened = raised(seen(junction=((), apart(8.0))))["separation"]
    assert opened.figures == "Whole on 3 Mar 2025."
    deeper = raised(seen(junction=(apart(4.0), apart(9.0))))["separation"]
    assert deeper.figures.startswith("Depth from 4 mm (3 Mar 2025) to 9 mm (17 Mar 2025)")


def bulging(height: float | None, width: float | None) -> tuple[Bulge, ...]:
    return (Bulge(LOW, height, width),)


@pytest.mark.parametrize(
    ("before", "now", "flagged"),
    [
        (bulging(10.0, 50.0), bulging(15.0, 63.0), False),
        (bulging(10.0, 50.0), bulging(16.0, 50.0), True),
        (bulging(10.0, 50.0), bulging(10.0, 64.0), True),
        (bulging(10.0, None), bulging(None, 90.0), False),
        (bulging(16.0, 64.0), bulging(10.0, 50.0), False),
        (None, bulging(30.0, 90.0), False),
    ],
)
def test_hernia(before: object, now: object, flagged: bool) -> None:
    found = raised(seen(bulges=(before, now)))
    assert ("hernia" in found) is flagged
    if flagged:
        assert "no type, as the defect in the muscle was not measured" in found["hernia"].figures


@pytest.mark.parametrize(
    ("defect_mm", "incisional", "expected"),
    [
        (50.0, False, "I"),
        (50.0, True, "II"),
        (51.0, False, "III"),
        (51.0, True, "IV"),
        (None, True, None),
        (40.0, None, None),
    ],
)
def test_the_classes_of_the_hernia_society(
    defect_mm: float | None, incisional: bool | None, expected: str | None
) -> None:
    """European Hernia Society, Smietanski 2014, Hernia 18:1: small up to 5 cm."""
    assert hernia_type(defect_mm, incisional=incisional) == expected


@pytest.mark.parametrize(
    ("widths", "flagged"),
    [((32.0, 30.0), False), ((33.0, 30.0), True), ((30.0, 33.0), True), ((33.0, None), False)],
)
def test_size(widths: tuple[float | None, ...], flagged: bool) -> None:
    assert ("size" in raised(seen(width_mm=widths))) is flagged


@pytest.mark.parametrize(
    ("error", "flagged"),
    # Bland and Altman 1986: two bounds of 4 mm make one of 4 x root 2 = 5.66 mm for the difference.
    [(None, True), (0.5, True), (3.5, True), (4.0, False)],
)
def test_a_size_from_a_photo_moves_only_beyond_the_photos_error(
    error: float | None, flagged: bool
) -> None:
    found = raised(seen(length_mm=(30.0, 35.2), length_error_mm=(error, error)))
    assert ("size" in found) is flagged
    if flagged and error == 3.5:
        assert "less than 4.9 mm is measurement error" in found["size"].figures


def test_one_size_from_a_photo_and_one_by_ruler_have_both_errors() -> None:
    """Design value 1 mm of the ruler, 4 mm either way of the photo: root of 1.96² + 4² = 4.5."""
    for after, flagged in ((34.4, False), (34.5, True)):
        course = seen(width_mm=(30.0, after), width_error_mm=(None, 4.0))
        assert ("size" in raised(course)) is flagged


def test_a_size_that_settled_again_is_no_news() -> None:
    assert "size" not in raised(seen(width_mm=(40.0, 30.0, 30.0)))


@pytest.mark.parametrize(("days", "expected"), [(55, True), (56, False)])
def test_shrinking_after_surgery_is_expected_for_eight_weeks(days: int, expected: bool) -> None:
    surgery = START + timedelta(days=14 - days)
    shrinking = replace(seen(length_mm=(36.0, 32.0)), surgery=surgery)
    flag = raised(shrinking)["size"]
    assert ("still changing size after surgery" in flag.text) is expected
    assert ("mskcc/shrinks" in flag.sources) is expected


# --- skin, wear, output -----------------------------------------------------------------------
@pytest.mark.parametrize(
    ("before", "now", "text"),
    [
        ((raw(outer_mm=10.0),), (raw(outer_mm=20.0),), "The skin is getting worse."),
        ((raw(outer_mm=10.0),), (raw(outer_mm=11.0),), None),
        ((), (raw(),), "The skin is damaged again."),
        (None, (raw(),), None),
        ((raw(),), (), None),
    ],
)
def test_skin(before: object, now: object, text: str | None) -> None:
    found = raised(seen(skin=(before, now))).get("skin")
    assert (found.text if found else None) == text


@pytest.mark.parametrize(
    ("days", "flagged"),
    [
        ((7, 6, 5, 4, 3, 2), True),
        ((7, 6, 5, 4), False),  # too few for an interval
        ((2, 3, 4, 5, 6, 7), False),
        ((4, 4, 4, 4, 4, 4, 4, 4), False),
        ((6, 2, 5, 3, 6, 2), False),  # up and down: the interval holds 0
    ],
)
def test_wear_falling(days: tuple[int, ...], flagged: bool) -> None:
    worn = log(0, [(n, LEAK) for n in days])
    found = raised(course(visit(0), worn=worn, today=sum(days)))
    assert ("wear" in found) is flagged
    if flagged:
        assert found["wear"].figures.startswith("5 days shorter over 6 barriers")


@pytest.mark.parametrize("steps", [((4, 6), (3, 6)), ((4, 6), (3, 6), (2, 2))])
def test_wear_that_fell_once_and_stayed_there_is_not_ever_sooner(
    steps: tuple[tuple[int, int], ...],
) -> None:
    """Most pairs of barriers lasted alike: by Sen the slope may just be none."""
    worn = log(0, [(days, LEAK) for days, many in steps for _ in range(many)])
    assert "wear" not in raised(course(visit(0), worn=worn, today=48))


def test_one_barrier_that_came_off_soon_is_not_many() -> None:
    """Half of the time from the first to the last is day 25: after it this one alone."""
    worn = (*log(0, [(n, LEAK) for n in (7, 6, 5, 4, 3, 2)]), *log(50, [(2, LEAK)]))
    assert "wear" not in raised(course(visit(0), worn=worn, today=56))


def test_falling_wear_is_told_over_all_its_days_with_the_interval() -> None:
    """Sen 1968: of the fifteen slopes between six barriers the middle one, and the second from
    either end: 1 day in 5, 2 in 13 and 2 in 7, over the 25 days from the first to the last."""
    worn = log(0, [(n, LEAK) for n in (7, 6, 5, 4, 3, 2)])
    assert raised(course(visit(0), worn=worn, today=27))["wear"].figures == (
        "5 days shorter over 6 barriers put on from 3 Mar 2025 to 28 Mar 2025 "
        "(95 % interval 3.8 to 7.1)."
    )


def test_planned_changes_alone_never_come_off_sooner() -> None:
    """The clinic asked for a shorter change day: nothing failed, and a few leaks early and late
    fail no sooner than they did."""
    sooner = [7, 7, 6, 6, 5, 4, 3, 3, 2, 2, 2, 2]
    planned = log(0, [(n, PLANNED) for n in sooner])
    assert "wear" not in raised(course(visit(0), worn=planned, today=sum(sooner)))
    leaks = log(
        0, [(n, LEAK if place in (1, 3, 5, 8, 11) else PLANNED) for place, n in enumerate(sooner)]
    )
    assert "wear" not in raised(course(visit(0), worn=leaks, today=sum(sooner)))


def test_old_wear_says_nothing_of_now() -> None:
    worn = log(0, [(n, LEAK) for n in (7, 6, 5, 4, 3, 2)])
    assert "wear" in raised(course(visit(0), worn=worn, today=56))
    assert "wear" not in raised(course(visit(0), worn=worn, today=57 + 27))


@pytest.mark.parametrize(("today", "counted"), [(56, 1), (57, 0)])
def test_falling_wear_is_looked_for_eight_weeks_back(today: int, counted: int) -> None:
    """Design value, from the day a barrier was put on."""
    assert len(recent(course(worn=log(0, [(3, PLANNED)]), today=today))) == counted


@pytest.mark.parametrize(("oldest", "counted"), [(14, 1), (15, 0)])
def test_a_barrier_worn_for_more_than_two_weeks_is_a_typing_error(
    oldest: int, counted: int
) -> None:
    worn = [Worn(day(0), day(oldest), PLANNED), *log(20, [(3, PLANNED), (2, PLANNED)])]
    assert len(recent(course(visit(0), worn=worn, today=30))) == 2 + counted


def test_a_barrier_on_which_the_log_contradicts_itself_is_not_counted() -> None:
    worn = [replace(Worn(day(0), day(3), PLANNED), disputed=True), *log(3, [(2, PLANNED)])]
    assert [point.value for point in recent(course(worn=worn, today=30))] == [2]


def test_wear_that_has_not_ended_has_no_length_yet() -> None:
    ended = log(0, [(3, PLANNED), (2, PLANNED)])
    going_on = [*ended, Worn(day(5)), Worn(day(6), day(31), PLANNED)]
    assert recent(course(worn=going_on, today=30)) == recent(course(worn=ended, today=30))
    assert [point.value for point in recent(course(worn=ended, today=5))] == [3, 2]
    assert [point.value for point in recent(course(worn=ended, today=4))] == [3]


@pytest.mark.parametrize(
    ("volumes", "text"),
    [
        ((1000.0, 1000.0), "High output at two visits in a row."),
        ((1000.0, 999.0), None),
        ((999.0, 1000.0), None),  # 1 mL is no rise
        ((800.0, 1058.0), "Output is high and rising."),  # 2.77 times 10 % of the mean
        ((800.0, 1057.0), None),
        ((1000.0, 1321.0), "High output at two visits in a row."),
        ((1000.0, 1322.0), "High output at two visits in a row, and rising."),
        ((1000.0, None, 1000.0), "High output at two visits in a row."),
        ((1800.0,), None),
    ],
)
def test_high_output(volumes: tuple[float | None, ...], text: str | None) -> None:
    found = raised(seen(volume_ml_24h=volumes)).get("high_output")
    assert (found.text if found else None) == text


@pytest.mark.parametrize(
    ("last", "urgency"),
    # A stoma of more than 42 days, no risk, medicines known (facts of 2026, 1.6).
    [(1100.0, Urgency.TELEPHONE), (1600.0, Urgency.TELEPHONE), (2000.0, Urgency.EMERGENCY)],
)
def test_it_is_as_urgent_as_the_newest_volume_alone(last: float, urgency: Urgency) -> None:
    calm = {"absent": frozenset(Symptom), "medicines": frozenset(), "days_at_volume": 1.0}
    high = seen(volume_ml_24h=(1500.0, last), **{k: (v, v) for k, v in calm.items()})
    assert raised(high)["high_output"].urgency is urgency
    assert "high_output" not in raised(replace(high, kind=StomaKind.UROSTOMY))


def test_output_usual_for_a_new_stoma_is_told_without_urgency() -> None:
    """Facts of 2026: up to 42 days after surgery under 1200 mL without a sign asks for no call."""
    calm = {"absent": frozenset(Symptom), "medicines": frozenset(), "days_since_surgery": 20}
    new = seen(volume_ml_24h=(1000.0, 1100.0), **{k: (v, v) for k, v in calm.items()})
    assert raised(new)["high_output"].urgency is None


def test_a_visit_that_did_not_measure_the_output_leaves_its_urgency() -> None:
    calm = {"absent": frozenset(Symptom), "medicines": frozenset(), "days_at_volume": 1.0}
    high = seen(volume_ml_24h=(1500.0, 1600.0, None), **{k: (v,) * 3 for k, v in calm.items()})
    assert raised(high)["high_output"].urgency is Urgency.TELEPHONE


def test_output_on_its_agreed_target_is_no_flag_of_the_course() -> None:
    calm = {"absent": frozenset(Symptom), "medicines": frozenset(), "weight_kg": 60.0}
    high = seen(volume_ml_24h=(1700.0, 1750.0), **{k: (v, v) for k, v in calm.items()})
    agreed = Baseline(BaselineKind.OUTPUT_TARGET, "nutrition team", value=1800.0)
    assert "high_output" not in raised(replace(high, baselines=(agreed,)))
    over = replace(agreed, value=1300.0)
    assert raised(replace(high, baselines=(over,)))["high_output"].urgency is Urgency.SAME_DAY


# --- of every flag ----------------------------------------------------------------------------
def everything() -> Course:
    return seen(
        protrusion_mm=(24.0, 2.0),
        width_mm=(30.0, 40.0),
        prolapse=((), prolapsed(30.0)),
        bulges=((), bulging(20.0, 80.0)),
        skin=((), (raw(),)),
        volume_ml_24h=(1000.0, 2100.0),
    )


def test_every_flag_says_rule_figures_and_a_known_source_and_the_urgent_come_first() -> None:
    worn = log(0, [(n, LEAK) for n in (7, 6, 5, 4, 3, 2)])
    found = flags(replace(everything(), worn=worn, today=day(28)))
    assert {flag.key for flag in found} == {
        *("high_output", "skin", "retraction", "prolapse", "hernia", "wear", "size")
    }
    ranks = [len(Urgency) if f.urgency is None else f.urgency.rank for f in found]
    assert ranks == sorted(ranks)
    for flag in found:
        assert flag.rule
        assert flag.figures.endswith(".")
        assert set(flag.sources) <= CITABLE
        assert flag.sources
        assert all(reason.sources for reason in flag.because)


@settings(max_examples=80)
@given(st.lists(st.tuples(*[st.floats(0, 1)] * 6), min_size=1, max_size=6))
def test_a_millimetre_is_never_a_change(steps: list[tuple[float, ...]]) -> None:
    """Every length within one millimetre of every other."""
    visits = (
        visit(
            14 * n,
            well(
                length_mm=30 + a,
                width_mm=28 + b,
                protrusion_mm=19 + c,
                prolapse=prolapsed(20 + d),
                bulges=bulging(20 + e, 60 + f),
            ),
        )
        for n, (a, b, c, d, e, f) in enumerate(steps)
    )
    assert flags(course(*visits, today=90)) == ()


@settings(max_examples=40)
@given(st.permutations(range(4)))
def test_the_order_that_comes_in_does_not_matter(order: list[int]) -> None:
    given_course = seen(protrusion_mm=(30.0, 26.0, 18.0, 12.0), width_mm=(30.0, 30.0, 30.0, 36.0))
    turned = course(*(given_course.visits[i] for i in order), today=56)
    assert flags(turned) == flags(given_course)


def test_one_visit_shows_no_course() -> None:
    assert flags(course(visit(0, well(protrusion_mm=-10.0)))) == ()
    assert flags(course()) == ()


def test_a_stoma_that_was_closed_calls_no_one() -> None:
    high = seen(volume_ml_24h=(2100.0, 2200.0))
    assert [flag.key for flag in flags(high)] == ["high_output"]
    assert flags(replace(high, closed=high.today)) == ()
    tomorrow = high.today + timedelta(days=1)
    assert flags(replace(high, closed=tomorrow)) == flags(high)

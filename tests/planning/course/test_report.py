"""Headline, figures in words and the whole report, in worked courses.

Outside numbers: exact Poisson intervals of Garwood (4 leaks in 61 days: 0.13 to 1.18 a week; none
in 84 days: up to 0.31), and the slope of an invented course, worked with SciPy beforehand.
"""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import timedelta

import pytest

from planning.course.figures import figures
from planning.course.record import Course, Event, EventKind, Worn
from planning.course.report import course_report
from planning.course.results import Figure
from planning.course.series import series
from planning.evidence.citation import CITABLE
from planning.inputs.findings import StomaKind
from tests.planning.builders import ALL, leaking, raw, well
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
from tests.planning.course.test_outcome import COURSE


def told(course_: Course) -> dict[str, Figure]:
    return {figure.key: figure for figure in figures(course_, series(course_))}


# --- figures ----------------------------------------------------------------------------------
def test_leaks_a_week_with_the_exact_interval() -> None:
    worn = log(0, [(5, LEAK)] * 4 + [(5, PLANNED)] * 8 + [(1, PLANNED)])
    text = told(course(visit(0), worn=worn, today=61))["leaks"].text
    assert text == "0.46 a week (95 % interval 0.13 to 1.18): 4 leaks in 61 days of wear."


def test_no_leak_still_has_an_upper_limit() -> None:
    worn = log(0, [(6, PLANNED)] * 14)
    text = told(course(visit(0), worn=worn, today=84))["leaks"].text
    assert text == "0 a week (95 % interval 0 to 0.31): no leak in 84 days of wear."


def test_survival_by_hand() -> None:
    """2 of 5 fail on day 2: 3 / 5 hold longer than 3 days; one of the rest fails on day 4."""
    worn = log(0, [(2, LEAK), (2, LEAK), (4, LEAK), (5, PLANNED), (6, PLANNED)])
    text = told(course(visit(0), worn=worn))["wear"].text
    assert text.startswith("Median time to failure 4 days (95 % interval 2 to not reached)")
    share = re.search(r"60 % held longer than 3 days \(95 % interval (\d+) to (\d+) %\)", text)
    assert share is not None
    # As R's survfit and lifelines have it, on the scale of log(-log).
    assert [int(part) for part in share.groups()] == [13, 88]
    assert text.endswith("5 barriers, 3 failed (leaked, fell off, or itched or hurt).")


def test_shares_of_barriers_are_said_in_whole_percent() -> None:
    """By hand: 4 of 6 hold, 66.7 %; on the scale of log(-log) the error is the root of 2 / (6 * 4)
    over ln 1.5, so the interval runs from 19.5 to 90.4 %."""
    worn = log(0, [(2, LEAK)] * 2 + [(5, PLANNED)] * 4)
    text = told(course(visit(0), worn=worn))["wear"].text
    assert "67 % held longer than 3 days (95 % interval 19 to 90 %)" in text


def test_nothing_failed_is_not_reached() -> None:
    text = told(course(visit(0), worn=log(0, [(4, PLANNED)] * 5)))["wear"].text
    assert text.startswith("Median time to failure not reached; 100 % held longer than 3 days.")


@pytest.mark.parametrize("key", ["wear", "leaks"])
def test_no_log_and_an_empty_log_say_so(key: str) -> None:
    assert told(course(visit(0)))[key].text == "No wear log was kept."
    assert "too few to say" in told(course(visit(0), worn=()))[key].text


def test_worn_too_briefly_no_share_is_given() -> None:
    text = told(course(visit(0), worn=log(0, [(2, PLANNED)] * 5)))["wear"].text
    assert "; none was watched for 3 days. 5 barriers, 0 failed" in text


def test_without_a_log_the_plan_in_force_has_no_figures_of_its_own() -> None:
    found = told(course(visit(0), visit(14, None, "ring")))
    assert "wear" in found
    assert "wear_now" not in found


def test_the_plan_in_force_has_figures_of_its_own() -> None:
    found = told(COURSE)
    assert found["leaks_now"].label == "Leaks since 14 Apr 2025"
    assert found["leaks_now"].text.startswith("0.25 a week")
    assert "leaks_now" not in told(replace(COURSE, worn=COURSE.worn[21:] if COURSE.worn else ()))


def test_the_slope_of_a_shrinking_stoma() -> None:
    days = (7, 14, 28, 42, 70, 98, 140, 182)
    widths = (41.0, 39.0, 37.0, 35.0, 33.0, 32.0, 31.0, 31.0)
    visits = (visit(n, well(width_mm=w)) for n, w in zip(days, widths, strict=True))
    text = told(course(*visits, today=190))["slope_width"].text
    minus = "\N{MINUS SIGN}"
    assert text.startswith(
        f"{minus}0.47 mm a week (95 % interval {minus}1 to {minus}0.2), falling: 8 values"
    )
    assert "8 values from 10 Mar 2025 to 1 Sep 2025." in text
    assert "less than 2.8 mm is within measurement error" in text


def test_the_error_of_an_area_goes_by_the_first_and_the_last_alone() -> None:
    """By hand: rings 10 and 20 mm wide round a radius of 15 mm are pi (625 - 225) and
    pi (1225 - 225); 15 % of their mean, times 1.96 and the root of 2, is 914 mm²."""
    widths = (10.0, 30.0, 5.0, 30.0, 20.0)
    course_ = seen(skin=tuple((raw(ALL, outer_mm=width),) for width in widths))
    text = told(course_)["slope_burden"].text
    assert "5 values from 3 Mar 2025 to 28 Apr 2025" in text
    assert "less than 914 mm² is within measurement error" in text


def test_what_never_changed_neither_rises_nor_falls() -> None:
    text = told(seen(width_mm=(30.0,) * 6))["slope_width"].text
    assert text.startswith("0 mm a week (95 % interval 0 to 0), ")
    assert "rising" not in text
    assert "falling" not in text


def test_a_rise_too_small_to_write_has_no_sign() -> None:
    widths = tuple(30 + 0.002 * n for n in range(6))
    text = told(seen(width_mm=widths))["slope_width"].text
    assert text.startswith("0 mm a week (95 % interval 0 to 0), ")


def test_a_slope_upwards_has_its_sign() -> None:
    text = told(seen(width_mm=tuple(30.0 + n for n in range(6))))["slope_width"].text
    assert text.startswith("+0.5 mm a week (95 % interval +0.5 to +0.5), rising: 6 values")


def test_four_visits_give_no_slope() -> None:
    text = told(seen(protrusion_mm=(25.0, 20.0, 15.0, 10.0)))["slope_protrusion"].text
    assert text == "Slope of the last 180 days: too few to say: 4 of at least 5 days with a value."


@pytest.mark.parametrize(
    ("skin", "text"),
    [
        (((raw(),), None, ()), "Damaged on 3 Mar 2025, seen healed 28 days later."),
        (((raw(),), (raw(),), None), "Damaged since 3 Mar 2025, still damaged 14 days later."),
        (((), (), (raw(),)), "Damaged on 31 Mar 2025, not looked at since."),
        (((), None, ()), "Intact whenever it was looked at."),
        ((None, None, None), "Skin was not looked at."),
        (((raw(outer_mm=None),), (), ()), "Damaged on 3 Mar 2025, seen healed 14 days later."),
    ],
)
def test_time_to_healed_skin(skin: tuple[object, ...], text: str) -> None:
    assert told(seen(skin=skin))["healing"].text == text


def test_shrinkage_only_where_the_first_weeks_were_measured() -> None:
    shrinking = seen(length_mm=(40.0, 32.0), width_mm=(40.0, 32.0))
    early = replace(shrinking, surgery=START - timedelta(days=7))
    assert told(early)["shrinkage"].text.startswith("80 % of the first width across (40 mm on")
    assert "not settled yet" in told(early)["shrinkage"].text
    assert "shrinkage" not in told(shrinking)


def test_what_is_left_of_the_first_size_is_said_in_whole_percent() -> None:
    """By hand: 26 of 30 mm are 86.7 %; one size alone is too few."""
    surgery = START - timedelta(days=7)
    twice = replace(seen(length_mm=(30.0, 26.0), width_mm=(30.0, 26.0)), surgery=surgery)
    assert told(twice)["shrinkage"].text.startswith("87 % of the first width across")
    once = replace(twice, visits=twice.visits[:1])
    assert told(once)["shrinkage"].text == "Too few to say: 1 of at least 2 days with a size."


def test_every_figure_is_whole_and_cites_what_is_known() -> None:
    for figure in told(COURSE).values():
        assert figure.text.endswith(".")
        assert figure.label
        assert figure.sources
        assert set(figure.sources) <= CITABLE


# --- headline ---------------------------------------------------------------------------------
def test_the_surgeons_minute() -> None:
    asked = Event(day(14), EventKind.REFERRAL, "Surgeon: is it retracting?", waits=True)
    answered = Event(day(3), EventKind.REFERRAL, "Surgeon: may it be moved?")
    no_question = Event(day(20), EventKind.PLAN_CHANGE, "A belt.", waits=True)
    fallen = replace(COURSE.visits[2], findings=well(protrusion_mm=12.0, volume_ml_24h=2500.0))
    asking = replace(
        COURSE,
        visits=(*COURSE.visits[:2], fallen),
        events=(asked, answered, no_question),
        today=day(73),
    )
    lines = course_report(asking).headline
    begins = [
        "Output is high and rising. 700 mL/24 h on 14 Apr 2025, 2500",
        "The stoma is lower than before and is short now",
        "Asked on 17 Mar 2025, no answer for 59 days: Surgeon: is it retracting?",
        "The last change (14 Apr 2025: soft convex barrier and ring): It helped. Leaks a week went",
        "Damaged skin fell from 884 mm² (3 Mar 2025) to 0 mm² (12 May 2025).",
        "Length (30 mm) and width (30 mm) have not changed beyond measuring error.",
    ]
    assert len(lines) == len(begins)
    for line, begin in zip(lines, begins, strict=True):
        assert line.startswith(begin)


def test_a_change_too_young_to_tell_has_the_one_before_beside_it() -> None:
    young = replace(COURSE, visits=(*COURSE.visits[:2], visit(70, well(), "belt")))
    lines = course_report(young).headline
    assert lines[0].startswith(
        "The last change (12 May 2025: belt): No difference has been shown yet. It is"
    )
    assert lines[1].startswith("The change before it (14 Apr 2025: soft convex barrier and ring)")


def test_a_change_that_can_be_judged_needs_none_beside_it() -> None:
    earlier = replace(COURSE.visits[0], changed=("paste",))
    lines = course_report(replace(COURSE, visits=(earlier, *COURSE.visits[1:]))).headline
    assert lines[0].startswith("The last change (14 Apr 2025: soft convex barrier and ring): It")
    assert not any(line.startswith("The change before it") for line in lines)


def test_the_only_change_has_none_before_it() -> None:
    lines = course_report(course(visit(0, None, "ring"))).headline
    assert len(lines) == 1
    assert lines[0].startswith(
        "The last change (3 Mar 2025: ring): No difference has been shown yet"
    )


def test_a_flag_without_urgency_is_told_once_after_the_last_change() -> None:
    lines = course_report(seen(width_mm=(36.0, 30.0))).headline
    assert [line.split(".")[0] for line in lines] == [
        "No plan has changed anything so far",
        "The stoma changed size: cut again, and ask why (weight, hernia, prolapse)",
        "Protrusion (25 mm), length (30 mm) and damaged skin (0 mm²) have not changed beyond "
        "measuring error",
    ]


def test_what_moved_and_what_stayed_is_told_of_what_was_measured_alone() -> None:
    unseen = {"length_mm": (None, None), "width_mm": (None, None), "skin": (None, None)}
    higher = course_report(seen(protrusion_mm=(22.0, 28.0), **unseen)).headline
    assert higher[1:] == ("Protrusion rose from 22 mm (3 Mar 2025) to 28 mm (17 Mar 2025).",)
    same = course_report(seen(protrusion_mm=(25.0, 26.0), **unseen)).headline
    assert same[1:] == ("Protrusion (26 mm) has not changed beyond measuring error.",)


@pytest.mark.parametrize(
    ("asked", "waiting"),
    [(60, ", no answer yet: "), (59, ", no answer for 1 day: "), (58, ", no answer for 2 days: ")],
)
def test_a_question_says_how_long_it_has_waited(asked: int, waiting: str) -> None:
    event = Event(day(asked), EventKind.REFERRAL, "Surgeon: may it be moved?", waits=True)
    lines = course_report(course(visit(0), events=(event,), today=60)).headline
    assert waiting in lines[0]


def test_nothing_signed_and_nothing_changed_are_said() -> None:
    assert course_report(course()).headline == ("No visit has been signed yet.",)
    assert course_report(course(visit(0))).headline == ("No plan has changed anything so far.",)


def test_a_closed_stoma_says_so_first() -> None:
    assert course_report(course(visit(0), closed=day(50))).headline[0] == (
        "This stoma was closed on 22 Apr 2025."
    )


def test_the_report_is_the_same_in_any_order() -> None:
    worn = tuple(reversed(COURSE.worn or ()))
    turned = replace(COURSE, visits=tuple(reversed(COURSE.visits)), worn=worn)
    assert course_report(turned) == course_report(COURSE)


def test_a_long_course_is_answered_whole() -> None:
    visits = (visit(14 * n, leaking() if n % 3 else well(), *["ring"] * (n % 2)) for n in range(40))
    worn = [Worn(day(n), day(n + 3), LEAK if n % 2 else PLANNED) for n in range(0, 560, 3)]
    report = course_report(course(*visits, worn=worn, today=570))
    assert len(report.outcomes) == 40
    assert report.headline


# --- what moved ---------------------------------------------------------------------------------
def test_what_a_flag_says_comes_first_of_what_moved() -> None:
    """An output of 2600 is an emergency; a lower stoma is looked at at the next visit."""
    low_and_much = seen(
        protrusion_mm=(24.0, 12.0), length_mm=(40.0, 30.0), volume_ml_24h=(750, 2600)
    )
    moved = course_report(low_and_much).moved
    assert [one.key for one in moved] == ["output", "protrusion", "length"]
    assert [(one.since.value, one.latest.value) for one in moved][:2] == [(750, 2600), (24, 12)]


def test_nothing_within_error_moved_and_urine_is_left_out() -> None:
    assert course_report(seen(protrusion_mm=(24.0, 20.0), volume_ml_24h=(750, 900))).moved == ()
    urine = replace(seen(volume_ml_24h=(750, 2600)), kind=StomaKind.UROSTOMY)
    assert course_report(urine).moved == ()

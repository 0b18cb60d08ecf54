"""The verdict on leaks, on wear and on skin: hand-worked limits on both sides, and what must hold.

Outside numbers: the exact binomial by hand (half to the power of n); the leukaemia remission times
of Freireich 1963 with their published log-rank test (chi-squared 16.8, p 4.17e-05) and medians.
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.course.judge_leaks import judge_leaks
from planning.course.judge_skin import judge_skin
from planning.course.judge_wear import judge_wear
from planning.course.periods import Wear
from planning.course.results import Finding, Verdict
from planning.course.skin import burden_sem
from planning.course.too_little_wear import too_few
from planning.inputs.clock import ClockHours
from planning.inputs.findings import RemovalReason
from tests.planning.builders import raw, well
from tests.planning.course.course_builders import FELL, ITCH, LEAK, PLANNED, leaks, visit, wear

HELPED, SAME, WORSE = Verdict.HELPED, Verdict.NO_DIFFERENT, Verdict.WORSE
OPEN = Verdict.CANNOT_TELL
MIRROR = {HELPED: WORSE, WORSE: HELPED, SAME: SAME, OPEN: OPEN}


# --- leaks ----------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("before", "since", "verdict", "p"),
    [
        (6, 0, HELPED, "p 0.031"),  # 2 / 2 ** 6
        (5, 0, OPEN, "p 0.062"),  # 2 / 2 ** 5: chance makes it once in sixteen
        (0, 6, WORSE, "p 0.031"),
        (0, 5, OPEN, "p 0.062"),
        (5, 3, SAME, "p 0.73"),  # 0.6 times as often
        (4, 2, OPEN, "p 0.69"),  # half as often is no longer alike
        (3, 7, OPEN, "p 0.34"),  # nor, of ten leaks, more than twice as often
        (2, 4, OPEN, "p 0.69"),
        (4, 3, OPEN, "p 1"),  # seven leaks are too few to call two rates alike
        (4, 4, SAME, "p 1"),
        (1, 1, OPEN, "p 1"),
    ],
)
def test_leaks_in_equal_time(before: int, since: int, verdict: Verdict, p: str) -> None:
    found = judge_leaks(leaks(before), leaks(since))
    assert found.verdict is verdict
    assert p in found.text


def test_the_figures_are_in_the_text_and_beside_it() -> None:
    found = judge_leaks(leaks(7, days=20.0), leaks(1, days=50.0))
    assert (found.before, found.after) == pytest.approx((2.45, 0.14))
    assert found.text == (
        "Leaks a week went from 2.45 to 0.14 (7 leaks in 20 days before, 1 in 50 days since; "
        "p < 0.001)."
    )
    alike = judge_leaks(leaks(1, days=1.0), leaks(7, days=7.0)).text
    assert alike.startswith("Leaks a week stayed at 7 (1 leak in 1 day before, 7 in 7 days since")


@pytest.mark.parametrize(("days", "verdict"), [(26.0, HELPED), (27.0, OPEN)])
def test_what_chance_makes_once_in_twenty_may_be_chance(days: float, verdict: Verdict) -> None:
    """By hand: all four leaks before, none in 30 days since: (26 / 56) to the 4th is 0.046,
    (27 / 57) to the 4th 0.050."""
    assert judge_leaks(leaks(4, days=days), leaks(0)).verdict is verdict


@pytest.mark.parametrize(("since", "verdict"), [(11, SAME), (12, OPEN)])
def test_less_than_twice_as_often_may_be_no_different(since: int, verdict: Verdict) -> None:
    assert judge_leaks(leaks(6, barriers=20), leaks(since, barriers=20)).verdict is verdict


def test_leaks_a_week_are_said_to_a_hundredth() -> None:
    """By hand: 5 and 2 in 30 days are 1.1667 and 0.4667 a week."""
    assert "went from 1.17 to 0.47 (" in judge_leaks(leaks(5), leaks(2)).text


def test_no_leak_at_all_is_no_different() -> None:
    found = judge_leaks(leaks(0), leaks(0))
    assert (found.verdict, found.before, found.after) == (SAME, 0, 0)


@pytest.mark.parametrize("judge", [judge_leaks, judge_wear])
def test_five_barriers_on_each_side_are_needed(judge: object) -> None:
    assert callable(judge)
    four, five = leaks(0, barriers=4), leaks(0, barriers=5)
    assert judge(five, five).verdict is SAME
    for before, since, words in ((four, five, "4 barriers before"), (five, four, "4 barriers s")):
        found: Finding = judge(before, since)
        assert found.verdict is OPEN
        assert words in found.text
        assert "cannot be compared: only " in found.text
        assert found.text.endswith(", and it takes at least 5 each time.")
        assert found.before is None
        assert found.after is None
    assert too_few(five, five) == ""


def test_a_barrier_still_on_is_not_one_of_the_five() -> None:
    four_and_one = wear([3, 3, 3, 3, 3], PLANNED, PLANNED, PLANNED, PLANNED, None)
    assert judge_leaks(leaks(6), four_and_one).verdict is OPEN


@pytest.mark.parametrize("judge", [judge_leaks, judge_wear])
@pytest.mark.parametrize(("before", "since"), [(None, leaks(6)), (leaks(6), None)])
def test_a_log_on_one_side_alone_compares_nothing(
    judge: object, before: Wear | None, since: Wear | None
) -> None:
    assert callable(judge)
    assert judge(before, since).verdict is OPEN


def test_no_log_says_so() -> None:
    assert judge_leaks(None, None).text == "Leaks cannot be compared: no wear log was kept."
    assert judge_wear(None, None).text == "Wear cannot be compared: no wear log was kept."


def test_barriers_left_out_are_named() -> None:
    found = judge_leaks(leaks(6), replace(leaks(0, barriers=4), left_out=2))
    assert "4 barriers since (2 left out, worn for an implausibly long time)" in found.text


def test_worn_for_no_whole_day_is_too_little() -> None:
    brief = wear([0.0] * 5, LEAK, LEAK, LEAK, LEAK, LEAK)
    for found in (judge_leaks(leaks(3), brief), judge_leaks(brief, leaks(3))):
        assert found.verdict is OPEN
        assert "whole day" in found.text


# --- wear -----------------------------------------------------------------------------------
_TREATED = (6, 6, 6, 7, 10, 13, 16, 22, 23, 6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35)
_PLACEBO = (1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23)


def test_the_published_remission_times_are_judged_as_published() -> None:
    """Freireich 1963, Blood 21:699: medians 8 and 23, log-rank p 4.17e-05."""
    treated = wear(_TREATED, *[LEAK] * 9, *[None] * 12)
    placebo = wear(_PLACEBO, *[LEAK] * 21)
    found = judge_wear(placebo, replace(treated, ended=21))
    assert found.verdict is HELPED
    assert found.text == (
        "Before, half of the barriers held 8 days; since, half held 23 days (p < 0.001)."
    )
    assert judge_wear(replace(treated, ended=21), placebo).verdict is WORSE


def test_a_published_difference_that_may_be_chance_is_not_counted() -> None:
    """Miller's leukaemia remissions, maintained and not: log-rank 3.396, p 0.0653."""
    maintained = wear((9, 13, 18, 23, 31, 34, 48, 13, 28, 45, 161), *[LEAK] * 7, *[None] * 4)
    other = wear((5, 5, 8, 8, 12, 23, 27, 30, 33, 43, 45, 16), *[LEAK] * 11, None)
    found = judge_wear(other, replace(maintained, ended=11))
    assert found.verdict is OPEN
    assert "(p 0.065). That may be chance: more barriers" in found.text


def test_itch_ends_wear_but_is_no_leak() -> None:
    itching = wear([1] * 8, *[ITCH] * 8)
    long = wear([5] * 8, *[PLANNED] * 8)
    assert judge_wear(long, itching).verdict is WORSE
    assert judge_leaks(long, itching).verdict is SAME


def test_falling_off_is_a_leak_and_a_failure() -> None:
    falling = wear([1] * 8, *[FELL] * 8)
    long = wear([5] * 8, *[PLANNED] * 8)
    assert judge_leaks(long, falling).verdict is WORSE
    assert judge_wear(long, falling).verdict is WORSE


def test_too_few_failures_to_compare_curves_is_not_yet_known() -> None:
    found = judge_wear(leaks(3), leaks(1))
    assert found.verdict is OPEN
    assert "4 of at least 5 failures" in found.text


def on_day_three(failed: int) -> Wear:
    """Ten barriers, all taken off on day 3, so many because they failed."""
    return wear([3] * 10, *[LEAK] * failed, *[PLANNED] * (10 - failed))


@pytest.mark.parametrize(
    ("before", "since", "verdict"),
    [(8, 5, SAME), (8, 4, OPEN), (5, 8, SAME), (4, 8, OPEN), (4, 4, SAME), (4, 3, OPEN)],
)
def test_failures_are_alike_within_half_and_twice_as_often(
    before: int, since: int, verdict: Verdict
) -> None:
    """By hand: with all on one day the rates are as the failures; half is no longer alike, and
    seven failures are too few to call two rates alike."""
    assert judge_wear(on_day_three(before), on_day_three(since)).verdict is verdict


def test_the_shares_that_hold_for_three_days_stand_beside_the_words() -> None:
    """By hand: 8 of 12 hold, 66.7 %; since, none was watched for longer than 2 days."""
    before = wear([2.0] * 4 + [5.0] * 8, *[LEAK] * 4, *[PLANNED] * 8)
    since = wear([2.0] * 8, *[PLANNED] * 8)
    found = judge_wear(before, since)
    assert (found.before, found.after) == (66.7, None)


def test_not_reached_is_said_and_never_a_number() -> None:
    said = "since, more than half held as long as they were worn"
    assert said in judge_wear(leaks(6), leaks(0)).text


def test_where_few_failed_both_times_it_is_said_once() -> None:
    assert judge_wear(leaks(4), leaks(4)).text == (
        "Before and since, more than half of the barriers held as long as they were worn (p 1.00)."
    )


def test_where_nothing_failed_no_half_is_spoken_of() -> None:
    found = judge_wear(leaks(0), leaks(0))
    assert (found.verdict, found.text) == (SAME, "No barrier failed before or since.")


# --- skin -----------------------------------------------------------------------------------
def skin(outer_mm: float | None, hours: int = 1) -> object:
    spot = raw(ClockHours.of(*range(1, hours + 1)), outer_mm=outer_mm)
    return well(skin=(spot,))


def judged(before: object, *later: object) -> Finding:
    plan = visit(0, before)  # type: ignore[arg-type]
    return judge_skin(plan, [visit(7 * n, f) for n, f in enumerate(later, 1)])  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("outer_mm", "verdict"),
    [
        (3.0, SAME),  # pi/12 (18 squared - 15 squared) = 25.9 mm², under 2.77 x 10
        (4.0, WORSE),  # 35.6 mm²
    ],
)
def test_new_damage_counts_from_the_smallest_detectable_area(
    outer_mm: float, verdict: Verdict
) -> None:
    assert judged(well(), skin(outer_mm)).verdict is verdict
    assert judged(skin(outer_mm), well()).verdict is MIRROR[verdict]


def test_the_error_of_a_large_area_is_a_share_of_it() -> None:
    assert burden_sem(0, 100) == 10
    assert burden_sem(1000, 1000) == 150
    assert judged(skin(10, 3), skin(10, 4)).verdict is SAME  # 3 hours or 4: 29 % of the mean
    assert judged(skin(10, 3), skin(10, 5)).verdict is WORSE  # 50 %
    assert judged(skin(10, 3), skin(10, 4)).text == (
        "314 mm² of skin was damaged when the plan was made, 419 mm² on 10 Mar 2025; "
        "a difference under 152 mm² is within measuring error."
    )


def test_areas_are_said_in_whole_square_millimetres() -> None:
    """By hand: an hour of 10 mm round a radius of 15 is pi/12 (625 - 225) = 104.7; of 20 mm,
    pi/12 (1225 - 225) = 261.8."""
    then = "105 mm² of skin was damaged when the plan was made"
    assert judged(skin(10, 1), skin(20, 1)).text == f"{then}, 262 mm² on 10 Mar 2025."
    assert judged(skin(10, 1), well()).text == f"{then}, none on 10 Mar 2025."
    assert judged(well(), skin(10, 1)).text == (
        "The skin was intact when the plan was made, and 105 mm² of it damaged on 10 Mar 2025."
    )


def test_the_last_visit_that_measured_the_skin_answers() -> None:
    found = judged(skin(10), skin(20), well(), well(skin=None))
    assert found.verdict is HELPED
    assert found.text.endswith("of skin was damaged when the plan was made, none on 17 Mar 2025.")


@pytest.mark.parametrize(
    ("before", "later", "missing"),
    [
        (well(skin=None), [well()], "not looked at when the plan was made"),
        (skin(None), [well()], "size of the damaged area was not recorded when"),
        (well(), [], "no visit since"),
        (well(), [well(skin=None)], "not been looked at since"),
        (well(), [skin(None)], "damaged on 10 Mar 2025, but the size"),
        (skin(20), [well(), skin(None)], "damaged on 17 Mar 2025, but the size"),
    ],
)
def test_what_is_missing_is_said(before: object, later: list[object], missing: str) -> None:
    found = judged(before, *later)
    assert found.verdict is OPEN
    assert missing in found.text


def test_intact_before_and_since_is_no_different() -> None:
    assert judged(well(), well()).verdict is SAME


# --- what must always hold --------------------------------------------------------------------
_REASONS = st.sampled_from([PLANNED, LEAK, FELL, ITCH])
_SPANS = st.lists(st.tuples(st.integers(0, 14), _REASONS), min_size=0, max_size=16)


def as_wear(spans: list[tuple[int, RemovalReason]]) -> Wear:
    return wear([float(n) for n, _ in spans], *[reason for _, reason in spans])


@given(_SPANS)
def test_identical_periods_are_never_helped_or_worse(
    spans: list[tuple[int, RemovalReason]],
) -> None:
    same = as_wear(spans)
    for judge in (judge_leaks, judge_wear):
        assert judge(same, same).verdict in {SAME, OPEN}


@given(_SPANS, _SPANS)
def test_before_and_since_swapped_is_the_opposite(
    one: list[tuple[int, RemovalReason]], other: list[tuple[int, RemovalReason]]
) -> None:
    a, b = as_wear(one), as_wear(other)
    for judge in (judge_leaks, judge_wear):
        assert judge(b, a).verdict is MIRROR[judge(a, b).verdict]


_ORDER = {WORSE: 0, SAME: 1, OPEN: 1, HELPED: 2}


@given(_SPANS, _SPANS, st.data())
def test_a_leak_more_never_makes_the_verdict_on_leaks_better(
    before: list[tuple[int, RemovalReason]],
    since: list[tuple[int, RemovalReason]],
    data: st.DataObject,
) -> None:
    planned = [i for i, (_, reason) in enumerate(since) if reason is PLANNED]
    if not planned:
        return
    leaking = list(since)
    place = data.draw(st.sampled_from(planned))
    leaking[place] = (since[place][0], LEAK)
    first = judge_leaks(as_wear(before), as_wear(since))
    second = judge_leaks(as_wear(before), as_wear(leaking))
    assert _ORDER[second.verdict] <= _ORDER[first.verdict]

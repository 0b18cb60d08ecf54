"""The verdict on leaks, on wear and on skin: hand-worked limits on both sides, and what must hold.

Outside numbers: the check values of the clinical facts; the exact binomial by hand (half to the
power of n); the leukaemia remission times
of Freireich 1963 with their published log-rank test (chi-squared 16.8, p 4.17e-05) and medians.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.course.judge_leaks import halving_words, judge_leaks
from planning.course.judge_skin import judge_skin
from planning.course.judge_wear import judge_wear
from planning.course.margin import NOT_SHOWN, SETTLES, interval_words, rates_answer
from planning.course.periods import Wear
from planning.course.results import Finding, Verdict
from planning.course.skin_reading import AreaError, Reading, reading_of
from planning.course.too_little_wear import too_few
from planning.inputs.clock import ClockHours
from planning.inputs.findings import RemovalReason
from planning.inputs.usable_numbers import UnusableNumber
from planning.statistics.answer import Answer
from planning.statistics.error import MeasuredError
from tests.planning.builders import raw, well
from tests.planning.course.course_builders import FELL, ITCH, LEAK, PLANNED, leaks, visit, wear

HELPED, SAME, WORSE = Verdict.HELPED, Verdict.NO_DIFFERENT, Verdict.WORSE
OPEN = Verdict.CANNOT_TELL
MIRROR = {HELPED: WORSE, WORSE: HELPED, SAME: SAME, OPEN: OPEN}


# --- leaks ----------------------------------------------------------------------------------
def changes(many: int, of: int) -> Wear:
    """So many leaks at ``of`` changes, a day each."""
    return wear([1.0] * of, *[LEAK] * many, *[PLANNED] * (of - many))


@pytest.mark.parametrize(
    ("before", "since", "limits", "verdict"),
    [
        ((6, 20), (4, 20), "0.67 times, 95 % interval 0.14 to 2.81", OPEN),
        ((12, 40), (2, 40), "0.17 times, 95 % interval 0.02 to 0.75", HELPED),
        ((40, 200), (38, 200), "0.95 times, 95 % interval 0.59 to 1.52", OPEN),
        ((2, 40), (12, 40), "6 times, 95 % interval 1.34 to 55.2", WORSE),
    ],
)
def test_the_check_values_of_the_facts(
    before: tuple[int, int], since: tuple[int, int], limits: str, verdict: Verdict
) -> None:
    """danger-restraint-teaching.md, section 13, leaks, exact conditional, 95 % [C]."""
    found = judge_leaks(changes(*before), changes(*since), level=0.05)
    assert found.verdict is verdict
    assert limits in found.text


@pytest.mark.parametrize(
    ("before", "since", "verdict"),
    [
        (7, 0, HELPED),  # 2 / 2 ** 7: 0.016
        (6, 0, OPEN),  # 2 / 2 ** 6: 0.031, over 0.0221
        (0, 7, WORSE),
        (0, 6, OPEN),
        (12, 2, HELPED),  # 0.0129
        (5, 3, OPEN),  # was once called no different
        (8, 4, OPEN),  # a halving: not shown, and no less possible
        (60, 60, SAME),
        (40, 38, OPEN),
        (60, 30, HELPED),
    ],
)
def test_leaks_in_equal_time(before: int, since: int, verdict: Verdict) -> None:
    """One of three planned looks, section 13: level 0.0221, interval 97.8 %."""
    found = judge_leaks(leaks(before, 200), leaks(since, 200))
    assert found.verdict is verdict
    assert "97.8 % interval" in found.text


def test_the_figures_are_in_the_text_and_beside_it() -> None:
    found = judge_leaks(leaks(7, days=20.0), leaks(1, days=50.0))
    assert (found.before, found.after) == pytest.approx((2.45, 0.14))
    assert found.text == (
        "Leaks a week went from 2.45 to 0.14 (7 leaks in 20 days before, 1 in 50 days since; "
        "0.06 times, 97.8 % interval 0 to 0.56)."
    )
    alike = judge_leaks(leaks(1, days=1.0), leaks(7, days=7.0)).text
    assert alike.startswith("Leaks a week stayed at 7 (1 leak in 1 day before, 7 in 7 days since")
    never = judge_leaks(leaks(0), leaks(7)).text
    assert "none before, 97.8 % interval 1.11 to no limit)" in never


def test_no_different_needs_the_whole_interval_inside_the_margin() -> None:
    """Section 13: rate ratio 0.67 to 1.50, 90 % interval [DV]. 60 and 60: 0.73 to 1.37; 60 and 80:
    1.33 times, up to 1.79; 40 and 38 in 200 each: 0.638 to 1.414, still not yet [C]."""
    assert judge_leaks(leaks(60, 200), leaks(60, 200)).verdict is SAME
    assert judge_leaks(leaks(60, 200), leaks(80, 200)).verdict is OPEN
    assert judge_leaks(changes(40, 200), changes(38, 200)).verdict is OPEN


def test_what_only_beats_the_time_that_made_the_visit_did_not_help() -> None:
    """Section 13: else say that it would partly settle anyway [DV]."""
    found = judge_leaks(leaks(12, 40), leaks(2, 40), fair=False)
    assert (found.verdict, found.settles, found.chance) == (OPEN, True, 1.0)
    assert found.text.endswith(SETTLES)  # and not how long a diary would show it
    for before, since, verdict in ((2, 12, WORSE), (12, 12, OPEN), (12, 11, OPEN)):
        found = judge_leaks(leaks(before, 40), leaks(since, 40), fair=False)
        assert (found.verdict, found.settles) == (verdict, False)
    assert judge_leaks(leaks(60, 200), leaks(60, 200), fair=False).verdict is OPEN


def test_times_half_a_year_apart_are_compared_less_closely() -> None:
    near, far = (judge_leaks(leaks(60, 200), leaks(33, 200), gap=gap) for gap in (0.0, 182.0))
    assert (near.verdict, far.verdict) == (HELPED, OPEN)
    assert judge_leaks(leaks(60, 200), leaks(60, 200), gap=182.0).verdict is OPEN


def test_how_long_a_diary_would_show_a_halving_is_said() -> None:
    found = judge_leaks(leaks(84, 200, days=84), leaks(84, 200, days=84), gap=365.25)
    assert " With this diary, a halving s" not in found.text  # no different: nothing to wait for
    few = judge_leaks(leaks(4, days=28), leaks(2, days=28)).text
    assert few.endswith(" With this diary, a halving does not show within 12 weeks.")
    many = judge_leaks(leaks(50, 200, days=28), leaks(8, days=7)).text
    assert many.endswith(" With this diary, a halving shows after about 6 weeks.")


def test_of_no_leak_before_no_halving_is_spoken_of() -> None:
    found = judge_leaks(leaks(0), leaks(3))
    assert found.verdict is OPEN
    assert found.text.endswith(f" to no limit).{NOT_SHOWN}")


def test_leaks_a_week_are_said_to_a_hundredth() -> None:
    """By hand: 5 and 2 in 30 days are 1.1667 and 0.4667 a week."""
    assert "went from 1.17 to 0.47 (" in judge_leaks(leaks(5), leaks(2)).text


def test_no_leak_at_all_compares_nothing() -> None:
    """Two rates of which no one knows anything may well be twice one another."""
    found = judge_leaks(leaks(0), leaks(0))
    assert (found.verdict, found.before, found.after) == (OPEN, 0, 0)


@pytest.mark.parametrize("judge", [judge_leaks, judge_wear])
def test_five_barriers_on_each_side_are_needed(judge: object) -> None:
    assert callable(judge)
    four, five = leaks(0, barriers=4), leaks(0, barriers=5)
    assert "cannot be compared" not in judge(five, five).text
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
        "Before, half of the barriers held 8 days; since, half held 23 days. Up to day 35 a "
        "barrier held 8.7 days on average before and 23.3 since (difference 14.6, 97.8 % interval "
        "7.4 to 21.8)."
    )
    assert judge_wear(replace(treated, ended=21), placebo).verdict is WORSE


def test_a_published_difference_that_may_be_chance_is_not_counted() -> None:
    """Miller's leukaemia remissions, maintained and not: log-rank 3.396, p 0.0653."""
    maintained = wear((9, 13, 18, 23, 31, 34, 48, 13, 28, 45, 161), *[LEAK] * 7, *[None] * 4)
    other = wear((5, 5, 8, 8, 12, 23, 27, 30, 33, 43, 45, 16), *[LEAK] * 11, None)
    found = judge_wear(other, replace(maintained, ended=11))
    assert found.verdict is OPEN
    assert found.chance is not None
    assert found.chance > 0.0653  # nor do the means differ by more
    assert found.text.endswith(" No difference shown yet.")


def test_itch_ends_wear_but_is_no_leak() -> None:
    itching = wear([1] * 8, *[ITCH] * 8)
    long = wear([5] * 8, *[PLANNED] * 8)
    assert judge_wear(long, itching).verdict is WORSE
    assert judge_leaks(long, itching).verdict is OPEN


def test_falling_off_is_a_leak_and_a_failure() -> None:
    falling = wear([1] * 8, *[FELL] * 8)
    long = wear([5] * 8, *[PLANNED] * 8)
    assert judge_leaks(long, falling).verdict is WORSE
    assert judge_wear(long, falling).verdict is WORSE


def test_too_few_failures_to_compare_curves_is_not_yet_known() -> None:
    found = judge_wear(leaks(3), leaks(1))
    assert found.verdict is OPEN
    assert found.text == (
        "Before and since, more than half of the barriers held as long as they were worn (too few "
        f"to say: 4 of at least 5 failures in both groups).{NOT_SHOWN}"
    )


def on_day_three(failed: int) -> Wear:
    """Ten barriers, all taken off on day 3, so many because they failed."""
    return wear([3] * 10, *[LEAK] * failed, *[PLANNED] * (10 - failed))


@pytest.mark.parametrize(
    ("before", "since", "verdict"), [(8, 5, OPEN), (8, 4, OPEN), (10, 0, OPEN)]
)
def test_what_fails_on_the_day_of_the_planned_change_shortens_no_wear(
    before: int, since: int, verdict: Verdict
) -> None:
    found = judge_wear(on_day_three(before), on_day_three(since))
    assert found.verdict is verdict
    assert found.text.endswith(
        "Up to day 3 a barrier held 3 days on average before and 3 since (difference 0). No "
        "difference shown yet."
    )


def many(planned: float, failing: float, failed: int) -> Wear:
    """A hundred barriers, so many failed."""
    days = [failing] * failed + [planned] * (100 - failed)
    return wear(days, *[LEAK] * failed, *[PLANNED] * (100 - failed))


def test_wear_is_no_different_within_a_day_and_with_as_many_failures() -> None:
    """Section 13: wear 1 day [DV]. Twice the failures on day 2 of 3 shorten the mean by 0.4 days:
    within a day, and yet not alike."""
    assert judge_wear(many(3.0, 2.0, 60), many(3.0, 2.0, 60)).verdict is SAME
    assert judge_wear(many(3.0, 2.0, 40), many(3.0, 2.0, 50)).verdict is OPEN
    # As many failures, on day 1 in place of day 5: shorter by more than a day.
    assert judge_wear(many(6.0, 5.0, 60), many(6.0, 1.0, 60)).verdict is WORSE


@pytest.mark.parametrize(
    ("failed", "fair", "verdict", "settles"),
    [
        ((60, 20), True, HELPED, False),  # less than half a day longer, and for certain
        ((60, 20), False, OPEN, True),
        ((60, 45), True, OPEN, False),
        ((60, 45), False, OPEN, False),  # longer, and not for certain: nothing that would settle
        ((20, 60), True, WORSE, False),
        ((20, 60), False, WORSE, False),
        ((60, 60), True, SAME, False),
        ((60, 60), False, OPEN, False),
    ],
)
def test_longer_wear_than_in_the_time_that_made_the_visit_did_not_help(
    failed: tuple[int, int], fair: bool, verdict: Verdict, settles: bool
) -> None:
    """Section 13: else say that it would partly settle anyway [DV]. Of a hundred barriers so many
    failed on day 2, the others were changed on day 3."""
    before, since = (many(3.0, 2.0, count) for count in failed)
    found = judge_wear(before, since, fair=fair)
    assert (found.verdict, found.settles) == (verdict, settles)
    assert found.chance is not None
    assert (found.chance == 1) is (settles or failed == (60, 60))
    said = SETTLES if settles else NOT_SHOWN if verdict is OPEN else ")."
    assert found.text.endswith(said)


def test_wear_of_which_the_mean_and_the_failures_point_apart_is_chance_alone() -> None:
    """By hand: 3 of 12 fail on day 1 and 9 on day 10, a mean of 7.75; since, all 12 on day 9. The
    mean is longer, and yet all have failed before most did."""
    before, since = wear([1] * 3 + [10] * 9, *[LEAK] * 12), wear([9] * 12, *[LEAK] * 12)
    for one, other, way in ((before, since, "1.2"), (since, before, "−1.2")):
        found = judge_wear(one, other)
        assert (found.verdict, found.chance) == (OPEN, 1)
        assert f"(difference {way}, " in found.text


def test_half_a_year_apart_the_interval_of_wear_is_wider() -> None:
    """By hand: means 4.25 and 3.5 of 40 each, error 0.314, interval 2.289 times that. A season of
    0.15 times root 2 leaves of 80 failures in 170 and 140 days 0.529: error 0.431."""
    before, since = (wear([2] * n + [5] * (40 - n), *[LEAK] * 40) for n in (10, 20))
    near, far = (judge_wear(before, since, gap=gap) for gap in (0.0, 365.25 / 2))
    assert (near.verdict, far.verdict) == (WORSE, OPEN)
    assert "(difference −0.8, 97.8 % interval −1.5 to 0)" in near.text
    assert "(difference −0.8, 97.8 % interval −1.7 to 0.2)" in far.text


def test_planned_changes_alone_never_make_wear_shorter() -> None:
    week, short = wear([7.0] * 12, *[PLANNED] * 12), wear([2.0] * 40, *[PLANNED] * 40)
    found = judge_wear(week, short)
    assert (found.verdict, found.text) == (OPEN, "No barrier failed before or since.")
    one = wear([7.0] * 11 + [2.0], *[PLANNED] * 11, LEAK)
    assert judge_wear(one, wear([2.0] * 40, *[PLANNED] * 39, LEAK)).verdict is OPEN


def test_the_shares_that_hold_for_three_days_stand_beside_the_words() -> None:
    """By hand: 8 of 12 hold, 66.7 %; since, none was watched for longer than 2 days."""
    before = wear([2.0] * 4 + [5.0] * 8, *[LEAK] * 4, *[PLANNED] * 8)
    since = wear([2.0] * 8, *[PLANNED] * 8)
    found = judge_wear(before, since)
    assert (found.before, found.after) == (66.7, None)


def test_not_reached_is_said_and_never_a_number() -> None:
    said = "since, more than half held as long as they were worn"
    assert said in judge_wear(leaks(6), leaks(0)).text


def test_more_than_half_held_before_and_fewer_since() -> None:
    assert judge_wear(leaks(4), leaks(6)).text.startswith(
        "Before, more than half of the barriers held as long as they were worn; since, half held 3 "
        "days. Up to day 3 a"
    )


def test_where_few_failed_both_times_it_is_said_once() -> None:
    assert judge_wear(leaks(4), leaks(4)).text.startswith(
        "Before and since, more than half of the barriers held as long as they were worn. Up to day"
    )


def test_where_nothing_failed_no_half_is_spoken_of() -> None:
    found = judge_wear(leaks(0), leaks(0))
    assert (found.verdict, found.text) == (OPEN, "No barrier failed before or since.")


# --- skin -----------------------------------------------------------------------------------
def skin(outer_mm: float | None, hours: int = 1) -> object:
    spot = raw(ClockHours.of(*range(1, hours + 1)), outer_mm=outer_mm)
    return well(skin=(spot,))


def judged(before: object, *later: object, check: object = None) -> Finding:
    plan = visit(0, before)  # type: ignore[arg-type]
    seen = [visit(7 * n, f) for n, f in enumerate(later, 1)]  # type: ignore[arg-type]
    earlier = [] if check is None else [visit(-21, check)]  # type: ignore[arg-type]
    return judge_skin(plan, seen, earlier=earlier)


@pytest.mark.parametrize(
    ("outer_mm", "verdict"),
    [
        (3.0, OPEN),  # pi/12 (18 squared - 15 squared) = 25.9 mm²
        (10.0, WORSE),  # 104.7 mm²
    ],
)
def test_new_damage_counts_beyond_the_error_of_its_size(outer_mm: float, verdict: Verdict) -> None:
    assert judged(well(), skin(outer_mm, 4 if outer_mm > 3 else 1)).verdict is verdict


def test_better_skin_needs_a_look_before_the_one_that_made_the_plan() -> None:
    """Section 13: the spell that made the visit is not the baseline [DV]."""
    alone = judged(skin(10, 6), well())
    assert (alone.verdict, alone.settles) == (OPEN, True)
    assert "it would partly settle anyway" in alone.text
    assert judged(skin(10, 6), well(), check=skin(10, 5)).verdict is HELPED
    # Bad only when the visit was made: back to what it was.
    again = judged(skin(14, 9), skin(8, 2), check=skin(8, 2))
    assert (again.verdict, again.settles) == (OPEN, True)
    for found in (alone, again, judged(skin(14, 9), skin(8, 2), check=skin(8, 1))):
        assert found.chance == 1  # not even back to what it was
        assert found.text.endswith(SETTLES)


def test_no_worse_than_at_an_earlier_check_is_not_worse() -> None:
    assert judged(well(), skin(10, 5)).verdict is WORSE
    for check in (skin(10, 5), skin(10, 6)):
        found = judged(well(), skin(10, 5), check=check)
        assert (found.verdict, found.chance, found.settles) == (OPEN, 1, False)


def test_the_error_of_a_reading_is_of_measuring_and_of_charting() -> None:
    """Section 12: area 15 %, two nurses [DV]. By hand: 3 hours of 10 mm round a radius of 15 are
    314.2 mm², an hour more 104.7 and a millimetre more pi/4 (26 squared - 25 squared) = 40.1; a
    step either way has the standard error 1/root 3."""
    found = reading_of(skin(10, 3), AreaError())
    assert found is not None
    steps = (104.7**2 + 104.7**2 + 40.1**2) / 3
    assert found.area == pytest.approx(314.2, abs=0.1)
    assert found.sem == pytest.approx(((0.15 * 314.2) ** 2 + steps) ** 0.5, abs=0.2)
    assert reading_of(well(), AreaError()) == Reading(0.0, 10.0)


def test_an_error_of_the_clinics_own_takes_the_place_of_ours() -> None:
    fine = AreaError.measured_by(MeasuredError(0.02, 0.015, 0.03, 40))
    assert fine.share == 0.03  # the upper limit, so that few pairs promise no more
    plan, later = visit(0, skin(12, 8)), [visit(14, skin(20, 8))]  # type: ignore[arg-type]
    coarse = AreaError(share=0.5)
    assert judge_skin(plan, later, error=fine).verdict is WORSE
    assert judge_skin(plan, later, error=coarse).verdict is OPEN


@pytest.mark.parametrize(
    ("before", "now", "said"),
    [
        (skin(10, 2), well(), True),
        (well(), skin(10, 2), True),
        (well(), well(), False),  # nothing was measured
        (skin(None), well(), False),
    ],
)
def test_whose_error_it_is_is_said_of_what_was_measured(
    before: object, now: object, said: bool
) -> None:
    plan, later = visit(0, before), [visit(7, now)]  # type: ignore[arg-type]
    found = judge_skin(plan, later, note=" By own repeats.")
    assert found.text.endswith(" By own repeats.") is said


def test_better_skin_is_held_against_the_check_however_small_the_change() -> None:
    """A check as bad as the plan's visit beats nothing that is not clear in itself."""
    for check in (None, skin(10, 12)):
        found = judged(skin(10, 6), skin(10, 4), check=check)
        assert (found.verdict, found.settles) == (OPEN, False)


def test_areas_are_said_in_whole_square_millimetres() -> None:
    """By hand: an hour of 10 mm round a radius of 15 is pi/12 (625 - 225) = 104.7; of 20 mm,
    pi/12 (1225 - 225) = 261.8."""
    then = "105 mm² of skin was damaged when the plan was made"
    assert judged(skin(10, 1), skin(20, 1)).text.startswith(f"{then}, 262 mm² on 10 Mar 2025 (w")
    assert judged(skin(10, 1), well()).text.startswith(f"{then}, none on 10 Mar 2025 (")
    assert judged(well(), skin(10, 1)).text.startswith(
        "The skin was intact when the plan was made, and 105 mm² of it damaged on 10 Mar 2025 ("
    )


def test_the_last_visit_that_measured_the_skin_answers() -> None:
    found = judged(skin(10), skin(20), well(), well(skin=None))
    assert "of skin was damaged when the plan was made, none on 17 Mar 2025 (" in found.text


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


def test_the_least_that_is_beyond_error_is_said() -> None:
    """By hand: 314.2 mm² in 3 hours have the error 100.3, intact skin 10; the difference of both
    (100.3 + 10) / root 2 = 78.0, and the interval 2.289 times that."""
    assert judged(well(), skin(10, 3)).text.endswith(
        "314 mm² of it damaged on 10 Mar 2025 (within measuring error under 179 mm², 97.8 % "
        "interval)."
    )


@pytest.mark.parametrize(
    ("outer_mm", "verdict"), [(9.5, OPEN), (9.9, SAME), (10.0, SAME), (10.1, SAME), (10.5, OPEN)]
)
def test_a_ring_all_round_is_no_different_within_the_margin(
    outer_mm: float, verdict: Verdict
) -> None:
    """By hand: 1257 mm² of 10 mm, error 210 (0.15 times, and 160.2 a millimetre over root 3), 90 %
    interval 489 either way; the margin 2.77 times 0.15 times the area, 522. A tenth of a millimetre
    is 16 mm², half a one 79."""
    assert judged(skin(10, 12), skin(outer_mm, 12)).verdict is verdict


def test_intact_before_and_since_is_no_different() -> None:
    assert judged(well(), well()).verdict is SAME


def test_two_spots_are_charted_with_the_error_of_both() -> None:
    """By hand: an hour of 10 mm is 104.7 mm², 3 either side of it as much again and a millimetre
    more 13.4; two such spots apart have twice the area and twice the squares of the steps."""
    spots = (raw(ClockHours.of(3), outer_mm=10.0), raw(ClockHours.of(9), outer_mm=10.0))
    found = reading_of(well(skin=spots), AreaError())
    assert found is not None
    steps = 2 * (104.7**2 + 104.7**2 + 13.4**2) / 3
    assert found.sem == pytest.approx(((0.15 * 209.4) ** 2 + steps) ** 0.5, abs=0.2)


@pytest.mark.parametrize(
    ("inner_mm", "outer_mm", "area", "out", "inwards"),
    [
        (4.0, 10.0, 829.4, 160.2, 116.2),
        (0.9, 3.0, 223.7, 116.2, 87.4),  # less than a step from the edge: up to the edge
        (0.0, 3.0, 311.0, 116.2, 0.0),
    ],
)
def test_the_inner_border_may_be_charted_a_step_off_too(
    inner_mm: float, outer_mm: float, area: float, out: float, inwards: float
) -> None:
    """By hand, all round a radius of 15: pi times the difference of the squares."""
    ring = replace(raw(ClockHours.all_round(), outer_mm=outer_mm), inner_mm=inner_mm)
    found = reading_of(well(skin=(ring,)), AreaError())
    assert found is not None
    assert found.area == pytest.approx(area, abs=0.1)
    error = ((0.15 * area) ** 2 + (out**2 + inwards**2) / 3) ** 0.5
    assert found.sem == pytest.approx(error, abs=0.1)


# --- the level ----------------------------------------------------------------------------------
def _leaks(level: float) -> Finding:
    return judge_leaks(leaks(7), leaks(0), level=level)


def _longer(level: float) -> Finding:
    return judge_wear(many(3.0, 2.0, 60), many(3.0, 2.0, 45), level=level)


def _shorter(level: float) -> Finding:
    return judge_wear(many(3.0, 2.0, 45), many(3.0, 2.0, 60), level=level)


def _skin(before: object, now: object, *check: object) -> Callable[[float], Finding]:
    plan, later = visit(0, before), [visit(7, now)]  # type: ignore[arg-type]
    earlier = [visit(-21, one) for one in check]  # type: ignore[arg-type]
    return lambda level: judge_skin(plan, later, earlier=earlier, level=level)


@pytest.mark.parametrize(
    ("judge", "verdict"),
    [
        (_leaks, HELPED),
        (_longer, HELPED),
        (_shorter, WORSE),
        (_skin(well(), skin(10, 3)), WORSE),
        (_skin(well(), skin(10, 8), skin(10, 2)), WORSE),
        (_skin(skin(10, 8), skin(10, 1), skin(10, 6)), HELPED),
    ],
)
def test_a_chance_of_the_level_itself_is_little_enough(
    judge: Callable[[float], Finding], verdict: Verdict
) -> None:
    """And of any more is not."""
    chance = judge(0.5).chance
    assert chance is not None
    assert 0 < chance < 0.2
    limit = chance * (1 + 1e-9) if judge is _leaks else chance  # an interval found by steps
    assert judge(limit).verdict is verdict
    assert judge(chance * 0.99).verdict is OPEN


@pytest.mark.parametrize(
    "judge",
    [
        lambda level: judge_leaks(None, None, level=level),
        lambda level: judge_wear(None, None, level=level),
        _skin(well(skin=None), well()),
        interval_words,
        lambda level: halving_words(0, 28.0, level),
        lambda level: rates_answer(0, 0.0, 0, 0.0, level, 0.0),
    ],
)
@pytest.mark.parametrize("level", [0.0, 1.0, 1.5])
def test_a_chance_is_allowed_between_none_and_all(
    judge: Callable[[float], object], level: float
) -> None:
    """Refused also where there is nothing to judge by it."""
    with pytest.raises(UnusableNumber, match=r"^level: "):
        judge(level)


def test_without_a_word_of_the_season_none_is_counted() -> None:
    before, since = many(3.0, 2.0, 60), many(3.0, 2.0, 45)
    for judge in (judge_leaks, judge_wear):
        assert judge(before, since) == judge(before, since, gap=0.0)


def test_of_rates_of_which_nothing_was_seen_nothing_is_said() -> None:
    assert rates_answer(0, 30.0, 0, 30.0, 0.05, 0.0) is Answer.OPEN


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


@given(_SPANS, _SPANS)
def test_alike_is_never_said_of_what_may_be_half_or_twice(
    one: list[tuple[int, RemovalReason]], other: list[tuple[int, RemovalReason]]
) -> None:
    found = judge_leaks(as_wear(one), as_wear(other))
    if found.verdict is SAME:
        assert found.before
        assert found.after
        assert 0.67 < found.after / found.before < 1.5


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


def test_barriers_that_were_all_changed_on_one_day_are_not_compared() -> None:
    """Six changes of a single bad day are no time to count from."""
    one_day = wear([0.0] * 6, *[LEAK] * 6)
    for before, since in ((one_day, leaks(4)), (leaks(4), one_day)):
        for judge, of in ((judge_leaks, "Leaks"), (judge_wear, "Wear")):
            found = judge(before, since, gap=30.0)
            assert found.verdict is Verdict.CANNOT_TELL
            assert found.text == f"{of} cannot be compared: no barrier was worn for a whole day."

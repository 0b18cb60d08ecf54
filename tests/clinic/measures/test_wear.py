"""Wear by profile and leaks per week, by hand."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from clinic.measures.barriers import barriers
from clinic.measures.measure_types import Line
from clinic.measures.wear import leaks, wear
from clinic.patients.models import Stoma
from clinic.visits.models import Assessment, WornBarrier
from tests.clinic.measures.clinic_builders import START, YEAR, noon, sign_off, stoma, worn
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory, SystemFactory

pytestmark = pytest.mark.django_db

Told = tuple[int | None, str]


def told(*rows: Told, profile: str = "flat", of: Stoma | None = None) -> Assessment:
    """One signed visit that tells of barriers worn one after the other, from ``START`` on."""
    made: Assessment = AssessmentFactory(
        stoma=of or stoma(), visit__happened_at=noon(START + timedelta(40))
    )
    SystemFactory(assessment=made, profile=profile)
    on = START
    for days, reason in rows:
        worn(made, on, days, reason)
        on += timedelta((days or 0) + 1)
    sign_off(made.visit)
    return made


def line(profile: str) -> Line:
    found = {one.about: one for one in wear(barriers(YEAR)).lines}
    return found[profile]


def leak_line() -> Line:
    (found,) = leaks(barriers(YEAR)).lines
    return found


def logged(of: Stoma, on: date, off: date | None, reason: str = "planned") -> None:
    WornBarrier.objects.create(
        stoma=of, on=on, off=off, reason="" if off is None else reason, entered_by=UserFactory()
    )


def test_half_failed_and_holding_after_three_days() -> None:
    """Five stomas, each 2 days (leak), 4 (leak), 5 (planned): S(3) = 2/3, S(4) = 1/3."""
    for _ in range(5):
        told((2, "leak"), (4, "leak"), (5, "planned"))
    assert line("Flat").counts == ("5", "5", "15")
    median, holding = line("Flat").figures
    assert median.value == "4"
    assert holding.value == "66.7"


def test_a_planned_change_is_no_failure() -> None:
    for _ in range(5):
        told((2, "planned"), (4, "planned"))
    assert line("Flat").counts == ("5", "0", "10")
    assert line("Flat").figures[0].words == "not reached"


def test_itch_and_falling_off_are_failures_and_only_the_second_a_leak() -> None:
    for _ in range(5):
        told((2, "itch_or_pain"), (4, "fell_off"))
    assert line("Flat").counts == ("5", "5", "10")
    assert leak_line().counts == ("30", "5")


def test_each_profile_by_itself() -> None:
    for profile in ("flat", "convex", ""):
        for _ in range(5):
            told((3, "leak"), profile=profile)
    assert [line(p).counts for p in ("Flat", "Convex", "Not recorded")] == [("5", "5", "5")] * 3


def test_leaks_a_week() -> None:
    """Garwood: 5 leaks in 35 days are 1 a week (0.32 to 2.33)."""
    for _ in range(5):
        told((3, "leak"), (4, "planned"))
    assert leak_line().counts == ("35", "5")
    assert leak_line().figures[0].words == "1.00 (0.32 to 2.33)"


def test_a_barrier_recorded_twice_counts_once() -> None:
    """Still on at one visit, off by the next, and on the wear log as well."""
    for _ in range(5):
        one = stoma()
        first: Assessment = AssessmentFactory(
            stoma=one, visit__happened_at=noon(START + timedelta(2))
        )
        worn(first, START, None)
        sign_off(first.visit)
        told((4, "leak"), of=one)
        logged(one, START, START + timedelta(4), "leak")
    assert line("Flat").counts == ("5", "5", "5")
    assert leak_line().counts == ("20", "5")


def test_two_barriers_of_one_day_are_two() -> None:
    for _ in range(5):
        one = stoma()
        made: Assessment = AssessmentFactory(
            stoma=one, visit__happened_at=noon(START + timedelta(9))
        )
        worn(made, START, 0, "leak")
        worn(made, START, 3, "planned")
        sign_off(made.visit)
    assert line("Not recorded").counts == ("5", "5", "10")


def test_still_on_counts_up_to_the_day_it_was_recorded() -> None:
    for _ in range(5):
        made: Assessment = AssessmentFactory(visit__happened_at=noon(START + timedelta(6)))
        worn(made, START, None)
        sign_off(made.visit)
    assert barriers(YEAR).together.worn_days == 30


def test_the_wear_log_takes_its_profile_from_the_next_visit() -> None:
    for _ in range(5):
        one = stoma()
        logged(one, START - timedelta(10), START - timedelta(7), "leak")
        told((3, "planned"), profile="convex", of=one)
    assert line("Convex").counts == ("5", "5", "10")


def test_the_wear_log_alone() -> None:
    for _ in range(5):
        logged(stoma(), START, START + timedelta(3), "leak")
    assert line("Not recorded").counts == ("5", "5", "5")


def test_drafts_and_other_dates_do_not_count() -> None:
    made: Assessment = AssessmentFactory(visit__happened_at=noon(START))
    worn(made, START, 0, "leak")
    logged(stoma(), date(2024, 12, 31), date(2025, 1, 2))
    assert barriers(YEAR).together.counts == []


def test_too_long_to_be_true_is_left_out_and_said() -> None:
    for _ in range(5):
        told((14, "leak"), (15, "leak"))
    found = barriers(YEAR)
    assert (found.together.leaks, found.left_out) == (5, 5)
    assert "(probably an error, 5 left out)" in wear(found).not_counted


def test_a_stoma_with_nothing_but_typing_errors_is_not_behind_the_figures() -> None:
    for _ in range(4):
        told((3, "leak"))
    told((15, "leak"))
    together = barriers(YEAR).together
    assert (together.stomas, together.failed, together.leaked) == (4, 4, 4)


def test_few_stomas_are_hidden() -> None:
    for _ in range(4):
        told((3, "leak"), (3, "leak"))
    assert line("Flat").counts == ("fewer than 5", "not shown", "not shown")
    assert [f.words for f in line("Flat").figures] == ["not shown"] * 2
    assert leak_line().counts == ("not shown", "not shown")


def test_few_failing_stomas_are_hidden_in_the_rate_too() -> None:
    for _ in range(4):
        told((3, "leak"))
    for _ in range(6):
        told((3, "planned"))
    assert line("Flat").counts == ("10", "fewer than 5", "10")
    assert [f.words for f in line("Flat").figures] == ["not shown"] * 2
    assert leak_line().figures[0].words == "not shown"


def test_several_barriers_of_one_day_are_several() -> None:
    """A day of two leaks, recorded at a visit and on the log: two barriers, not one or four."""
    for _ in range(5):
        of = stoma()
        told((0, "leak"), (6, "planned"), of=of)
        made: Assessment = AssessmentFactory(
            stoma=of, visit__happened_at=noon(START + timedelta(41))
        )
        worn(made, START, 0, "leak")
        worn(made, START, 0, "leak")
        sign_off(made.visit)
        logged(of, START, START, "leak")
        logged(of, START, START, "leak")
    assert leak_line().counts == ("30", "10")


def test_records_that_contradict_one_another_are_left_out_and_said() -> None:
    """As over the course of one stoma: off after 4 days at the visit, after 2 on the log."""
    for _ in range(5):
        one = stoma()
        told((4, "leak"), (3, "planned"), of=one)
        logged(one, START, START + timedelta(2), "planned")
    found = barriers(YEAR)
    assert (found.together.counts, found.together.worn_days, found.disputed) == ([5], 15, 10)
    assert "(10 left out)" in wear(found).not_counted


def test_one_seen_on_after_the_day_it_came_off_elsewhere_is_a_contradiction() -> None:
    for _ in range(5):
        one = stoma()
        made: Assessment = AssessmentFactory(
            stoma=one, visit__happened_at=noon(START + timedelta(5))
        )
        worn(made, START, None)
        sign_off(made.visit)
        logged(one, START, START + timedelta(2), "leak")
    assert barriers(YEAR).disputed == 10


def test_a_contradiction_from_just_outside_the_dates_counts() -> None:
    one = stoma()
    logged(one, date(2024, 12, 30), date(2025, 1, 4))
    made: Assessment = AssessmentFactory(stoma=one, visit__happened_at=noon(START))
    worn(made, date(2025, 1, 2), 3)
    sign_off(made.visit)
    found = barriers(YEAR)
    assert (found.together.counts, found.disputed) == ([], 1)


def test_one_still_on_of_the_log_counts_only_as_long_as_it_was_seen() -> None:
    """The log may be typed weeks later: that says nothing of the days in between."""
    for _ in range(5):
        logged(stoma(), START, None)
    found = barriers(YEAR)
    assert (found.together.counts, found.together.worn_days, found.left_out) == ([5], 0, 0)

"""How long barriers last until they fail, beside how long they are worn; and the latest change."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from planning import recommend
from planning.course.periods import wear_of
from planning.course.record import Worn
from planning.facts.wear_survival import lasting
from planning.inputs.findings import RemovalReason, WearEpisode
from planning.pipeline import choose
from planning.results.plan import ExpectedWear, LastingWear
from tests.planning.builders import raw, situation, well

LEAK, OFF, SORE, PLANNED = (
    RemovalReason.LEAK,
    RemovalReason.FELL_OFF,
    RemovalReason.ITCH_OR_PAIN,
    RemovalReason.PLANNED,
)


def log(*ends: tuple[float, RemovalReason | None]) -> tuple[WearEpisode, ...]:
    return tuple(WearEpisode(days, end) for days, end in ends)


def found(*ends: tuple[float, RemovalReason | None]) -> LastingWear:
    answer = lasting(log(*ends))
    assert answer is not None
    return answer


def expected(*ends: tuple[float, RemovalReason | None]) -> ExpectedWear:
    answer = recommend(well(wear=log(*ends))).expected_wear
    assert answer is not None
    return answer


#: Freireich 1963, 6-MP arm, weeks (+ censored), halved so that days stay below 14: the shares
#: do not change with the unit of time.
FAILED = (6, 6, 6, 7, 10, 13, 16, 22, 23)
CENSORED = (6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35)
SHRUNK = 2.5


def test_against_the_published_table() -> None:
    """Freireich 1963: median 23 weeks, interval 13 to not reached; at 10 weeks 0.7529 with
    log-log limits 0.5032 and 0.8894."""
    ends = [(t / SHRUNK, LEAK) for t in FAILED] + [(t / SHRUNK, PLANNED) for t in CENSORED]
    answer = found(*ends)
    assert (answer.barriers, answer.failed) == (21, 9)
    assert answer.median_days == pytest.approx(23 / SHRUNK)
    assert answer.median_low == pytest.approx(13 / SHRUNK)
    assert answer.median_high is None
    assert "not reached" in answer.text
    #: 3 days stand for 7.5 weeks: after the failures at 6 and 7.
    assert answer.held == pytest.approx(0.8067, abs=5e-5)
    assert answer.held_low == pytest.approx(0.5631, abs=5e-5)
    assert answer.held_high == pytest.approx(0.9228, abs=5e-5)


def test_a_planned_change_is_no_failure() -> None:
    """Counted as failures the same log would say that barriers last as long as they are worn."""
    planned = [(4.0, PLANNED)] * 4
    honest = found((4.0, LEAK), (6.0, LEAK), (7.0, None), *planned)
    wrong = found((4.0, LEAK), (6.0, LEAK), (7.0, None), *[(4.0, LEAK)] * 4)
    assert honest.median_days == 6.0
    assert wrong.median_days == 4.0


@pytest.mark.parametrize(
    ("end", "failed"), [(LEAK, 1), (OFF, 1), (SORE, 1), (PLANNED, 0), (None, 0)]
)
def test_what_counts_as_failing(end: RemovalReason | None, failed: int) -> None:
    """As over the course: whatever was not planned."""
    ends = ((2.0, end), *[(3.0, PLANNED)] * 4)
    assert found(*ends).failed == failed
    day = date(2025, 5, 1)
    worn = [Worn(day, day + timedelta(length) if why else None, why) for length, why in ends]
    assert wear_of(worn, day + timedelta(9)).failures == failed


def test_the_words_say_what_failing_is() -> None:
    assert "(leaks, falls off, itches or hurts)" in found((2.0, SORE), *[(3.0, PLANNED)] * 4).text


@pytest.mark.parametrize(("barriers", "enough"), [(4, False), (5, True)])
def test_too_few_say_nothing(barriers: int, enough: bool) -> None:
    """Design value: five."""
    assert (lasting(log(*[(3.0, LEAK)] * barriers)) is not None) is enough
    assert lasting(None) is None


def test_where_none_failed_no_figure_is_made_up() -> None:
    answer = found(*[(3.0, PLANNED)] * 6)
    assert answer.median_days is None
    assert answer.text.startswith("None of 6 barriers failed in up to 3 days")
    assert "not known yet" in answer.text


def test_where_none_was_watched_so_long_no_share_is_given() -> None:
    answer = found((2.0, LEAK), *[(2.0, PLANNED)] * 5)
    assert answer.held is None
    assert "No barrier was watched for 3 days." in answer.text


def test_a_typing_error_is_left_out_here_too() -> None:
    assert found((40.0, PLANNED), *[(3.0, LEAK)] * 5).barriers == 5


def test_the_plan_says_both_and_each_of_what_it_is() -> None:
    wear = expected((4.0, LEAK), (4.0, PLANNED), (7.0, LEAK), (5.0, LEAK), (5.0, PLANNED))
    assert wear.text.startswith("Worn 5 days on average over 5 barriers of the log")
    assert "This sets how many are used." in wear.text
    assert wear.lasting is not None
    assert "half of them last 7 days or less (median" in wear.lasting.text
    assert wear.lasting.sources == ("kaplan1958/curve", "design_value")


def test_a_limit_does_not_rewrite_what_was_worn() -> None:
    """Six of ten held five days, four leaked at 3 and 4: planned at 2 days, worn for 4.4."""
    ends = [(3.0, LEAK)] * 2 + [(4.0, LEAK)] * 2 + [(5.0, PLANNED)] * 6
    wear = expected(*ends)
    assert wear.days == 2.0
    assert wear.text.startswith("Worn 4.4 days on average over 10 barriers")
    assert "from now on limited to the 2 days advised here" in wear.text


def test_a_log_too_short_for_both_says_the_published_mean_only() -> None:
    wear = expected((4.0, PLANNED), (3.0, PLANNED))
    assert wear.lasting is None
    assert "the log holds too few barriers" in wear.text


# --- the latest change ------------------------------------------------------------------------
def latest(*ends: tuple[float, RemovalReason | None], raw_skin: bool = False) -> float | None:
    skin = (raw(),) if raw_skin else ()
    return choose(situation(well(wear=log(*ends), skin=skin))).wear.limit


def test_the_latest_change() -> None:
    """Common practice: raw skin every 3 days, no barrier beyond 7. One leak sets no day."""
    assert latest() is None
    assert latest(raw_skin=True) == 3.0
    assert latest((7.0, PLANNED)) is None
    assert latest((7.5, PLANNED)) == 7.0
    assert latest((5.0, LEAK)) is None
    assert latest((1.5, LEAK), raw_skin=True) == 3.0

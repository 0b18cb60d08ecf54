"""The three lines: short, at most three figures each, and never at odds with the flags."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import date, timedelta

import pytest

from clinic.trends.asked import SHORT, Questions, shortened
from clinic.trends.minute import (
    NO_CHANGE,
    ONE_VISIT,
    changed_words,
    helped_words,
    listed,
    minute_of,
)
from clinic.trends.verdicts import flag_cards, outcome_rows
from clinic.trends.window import Window, window_of
from planning.course.record import Event, EventKind
from planning.course.results import (
    CourseFlag,
    Finding,
    Judged,
    Moved,
    PlanOutcome,
    Point,
    Verdict,
)
from planning.results.plan import Urgency
from tests.clinic.trends import made

NO_QUESTIONS = Questions((), ())
FELL = Moved("protrusion", Point(made.day(0), 20.04), Point(made.day(112), 9.96))
ROSE = Moved("output", Point(made.day(0), 750), Point(made.day(112), 2600))


def flag(key: str, text: str, urgency: Urgency | None = Urgency.ROUTINE) -> CourseFlag:
    return CourseFlag(key, text, "0 mm to 40 mm", "A rule.", (), made.BY, urgency)


def finding(of: Judged, verdict: Verdict, *values: float) -> Finding:
    before, after = values or (None, None)
    return Finding(of, verdict, "Text.", made.BY, before, after)


# --- what changed -------------------------------------------------------------------------------
def test_what_moved_first_has_its_figures_the_others_their_name() -> None:
    assert changed_words([ROSE, FELL], [], 2) == (
        "Output rose from 750 to 2600 mL/24 h since 3 Mar 2025; protrusion fell."
    )


def test_no_hand_measures_hundredths() -> None:
    assert "from 20 to 10 mm" in changed_words([FELL], [], 2)


def test_what_only_a_flag_says_is_a_change_too() -> None:
    """A prolapse and a bulge are no channel of the figure: nothing moved would be wrong."""
    cards = flag_cards([flag("hernia", "The bulge beside the stoma is growing.")])
    assert changed_words([], cards, 2) == "The bulge beside the stoma is growing."
    confirmed = flag_cards([flag("hernia", "The bulge beside the stoma is growing.")], hernia=True)
    assert changed_words([], confirmed, 2) == "The parastomal hernia is growing."


@pytest.mark.parametrize(("visits", "words"), [(1, ONE_VISIT), (2, NO_CHANGE)])
def test_seen_once_is_not_unchanged(visits: int, words: str) -> None:
    assert changed_words([], [], visits) == words


def test_a_plan_names_two_changes_and_says_that_there_are_more() -> None:
    assert listed(["soft convex barrier, ring"]) == "soft convex barrier, ring"
    assert listed(["soft convex barrier, ring, belt"]) == "soft convex barrier, ring and more"
    assert len(listed(["long " * 60])) <= SHORT


# --- did it help --------------------------------------------------------------------------------
LEAKS_FELL = finding(Judged.LEAKS, Verdict.HELPED, 1.83, 0.44)
SKIN_SAME = finding(Judged.SKIN, Verdict.NO_DIFFERENT, 120.0, 110.0)
UNKNOWN = tuple(finding(of, Verdict.CANNOT_TELL) for of in Judged)


@pytest.mark.parametrize(
    ("findings", "words"),
    [
        (
            (LEAKS_FELL, finding(Judged.WEAR, Verdict.HELPED, 20, 85), SKIN_SAME),
            "Fewer leaks, 1.8 to 0.4 a week; longer wear; skin no different.",
        ),
        (
            (*UNKNOWN[:2], finding(Judged.SKIN, Verdict.WORSE, 138, 472)),
            "Worse skin, 138 to 472 mm²; leaks and wear not shown yet.",
        ),
        (
            (LEAKS_FELL, UNKNOWN[1], finding(Judged.SKIN, Verdict.WORSE, 0, 40)),
            "Fewer leaks, 1.8 to 0.4 a week; worse skin; wear not shown yet.",
        ),
        (UNKNOWN, "Too little is recorded to compare."),
        (
            (finding(Judged.LEAKS, Verdict.CANNOT_TELL, 1.8, 1.1), *UNKNOWN[1:]),
            "What differs may be chance.",
        ),
    ],
)
def test_what_decides_it_comes_first_with_its_two_figures(
    findings: tuple[Finding, ...], words: str
) -> None:
    assert helped_words(findings) == words
    assert len(re.findall(r"\d[\d.]*", words)) <= 3


def test_while_the_last_change_is_not_clear_the_one_before_it_is_said() -> None:
    report = replace(made.REPORT, outcomes=made.OUTCOMES)
    rows = outcome_rows(report.outcomes, made.EVENTS)
    helped = minute_of(report, [], rows, NO_QUESTIONS).helped
    assert helped.row is not None
    assert helped.before is not None
    assert (helped.row.name, helped.row.verdict.key) == ("Plan 2", "cannot_tell")
    assert (helped.before.name, helped.before.verdict.key) == ("Plan 1", "helped")


def test_without_a_change_nothing_is_said_to_have_helped() -> None:
    rows = outcome_rows(
        made.OUTCOMES, [event for event in made.EVENTS if event.kind != "plan_change"]
    )
    helped = minute_of(made.REPORT, [], rows, NO_QUESTIONS).helped
    assert (helped.row, helped.words) == (None, "No plan has changed anything so far.")


# --- verdicts and danger ------------------------------------------------------------------------
def test_all_alike_is_said_once() -> None:
    def row(*verdicts: Verdict) -> bool:
        findings = tuple(finding(of, v) for of, v in zip(Judged, verdicts, strict=True))
        one = PlanOutcome(made.day(0), None, Verdict.WORSE, "Text.", findings, frozenset())
        return outcome_rows([one], ())[0].alike

    assert row(Verdict.WORSE, Verdict.WORSE, Verdict.WORSE)
    assert not row(Verdict.WORSE, Verdict.WORSE, Verdict.CANNOT_TELL)


def test_plans_are_named_as_in_the_figure() -> None:
    events = (Event(made.day(-9), EventKind.PLAN_CHANGE, "earlier"), *made.EVENTS)
    assert [row.name for row in outcome_rows(made.OUTCOMES, events)] == ["Plan 3", "Plan 2"]


@pytest.mark.parametrize("urgency", [None, *Urgency])
def test_danger_is_what_is_asked_for_today(urgency: Urgency | None) -> None:
    (card,) = flag_cards([flag("high_output", "Output is high.", urgency)])
    today = {Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE}
    assert card.danger is (urgency in today)


# --- which part is shown ------------------------------------------------------------------------
TODAY = date(2026, 12, 1)


def window(*ago: int, whole: bool = False) -> Window:
    """Of visits so many days ago, each with one height."""
    days = [TODAY - timedelta(days=n) for n in ago]
    series = made.only(protrusion=tuple(Point(day, 20.0) for day in days))
    return window_of(series, days, TODAY, whole=whole)


def test_the_longer_of_ninety_days_and_six_visits() -> None:
    sparse = window(400, 300, 250, 200, 150, 100, 50)
    assert (sparse.words, sparse.since) == ("the last six visits", TODAY - timedelta(days=300))
    dense = window(91, 60, 50, 40, 30, 20, 10, 5)
    assert (dense.words, dense.since) == ("the last 90 days", TODAY - timedelta(days=90))
    even = window(100, 90, 50, 40, 30, 20, 10)
    assert (even.words, even.since) == ("the last 90 days", TODAY - timedelta(days=90))


def test_a_course_that_fits_is_shown_whole() -> None:
    for ago in ((700,), (700, 500, 400, 300, 200, 100), (90, 80, 70, 60, 50, 40, 30)):
        assert window(*ago) == Window(None, "the whole course", part=False)


def test_asked_for_whole_it_is_and_the_way_back_is_there() -> None:
    assert window(*range(700, 0, -50), whole=True) == Window(None, "the whole course", part=True)


def test_a_line_is_cut_at_a_word() -> None:
    assert shortened("One line.\nAnother") == "One line."
    assert shortened("word " * 60).endswith("word …")

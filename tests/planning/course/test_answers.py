"""What the person says is drawn and compared, and nothing else of the course reads it."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from planning.course.channels import ANSWERED, CHANNELS
from planning.course.record import Course
from planning.course.report import course_report
from planning.evidence.sources import DESIGN
from planning.inputs.findings import Output
from tests.planning.builders import leaking, well
from tests.planning.course.course_builders import course, visit

KEYS = [channel.key for channel in ANSWERED]
ANSWERS = st.dictionaries(st.sampled_from(KEYS), st.integers(0, 10).map(float)).map(
    lambda given: tuple(given.items())
)


def said(*each: dict[str, float], pain: tuple[int | None, ...] = ()) -> Course:
    """A visit every four weeks with what was answered at it; ``pain`` as charted at the visits."""
    charted = [*pain, *[None] * len(each)]
    visits = (
        visit(
            28 * number,
            replace(well(), output=Output(pain_0_10=charted[number])),
            answers=tuple(one.items()),
        )
        for number, one in enumerate(each)
    )
    return course(*visits, today=28 * len(each))


def lines(of: Course) -> dict[str, str]:
    return {one.key: one.text for one in course_report(of).answers}


@pytest.mark.parametrize(
    ("before", "now", "words"),
    [
        (3, 3, "3 of 10 on 3 Mar 2025: the same as given"),
        (3, 4, "higher by 1, less than the margin of 2 (design value)"),
        (3, 5, "higher by 2, the margin of 2 (design value) or more"),
        (5, 4, "lower by 1, less than the margin of 2 (design value)"),
        (10, 0, "lower by 10, the margin of 2 (design value) or more"),
    ],
)
def test_pain_has_a_margin(before: int, now: int, words: str) -> None:
    report = course_report(said({"pain": before}, {"pain": now}))
    (line,) = report.answers
    assert words in line.text
    assert line.sources == (DESIGN,)


@pytest.mark.parametrize("key", [key for key in KEYS if key != "pain"])
def test_of_the_others_no_more_is_said_than_was_given(key: str) -> None:
    for before, now, words in ((2, 9, "higher"), (9, 2, "lower"), (4, 4, "the same")):
        (line,) = course_report(said({key: before}, {key: now})).answers
        assert line.text.endswith(f": {words} as given.")
        assert "margin" not in line.text
        assert line.sources == ()


def test_unanswered_is_unknown_and_never_zero() -> None:
    found = lines(said({"worry": 0.0}, {"sure": 7.0}, {"worry": 5.0}))
    assert found["worry"] == "5 of 10 on 28 Apr 2025, 0 of 10 on 3 Mar 2025: higher as given."
    assert found["sure"] == "7 of 10 on 31 Mar 2025. Answered once."
    assert found.keys() == {"worry", "sure"}


def test_charted_pain_is_used_and_drawn_only_where_the_questions_are_asked() -> None:
    asked = said({"worry": 3}, {"pain": 9}, {}, pain=(4, 2, None))
    assert [p.value for p in course_report(asked).series.of("pain")] == [4, 2]
    assert not course_report(said({}, {}, pain=(4, 6))).series.of("pain")


@given(st.lists(ANSWERS, min_size=3, max_size=3))
def test_no_rule_reads_an_answer(answers: list[tuple[tuple[str, float], ...]]) -> None:
    plain = course(visit(0, leaking(), "ring"), visit(28, leaking()), visit(56, well()), today=90)
    told = replace(
        plain,
        visits=tuple(replace(v, answers=a) for v, a in zip(plain.visits, answers, strict=True)),
    )
    before, after = course_report(plain), course_report(told)
    drawn = tuple((key, points if key not in KEYS else ()) for key, points in after.series.points)
    assert replace(after, answers=(), series=replace(after.series, points=drawn)) == before


def test_there_is_no_total() -> None:
    assert KEYS == ["pain", "itching", "worry", "kept_from", "sure"]
    assert len(CHANNELS) == len({channel.key for channel in CHANNELS})

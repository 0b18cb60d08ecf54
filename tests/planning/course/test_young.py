"""A stoma of somebody under 16: no limit for adults is drawn and no flag rests on one."""

from __future__ import annotations

from typing import Any

import pytest

from planning.course.flags import flags
from planning.course.record import Course
from planning.course.series import series
from tests.planning.builders import well
from tests.planning.course.course_builders import course, visit

#: Of an adult both raise a flag: 2500 mL in 24 hours, and 13 mm lower than before.
BEFORE: dict[str, Any] = {"protrusion_mm": 25.0, "volume_ml_24h": 700.0}
NOW: dict[str, Any] = {"protrusion_mm": 12.0, "volume_ml_24h": 2500.0}


def aged(before: int, now: int) -> Course:
    return course(visit(0, well(age_years=before, **BEFORE)), visit(28, well(age_years=now, **NOW)))


def keys(course_: Course) -> set[str]:
    return {flag.key for flag in flags(course_)}


@pytest.mark.parametrize(
    ("before", "now", "judged"), [(15, 15, False), (15, 16, True), (40, 40, True)]
)
def test_flags_at_limits_for_adults_wait_until_sixteen(before: int, now: int, judged: bool) -> None:
    assert ({"high_output", "retraction"} <= keys(aged(before, now))) is judged
    assert bool({"high_output", "retraction"} & keys(aged(before, now))) is judged


def test_a_childs_flags_without_a_limit_for_adults_are_raised() -> None:
    grown = (well(age_years=9, width_mm=width) for width in (26.0, 31.0))
    found = flags(course(*(visit(28 * n, each) for n, each in enumerate(grown))))
    assert [flag.key for flag in found] == ["size"]
    assert found[0].text.startswith("The stoma changed size: tell the paediatric stoma team.")


@pytest.mark.parametrize(("before", "now", "young"), [(15, 15, True), (40, 40, False)])
def test_limits_for_adults_are_drawn_for_adults_alone(before: int, now: int, young: bool) -> None:
    drawn = series(aged(before, now))
    assert drawn.under_16 is young
    assert (drawn.zones == ()) is young
    assert (drawn.output_lines == ()) is young


def test_which_visits_were_of_a_child() -> None:
    assert [one.young for one in aged(15, 16).visits] == [True, False]
    assert [one.day for one in aged(15, 16).young] == [aged(15, 16).visits[0].day]
    assert aged(40, 40).young == ()

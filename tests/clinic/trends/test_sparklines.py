"""Three small lines: each in words for who does not see it, with the last change marked."""

import re
from dataclasses import replace
from datetime import date

import pytest

from clinic.trends.sparklines import Spark, sparks
from planning.course.record import Event, EventKind
from planning.course.results import Bar, Face, Series
from planning.inputs.clock import ClockHours
from planning.inputs.findings import RemovalReason
from tests.clinic.trends import made

CHANGE = Event(made.day(28), EventKind.PLAN_CHANGE, "convex barrier")
WORN = (
    Bar(made.day(0), made.day(3), RemovalReason.PLANNED),
    Bar(made.day(3), made.day(4), RemovalReason.LEAK),
    Bar(made.day(60), None, None),
)


def drawn(series: Series, *changes: Event) -> dict[str, Spark]:
    found = sparks(series, changes, today=made.TODAY, key="s7")
    return {spark.label: spark for spark in found}


def label(spark: Spark) -> str:
    found = re.search(r'aria-label="([^"]*)"', spark.svg)
    assert found is not None
    assert 'role="img"' in spark.svg
    return found[1]


def test_each_says_its_values_and_the_last_change() -> None:
    found = drawn(replace(made.SERIES, bars=WORN), CHANGE)
    assert list(found) == ["Height", "Skin", "Wear"]
    assert label(found["Height"]) == (
        "Height: 12 mm on 3 Mar 2025; 11 mm on 31 Mar 2025; 9 mm on 28 Apr 2025; 8 mm on 26 May "
        "2025; 3.5 mm on 23 Jun 2025. Last change of the plan: 31 Mar 2025"
    )
    assert (found["Height"].now, found["Height"].before) == ("3.5 mm", "11 mm")
    assert (found["Skin"].now, found["Skin"].before) == ("intact", "640 mm²")
    assert (found["Wear"].now, found["Wear"].before) == ("1 day, leak", "")
    assert label(found["Wear"]).startswith("Wear: 3 days on 6 Mar 2025; 1 day, leak on 7 Mar 2025")


def test_the_change_is_drawn_where_it_lies_in_the_time_shown() -> None:
    dashed = 'stroke-dasharray="4'
    assert dashed in drawn(made.SERIES, CHANGE)["Height"].svg
    assert dashed not in drawn(made.SERIES)["Height"].svg
    later = Event(date(2026, 1, 1), EventKind.PLAN_CHANGE, "belt")
    assert dashed not in drawn(made.SERIES, later)["Height"].svg


def test_what_was_never_recorded_is_not_drawn() -> None:
    found = drawn(made.EMPTY, CHANGE)
    assert {(one.now, one.svg, one.before) for one in found.values()} == {("not recorded", "", "")}


def test_damage_of_unknown_size_is_said_not_passed_over() -> None:
    face = Face(made.day(100), ClockHours.of(6), ("erosion",), intact=False)
    skin = drawn(replace(made.SERIES, faces=(*made.FACES, face)))["Skin"]
    assert skin.now == "raw, shallow erosion, 6 o'clock"
    assert skin.day == made.day(100)


def test_names_are_the_pages_own_and_nothing_is_inline() -> None:
    found = drawn(made.SERIES, CHANGE)
    names = [name for one in found.values() for name in re.findall(r'\bid="([^"]+)"', one.svg)]
    assert len(names) == len(set(names))
    assert all(name.startswith("s7") for name in names)
    for one in found.values():
        assert not re.search(r"<style|<script|style=", one.svg)


@pytest.mark.parametrize("count", [1, 2])
def test_one_value_is_enough(count: int) -> None:
    height = drawn(made.only(protrusion=made.points(*[5.0] * count)))["Height"]
    assert "<svg" in height.svg
    assert height.now == "5 mm"

"""Crowded trends: nothing lies on anything else, and a test that sees it where it does."""

from __future__ import annotations

from dataclasses import replace

import pytest
from matplotlib.dates import date2num

from clinic.trends.drawing.lines import LEAST_MARK, MARK, mark_size
from clinic.trends.figure import TrendFigure, figure
from clinic.trends.tracks import named_zones, zone_words
from planning.course.record import Event, EventKind
from planning.course.results import Point, Series
from tests.clinic.trends import made
from tests.clinic.trends.geometry import collisions

#: Every kind of event on neighbouring days, one after the other for half a year.
KINDS = (EventKind.PLAN_CHANGE, EventKind.REFERRAL, EventKind.ANSWER)
CROWD = tuple(Event(made.day(n), KINDS[n % 3], "something") for n in range(0, 180, 2))
#: Length and width the same at every visit, a visit every third day.
ROUND = made.only(
    length=made.points(*[30.0] * 20, every=3), width=made.points(*[30.0] * 20, every=3)
)
FACES = replace(
    made.EMPTY, faces=tuple(replace(made.FACES[n % 4], day=made.day(n)) for n in range(24))
)
#: Through every zone, and along the names at the left.
LOW = replace(made.only(protrusion=made.points(-3, 22, 2, -8, 12, 25, 1, 30)), zones=made.ZONES)


@pytest.mark.parametrize(
    "drawn",
    [
        figure(made.SPOTTED, made.EVENTS, today=made.TODAY),
        figure(made.SERIES, CROWD, today=made.TODAY),
        figure(ROUND, (), today=made.TODAY),
        figure(FACES, CROWD, today=made.TODAY),
        figure(LOW, made.EVENTS, today=made.TODAY),
    ],
    ids=["spotted", "events", "round", "faces", "zones"],
)
def test_nothing_lies_on_anything_else(drawn: TrendFigure) -> None:
    found = {key: collisions(sheet) for key, sheet in drawn.sheets().items()}
    assert {key: what for key, what in found.items() if what} == {}


def test_the_test_sees_marks_on_marks_and_words_on_words() -> None:
    """Two visits of one day with nearly the same value; a title written twice."""
    twice: Series = made.only(weight=(Point(made.day(0), 60.0), Point(made.day(0), 60.05)))
    sheet = figure(twice, (), today=made.TODAY).sheets()["weight"]
    assert collisions(sheet) == ["“track-weight” on “track-weight”"]
    sheet = figure(made.SERIES, (), today=made.TODAY).sheets()["output"]
    second = made.SERIES.of("output")[1]
    sheet.panels["output"].text(float(date2num(second.day)), second.value, "on a mark")
    assert "“on a mark” on “track-output”" in collisions(sheet)


def test_marks_shrink_only_as_far_as_visits_are_close() -> None:
    assert mark_size([[(0, 0), (40, 0)]]) == MARK
    assert mark_size([[(0, 0), (5, 0)]]) == pytest.approx(4.6)
    assert mark_size([[(0, 0), (5, 30)]]) == MARK  # far above
    assert mark_size([[(0, 0), (1, 0)]]) == LEAST_MARK


def test_what_is_below_the_skin_is_retracted() -> None:
    """The class reaches from 4 mm under the skin to 4 mm above it."""
    assert [zone_words(zone) for zone in named_zones(made.ZONES)] == [
        "Zone “retracted”: up to 0 mm",
        "Zone “flush”: 0 to 4 mm",
        "Zone “short”: 4 to 20 mm",
        "Zone “adequate”: 20 mm and more",
    ]


def test_the_recent_part_begins_at_its_day_and_holds_no_more() -> None:
    many = made.only(protrusion=made.points(*(20 - n % 5 for n in range(26))))
    since = made.day(28 * 20)
    drawn = figure(many, CROWD, today=made.day(28 * 26), since=since)
    assert (drawn.span.start, drawn.span.end) == (since, made.day(28 * 26))
    assert drawn.shown.of("protrusion") == many.of("protrusion")[20:]
    assert len(drawn.tracks[0].marks) == 26  # the table still has all
    assert len(drawn.off_axis) == len(CROWD)

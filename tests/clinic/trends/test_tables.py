"""The tables say what the figure says: the same data, the same words."""

from __future__ import annotations

import pytest

from clinic.trends.figure import figure
from clinic.trends.table import tables_of
from planning.course.results import Point, Series
from tests.clinic.trends import made
from tests.clinic.trends.figure_markup import marks, screen


@pytest.mark.parametrize("series", [made.SERIES, made.SPOTTED])
def test_every_mark_of_the_figure_is_in_a_table(series: Series) -> None:
    drawn = figure(series, made.EVENTS, today=made.TODAY)
    tables = tables_of(drawn.tracks)
    cells = [cell for table in tables for row in table.rows for cell in row.cells if cell]
    said = marks(screen(drawn))
    assert len(cells) == len(said) == sum(len(track.marks) for track in drawn.tracks)
    for mark in said:
        assert [cell for cell in cells if mark.words.endswith(cell)], mark.words


def test_values_are_under_their_heading_newest_first() -> None:
    series = made.only(
        protrusion=made.points(12, 3.5),
        output=(Point(made.day(28), 0), Point(made.day(56), 900)),
    )
    (visits,) = tables_of(figure(series, (), today=made.TODAY).tracks)
    assert visits.headings == ("Protrusion", "Output")
    assert [(row.day, row.cells) for row in visits.rows] == [
        (made.day(56), ("", "900 mL/24 h")),
        (made.day(28), ("3.5 mm", "0 mL/24 h")),
        (made.day(0), ("12 mm", "")),
    ]


def test_two_visits_on_one_day_are_both_said() -> None:
    series = made.only(length=(Point(made.day(0), 30), Point(made.day(0), 31)))
    (visits,) = tables_of(figure(series, (), today=made.TODAY).tracks)
    assert visits.rows[0].cells == ("30 mm; 31 mm",)


def test_below_the_skin_is_written_with_a_true_minus() -> None:
    series = made.only(protrusion=made.points(-6.25))
    (visits,) = tables_of(figure(series, (), today=made.TODAY).tracks)
    assert visits.rows[0].cells == ("−6.25 mm",)

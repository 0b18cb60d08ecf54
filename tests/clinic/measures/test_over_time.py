"""One finding by quarter and by kind of stoma: table, drawing, list and file."""

from __future__ import annotations

import csv
from datetime import date
from io import StringIO
from itertools import pairwise

import pytest
from django.test import Client
from django.urls import reverse

from clinic.measures.at_risk import Span
from clinic.measures.over_time import HEAD, LABEL, drawing, quarters_measure
from tests.clinic.measures.clinic_builders import YEAR, lead, visited
from tests.factories.patients import StomaFactory

pytestmark = pytest.mark.django_db

PAGE, FILE, PEOPLE = (
    reverse(f"measures:{name}") for name in ("over_time", "over_time_csv", "people")
)
ASKED = {"since": "Jan 2025", "until": "Dec 2025", "kind": "prolapse"}
FIRST, SECOND = date(2025, 1, 1), date(2025, 4, 1)


@pytest.fixture
def signed_in(client: Client) -> Client:
    client.force_login(lead())
    return client


def test_few_in_one_quarter_hide_all_of_them_outside() -> None:
    """25 in 100 months: Garwood, Biometrika 1936, has 16.1787 to 36.9049."""
    many = Span(25, 3044, 60)
    shown = quarters_measure("prolapse", "Prolapse", {FIRST: many, SECOND: Span(0, 3044, 60)})
    assert shown.lines[0].counts == ("25", "60", "100.0")
    assert shown.lines[0].figures[0].words == "25.0 (16.2 to 36.9)"
    assert shown.lines[1].figures[0].words == "0.0 (0.0 to 3.7)"
    hidden = quarters_measure("prolapse", "Prolapse", {FIRST: many, SECOND: Span(2, 3044, 60)})
    assert {word for line in hidden.lines for word in line.words} == {"not shown"}
    assert hidden.lines[0].inside == ("25", "60", "100.0", "25.0 (16.2 to 36.9)")


def test_the_drawing_says_what_the_table_says() -> None:
    drawn = drawing({FIRST: Span(25, 3044, 60), SECOND: Span(0, 0, 0)})
    assert drawn is not None
    one, nothing = drawn.bars
    assert one.words == "2025, quarter 1: 25.0 (16.2 to 36.9)"
    # The upper limit is the top of the drawing, the figure below it, the lower limit lowest.
    assert one.high == HEAD
    assert one.high < (one.y or 0) < (one.low or 0)
    assert (nothing.words, nothing.y) == ("2025, quarter 2: no data", None)
    assert [words for _, words in drawn.ticks] == ["0.0", "18.5", "36.9"]
    assert drawing({FIRST: Span(0, 0, 0)}) is None


def test_labels_have_room() -> None:
    quarters = {date(2020 + n // 4, 1 + n % 4 * 3, 1): Span(2, 900, 9) for n in range(20)}
    drawn = drawing(quarters)
    assert drawn is not None
    places = [bar.x for bar in drawn.bars if bar.label]
    assert len(places) > 1
    assert min(b - a for a, b in pairwise(places)) >= LABEL
    assert drawn.bars[0].label == "1/20"


def test_page_list_and_file(signed_in: Client) -> None:
    early, late = (StomaFactory(kind=kind) for kind in ("ileostomy", "colostomy"))
    for one, day in ((early, date(2025, 2, 3)), (late, date(2025, 5, 6))):
        visited(one, date(2024, 10, 1), well_fitting=True)
        visited(one, day, prolapse=True)
    answer = signed_in.get(PAGE, ASKED)
    page = answer.content.decode()
    assert page.count("<circle") == 2
    by_quarter, by_kind = answer.context["measures"]
    assert [line.inside[0] for line in by_quarter.lines] == ["1", "1", "0", "0"]
    assert {line.about: line.inside[0] for line in by_kind.lines} == {
        "Ileostomy": "1", "Jejunostomy": "0", "Colostomy": "1", "Urostomy": "0",
    }  # fmt: skip
    months = "&since=Jan+2025&until=Dec+2025"
    for line, one in ((by_quarter.lines[1], late), (by_kind.lines[0], early)):
        there = signed_in.get(f"{PEOPLE}?{line.lists[0]}{months}").context["found"]
        assert [person.patient for person in there.people] == [one.patient]
    rows = csv.DictReader(StringIO(signed_in.get(FILE, ASKED).content.decode("utf-8-sig")))
    said = {(row["about"], row["what"]): row["value"] for row in rows}
    assert said["2025, quarter 1", "New"] == said["Colostomy", "New"] == "not shown"
    assert signed_in.get(FILE, {**ASKED, "stoma": "ileostomy"}).status_code == 302
    assert YEAR.words in page


def test_what_is_no_finding_is_the_first_of_them(signed_in: Client) -> None:
    assert signed_in.get(PAGE, {"kind": "x"}).context["kind"] == "skin"
    assert "Write it like Nov 2025" in signed_in.get(PAGE, {"since": "x"}).content.decode()

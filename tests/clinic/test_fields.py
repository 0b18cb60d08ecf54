"""A typed day is read or asked about, never guessed; "not known" is an answer."""

from datetime import date, time

import pytest
from django import forms

from clinic.fields import ClockField, DayField, DayPicker, ThreeWayField


class Asked(forms.Form):
    born = DayField()
    diabetes = ThreeWayField(label="Diabetes")


@pytest.mark.parametrize(
    "typed", ["5 Apr 1961", "1961-04-05", "5th april 1961", "Apr 5, 1961", "5apr1961", "19610405"]
)
def test_clear_days_are_read(typed: str) -> None:
    form = Asked({"born": typed})
    assert form.is_valid(), form.errors
    assert form.cleaned_data["born"] == date(1961, 4, 5)


def test_a_day_of_two_readings_is_asked_about_and_kept_as_typed() -> None:
    form = Asked({"born": "04/05/1961"})
    assert form.errors["born"] == ["Is that 5 Apr 1961 or 4 May 1961? Write the month in letters."]
    assert form["born"].value() == "04/05/1961"


@pytest.mark.parametrize("typed", ["31 Feb 1961", "5.4.61", "soon", "1961"])
def test_what_is_no_day_is_refused(typed: str) -> None:
    assert Asked({"born": typed}).errors["born"] == [
        "This is not a date. Write it like 5 Apr 1961."
    ]


@pytest.mark.parametrize(
    ("typed", "value"), [("yes", True), ("no", False), ("unknown", None), ("", None)]
)
def test_three_ways_to_answer(typed: str, value: bool | None) -> None:
    form = Asked({"born": "5 Apr 1961", "diabetes": typed})
    assert form.is_valid()
    assert form.cleaned_data["diabetes"] is value


def test_an_unanswered_question_shows_not_known() -> None:
    shown = str(Asked()["diabetes"])
    assert 'value="unknown" id="id_diabetes_2" checked' in shown


class Worn(forms.Form):
    on = DayField(widget=DayPicker)
    moist = ThreeWayField(unknown=("", "Not recorded"))


@pytest.mark.parametrize("typed", ["2024-05-31", "31 May 2024", "31.5.2024"])
def test_a_picked_day_may_be_typed_as_well(typed: str) -> None:
    assert Worn({"on": typed}).is_valid()
    assert 'type="date" name="on" value="2024-05-31"' in str(
        Worn(initial={"on": date(2024, 5, 31)})["on"]
    )


def test_a_picker_asks_about_two_readings_too() -> None:
    assert "Is that 5 Apr 2024 or 4 May 2024?" in Worn({"on": "04/05/2024"}).errors["on"][0]


def test_not_recorded_may_be_the_empty_answer() -> None:
    form = Worn({"on": "2024-05-31", "moist": ""})
    assert form.is_valid()
    assert form.cleaned_data["moist"] is None
    assert 'value="" id="id_moist_2" checked' in str(Worn()["moist"])


@pytest.mark.parametrize(
    ("stored", "posted", "changed"),
    [(True, "yes", False), (True, "", True), (None, "", False), (None, "no", True)],
)
def test_an_answer_changes_only_when_it_does(
    stored: bool | None, posted: str, changed: bool
) -> None:
    form = Worn({"on": "2024-05-31", "moist": posted}, initial={"moist": stored})
    assert ("moist" in form.changed_data) is changed


class Timed(forms.Form):
    at = ClockField(required=False)


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("14:30", time(14, 30)),
        ("9:05", time(9, 5)),
        ("14.30", time(14, 30)),
        ("0930", time(9, 30)),
        ("08:00:00", time(8)),
        ("", None),
    ],
)
def test_a_time_of_day_is_read(typed: str, read: time | None) -> None:
    form = Timed({"at": typed})
    assert form.is_valid(), form.errors
    assert form.cleaned_data["at"] == read


@pytest.mark.parametrize("typed", ["9", "half two", "25:00", "12:60", "2 pm", "930"])
def test_what_is_no_clear_time_is_refused(typed: str) -> None:
    assert Timed({"at": typed}).errors["at"] == [
        "This is not a time. Write it like 09:30 or 14:30."
    ]

"""What the tests of printed documents share."""

import logging
from collections.abc import Iterator
from dataclasses import replace

import pytest
from django.conf import settings

from clinic.clinic_details.closed_days import ClosedDays
from clinic.documents.care_sheet.sheet import Group, Line, Mark, NextVisit, Sheet, Step, Use
from clinic.documents.care_sheet.step_drawings import SHOWS
from clinic.documents.shared import Contact, Who
from clinic.patients.models import Patient
from clinic.visits.models import Assessment
from tests.clinic.documents import made_visits

SHEET = Sheet(
    who=Who("Imogen Thistledown", "5 April 1961", "T000001"),
    contact=Contact("Fern Lane Stoma Clinic (invented)", "555-0100", "Monday to Friday", "112"),
    visit_day="2 March 2026",
    stoma="Ileostomy, low on your right side",
    large=False,
    signed=True,
    uses=(
        Use("Barrier", (Line("Soft barrier with a low dome.", "Changed"),)),
        Use("Hole", (Line("The hole is 34 mm by 30 mm.", "New"),)),
    ),
    steps=(
        Step("Wash your hands."),
        Step("Peel from the top down.", "peel", SHOWS["peel"]),
        Step("Write down the date."),
    ),
    skin="The skin round your stoma looks well.",
    marks=(Mark("1", "Raw skin: towards your feet"),),
    call=(
        Group("Get emergency help now", ("Your stoma turns black.",), key="emergency"),
        Group("Call us, to be seen the same day", ("Your stoma has a deep cut.",), key="same_day"),
    ),
    language="en",
    next_visit=NextVisit("Monday, 16 March 2026", "To see how this works for you."),
)


@pytest.fixture(autouse=True)
def details_without_a_database(
    request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A paper made without a database names the clinic by its first values."""
    asked = {"db", "transactional_db"} & set(request.fixturenames)
    if not asked and request.node.get_closest_marker("django_db") is None:
        monkeypatch.setattr("clinic.clinic_details.current.stored", lambda: None)


@pytest.fixture
def sheet() -> Sheet:
    """A short sheet without a database."""
    return SHEET


@pytest.fixture
def long_sheet() -> Sheet:
    """Three pages and more, in the name of somebody with 80 letters and hardly a space."""
    name = f"{'Wilhelmina' * 4} {'Thistledown' * 4}"[:81]
    steps = tuple(
        Step(f"Step {number} has words enough to fill a line and more.", "ring", SHOWS["ring"])
        for number in range(60)
    )
    return replace(SHEET, who=replace(SHEET.who, name=name), steps=steps)


@pytest.fixture
def swept(db: None, monkeypatch: pytest.MonkeyPatch) -> Assessment:
    """A measured stoma and nothing found, of which a sweep says many plans: what is the same for
    all of them is fetched already, or asked for no more where it is on no record."""
    made = made_visits.fresh(made_visits.assessed())
    none = ClosedDays(settings.CLINIC_CLOSED_WEEKDAYS, {})
    monkeypatch.setattr("clinic.clinic_details.current.stored", lambda: None)
    monkeypatch.setattr("clinic.plans.proposed_day.closed_days_round", lambda _day: none)
    monkeypatch.setattr("clinic.plans.step_news.signed_before", lambda _made, _among: None)
    return made


@pytest.fixture(autouse=True)
def no_log_lines(caplog: pytest.LogCaptureFixture) -> Iterator[None]:
    """WeasyPrint says in its log what it could not set; nothing may be said."""
    with caplog.at_level(logging.WARNING):
        yield
    said = [one.getMessage() for one in caplog.records if one.name.startswith("weasyprint")]
    assert not said, said


@pytest.fixture(autouse=True)
def everyone_is_of_the_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """So that the desk prints for them; for whom it does: ``tests/clinic/test_desk.py``."""
    for module in ("clinic.documents.desk", "clinic.documents.day_batch.views"):
        monkeypatch.setattr(f"{module}.people_of_the_day", _everyone)


def _everyone() -> frozenset[int]:
    return frozenset(Patient.objects.values_list("pk", flat=True))

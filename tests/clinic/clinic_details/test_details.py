"""The lead's page: first values from the environment, then the row, read by pages and papers."""

from datetime import timedelta
from typing import Any

import pytest
from allauth.mfa.adapter import get_adapter
from django.apps import apps
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.clinic_details import on_closed_days
from clinic.clinic_details.closed_days import closed_days_round, closed_words
from clinic.clinic_details.current import current
from clinic.clinic_details.models import EVERY_DAY, ClinicDetails, Holiday
from clinic.documents.printed.responses import own_size
from clinic.documents.shared import contact
from tests.factories.accounts import UserFactory
from tests.factories.clinic_details import ClinicDetailsFactory, HolidayFactory

pytestmark = pytest.mark.django_db
EDIT = "clinic_details:edit"
TYPED = {
    "name": "Elm Row Clinic",
    "phone": "555-0155",
    "hours": "Every morning",
    "hours_es": "todas las mañanas",
    "hours_ar": "",
    "paper_size": "Letter",
    "closed_weekdays": ["2", "6"],
}


@pytest.fixture
def lead(client: Client) -> Client:
    client.force_login(UserFactory(role=Role.LEAD))
    return client


def save(client: Client, **changes: Any) -> Any:
    seen = client.get(reverse(EDIT)).context["form"]["seen"].value()
    return client.post(reverse(EDIT), {**TYPED, "seen": seen, **changes})


def test_the_environment_gives_the_first_values_only(lead: Client, settings: Any) -> None:
    settings.CLINIC_NAME = "From the environment"
    assert 'value="From the environment"' in lead.get(reverse(EDIT)).content.decode()
    assert current().name == "From the environment"
    save(lead)
    settings.CLINIC_NAME = "Changed in the environment"
    assert current().name == "Elm Row Clinic"


def test_what_is_saved_is_on_pages_and_papers(lead: Client) -> None:
    save(lead)
    page = lead.get("/").content.decode()
    assert "Elm Row Clinic, 555-0155, Every morning" in page
    reach = contact()
    assert (reach.clinic, reach.phone) == ("Elm Row Clinic", "555-0155")
    assert reach.hours.english == "Every morning"  # type: ignore[union-attr]
    assert reach.hours.others == {"es": "todas las mañanas"}  # type: ignore[union-attr]
    assert own_size() == "letter"
    assert current().closed_weekdays == [2, 6]
    assert get_adapter().get_totp_issuer() == "Elm Row Clinic"


def test_changes_are_on_record_with_their_history(lead: Client) -> None:
    save(lead)
    save(lead, phone="555-0156")
    details = AccessLog.objects.filter(action="changed").order_by("id")
    assert details[1].detail == "phone"
    events = apps.get_model("clinic_details", "ClinicDetailsEvent")._default_manager
    phones = events.order_by("pgh_id").values_list("phone", flat=True)
    assert list(phones) == ["555-0155", "555-0156"]


def test_a_change_in_the_meantime_is_shown(lead: Client) -> None:
    page = save(lead, seen="")
    assert page.status_code == 302
    page = lead.post(reverse(EDIT), {**TYPED, "seen": ""})
    assert "Someone changed this record" in page.content.decode()


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"name": " "}, "name", "Give the clinic's name."),
        ({"phone": ""}, "phone", "Give the number that patients call."),
        ({"closed_weekdays": list("0123456")}, "closed_weekdays", EVERY_DAY),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(
    lead: Client, changes: dict[str, Any], field: str, words: str
) -> None:
    form = save(lead, **changes).context["form"]
    assert form.errors == {field: [words]}
    assert form["hours"].value() == "Every morning"
    assert not ClinicDetails.objects.exists()


@pytest.mark.parametrize(
    "changes",
    [
        {"id": 2},
        {"name": ""},
        {"phone": " "},
        {"paper_size": "A5"},
        {"closed_weekdays": [0, 1, 2, 3, 4, 5, 6]},
        {"closed_weekdays": [7]},
    ],
)
def test_the_database_holds_one_row_in_order(changes: dict[str, Any]) -> None:
    with pytest.raises(DatabaseError), transaction.atomic():
        ClinicDetailsFactory(**changes)


def add(client: Client, day: str, name: str = "Harvest Day") -> Any:
    return client.post(reverse("clinic_details:holiday_add"), {"day": day, "name": name})


def test_a_holiday_is_added_once_and_removed(lead: Client) -> None:
    day = (timezone.localdate() + timedelta(days=40)).isoformat()
    add(lead, day)
    add(lead, day)
    one = Holiday.objects.get()
    assert closed_words(one.day) == "The clinic is closed that day: Harvest Day."
    twice = add(lead, day, "Another name")
    assert "This day is in the list already." in twice.content.decode()
    for _ in range(2):
        lead.post(reverse("clinic_details:holiday_remove", args=[one.uuid]))
    assert not Holiday.objects.exists()
    kept = AccessLog.objects.filter(subject_kind="clinic details").order_by("id")
    assert [row.action for row in kept] == ["added holiday", "removed holiday"]
    events = apps.get_model("clinic_details", "HolidayEvent")._default_manager
    assert set(events.values_list("pgh_label", flat=True)) == {"insert", "delete"}


def test_a_holiday_needs_a_day_and_a_name(lead: Client) -> None:
    page = add(lead, "", "")
    assert page.status_code == 422
    words = page.content.decode()
    assert "Give the date." in words
    assert "Say what the day is called." in words


def test_visits_set_for_a_closed_day_are_named(
    lead: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(on_closed_days, "_counters", [lambda day: 2])
    day = timezone.localdate() + timedelta(days=40)
    add(lead, day.isoformat())
    page = lead.get(reverse(EDIT)).content.decode()
    assert "2 next visits are set for that day" in page
    assert f"?day={day.isoformat()}" in page


def test_the_day_page_says_that_it_is_closed(lead: Client) -> None:
    one = HolidayFactory(name="Harvest Day")
    page = lead.get("/", {"day": one.day.isoformat()}).content.decode()
    assert "The clinic is closed that day: Harvest Day." in page
    assert "Harvest Day" not in lead.get("/").content.decode()


def test_closed_days_are_read_in_two_queries(django_assert_num_queries: Any) -> None:
    ClinicDetailsFactory()
    day = HolidayFactory().day
    with django_assert_num_queries(2):
        assert closed_days_round(day).holidays == {day: "Harvest Day"}

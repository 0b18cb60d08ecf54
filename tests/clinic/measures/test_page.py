"""The page and the file."""

from __future__ import annotations

import csv
from datetime import date
from io import StringIO

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.measures.export import COLUMNS, guarded
from clinic.measures.period import Period, month
from tests.clinic.measures.clinic_builders import lead, visited
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db

PAGE, FILE = reverse("measures:clinic"), reverse("measures:csv")
YEAR = {"since": "Jan 2025", "until": "2025-12"}


@pytest.fixture
def signed_in(client: Client) -> Client:
    client.force_login(lead())
    return client


def rows(client: Client, **query: str) -> list[dict[str, str]]:
    text = client.get(FILE, query).content.decode("utf-8-sig")
    return list(csv.DictReader(StringIO(text)))


def test_twelve_whole_months_and_the_current_one_to_begin_with(signed_in: Client) -> None:
    page = signed_in.get(PAGE).content.decode()
    usual = Period.usual(timezone.localdate())
    assert f"{usual.words} (the last 12 whole months and the current one)" in page
    assert f'value="{month(usual.since)}"' in page
    assert f'value="{month(usual.until)}"' in page


@pytest.mark.parametrize("query", [{}, {"since": "nonsense", "until": "Dec 2025"}])
def test_asking_carries_no_token_into_the_address(signed_in: Client, query: dict[str, str]) -> None:
    asking = signed_in.get(PAGE, query).content.decode().split('<form method="get"', 1)[1]
    form = asking.split("</form>", 1)[0]
    assert 'name="since"' in form
    assert "csrfmiddlewaretoken" not in form
    assert ("Nothing counted yet: please check what you asked for" in form) is bool(query)


def test_every_measure_says_its_rule_its_source_and_what_it_leaves_out(signed_in: Client) -> None:
    answer = signed_in.get(PAGE)
    assert len(answer.context["measures"]) == 8
    for measure in answer.context["measures"]:
        for words in (measure.title, measure.rule, measure.not_counted, measure.source):
            assert words
    assert answer.content.decode().count("Does not count") == 8


def test_asked_for_other_dates(signed_in: Client) -> None:
    for _ in range(5):
        visited(prolapse=True)
    asked = {"since": "january 2025", "until": "12/2025"}
    page = signed_in.get(PAGE, asked).content.decode()
    assert "Jan 2025 to Dec 2025." in page
    assert "100.0 (47.8 to 100.0)" in page


@pytest.mark.parametrize(
    ("since", "until", "words"),
    [
        ("yesterday", "Dec 2025", "This is not a month. Write it like Nov 2025."),
        ("2025", "Dec 2025", "This is not a month. Write it like Nov 2025."),
        ("2025-13", "Dec 2025", "This is not a month. Write it like Nov 2025."),
        ("4/5/2025", "Dec 2025", "This is not a month. Write it like Nov 2025."),
        # Two ranges a day apart would single out the people seen on that day.
        ("2 Jan 2025", "Dec 2025", "Only whole months are counted. Write Jan 2025."),
        ("Jan 2025", "2025-12-30", "Only whole months are counted. Write Dec 2025."),
        ("", "Dec 2025", "Give the month."),
        ("Jan 2025", "", "Give the month."),
        ("Dec 2025", "Jan 2025", "This is after the other month."),
        ("Jan 2025", "Jan 2099", "This month is in the future."),
    ],
)
def test_months_that_are_none(signed_in: Client, since: str, until: str, words: str) -> None:
    answer = signed_in.get(PAGE, {"since": since, "until": until})
    page = answer.content.decode()
    assert words in page
    assert f'value="{since}"' in page or not since
    assert answer.context["measures"] == ()
    assert "Does not count" not in page
    back = signed_in.get(FILE, {"since": since, "until": until}, follow=True)
    assert words in back.content.decode()


@pytest.mark.parametrize("given", ["since", "until"])
def test_one_month_alone_asks_for_the_other(signed_in: Client, given: str) -> None:
    answer = signed_in.get(PAGE, {given: "Jan 2025"})
    assert "Give the month." in answer.content.decode()
    assert answer.context["measures"] == ()


def test_the_file_says_what_the_page_says(signed_in: Client) -> None:
    for _ in range(10):
        visited(prolapse=True)
    for _ in range(7):
        visited(well_fitting=True)
    for _ in range(3):
        visited(hernia=True, measurement__prolapse="none")
    found = {
        (r["about"], r["what"]): r for r in rows(signed_in, **YEAR) if "last visit" in r["measure"]
    }
    prolapse = found["Prolapse", "Per 100 stomas"]
    assert (prolapse["value"], prolapse["low"], prolapse["high"]) == ("50.0", "27.2", "72.8")
    assert found["Parastomal bulge", "Found"]["value"] == "fewer than 5"
    assert found["Parastomal bulge", "Per 100 stomas"]["value"] == "not shown"
    page = signed_in.get(PAGE, YEAR)
    cells = sum(len(ln.words) for m in page.context["measures"] for ln in m.lines)
    assert len(rows(signed_in, **YEAR)) == cells


def test_the_file_can_be_opened_anywhere(signed_in: Client) -> None:
    answer = signed_in.get(FILE, YEAR)
    assert answer["Content-Type"] == "text/csv; charset=utf-8"
    assert "measures-2025-01-01-2025-12-31.csv" in answer["Content-Disposition"]
    assert answer.content.startswith(b"\xef\xbb\xbf")
    lines = answer.content.decode("utf-8-sig").splitlines()
    assert lines[0] == ",".join(COLUMNS)


@pytest.mark.parametrize("cell", ["=1+1", "+1", "-1", "@x", "\t=1", "\r=1", "\n=1"])
def test_no_cell_is_run_by_a_spreadsheet(cell: str) -> None:
    assert guarded(cell) == f"'{cell}"
    assert guarded(f"x{cell}") == f"x{cell}"


def test_no_patient_on_page_or_file(signed_in: Client) -> None:
    patients = [visited(prolapse=True).stoma.patient for _ in range(6)]
    shown = signed_in.get(PAGE, YEAR).content.decode() + str(rows(signed_in, **YEAR))
    for patient in patients:
        assert patient.record_number not in shown
        assert patient.family_name not in shown
        assert str(patient.uuid) not in shown


def test_looking_is_on_record_without_a_patient(signed_in: Client) -> None:
    visited(prolapse=True)
    signed_in.get(PAGE)
    signed_in.get(FILE)
    done = AccessLog.objects.filter(subject_kind="measures").order_by("id")
    assert [row.action for row in done] == ["viewed", "exported"]
    assert {row.patient_uuid for row in done} == {None}


@pytest.mark.parametrize("address", [PAGE, FILE])
def test_as_many_queries_for_three_as_for_thirty(signed_in: Client, address: str) -> None:
    def asked() -> int:
        with CaptureQueriesContext(
            connection,
        ) as queries:
            assert signed_in.get(address, YEAR).status_code == 200
        return len(queries)

    for _ in range(3):
        visited(leaking=True)
    few = asked()
    for _ in range(27):
        visited(leaking=True)
    assert asked() == few


@pytest.mark.parametrize("role", Role)
def test_only_the_lead_finds_the_way(client: Client, role: Role) -> None:
    client.force_login(UserFactory(role=role))
    assert (f'href="{PAGE}"' in client.get("/").content.decode()) is (role == Role.LEAD)


def test_a_range_begins_and_ends_with_whole_months() -> None:
    today = date(2026, 5, 10)
    usual = Period.usual(today)
    assert (usual.since, usual.until) == (date(2025, 5, 1), today)
    asked = Period.of_months(date(2025, 2, 1), date(2026, 2, 1), today)
    assert (asked.since, asked.until) == (date(2025, 2, 1), date(2026, 2, 28))

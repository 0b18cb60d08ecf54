"""Counts for those who run the server: off unless switched on, for the key alone, of no one."""

from __future__ import annotations

import re
from collections.abc import Callable

import pytest
from django.core.exceptions import MiddlewareNotUsed
from django.db import OperationalError
from django.http import HttpRequest, HttpResponse
from django.test import Client, RequestFactory
from django.urls import reverse
from pytest_django import Settings

from clinic.accounts.models import Role
from clinic.metrics.middleware import MetricsMiddleware
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

KEY = "only-for-this-test-" + "k" * 10
SENT = {"Authorization": f"Bearer {KEY}"}


@pytest.fixture
def on(settings: Settings) -> None:
    settings.METRICS_KEY = KEY


def _number(client: Client, line: str) -> float:
    """The count behind ``line``, a name with its labels."""
    text = client.get("/metrics", headers=SENT).content.decode()
    found = re.search(rf"^{re.escape(line)} (\S+)$", text, re.MULTILINE)
    return float(found[1]) if found else 0.0


def test_off_unless_switched_on() -> None:
    with pytest.raises(MiddlewareNotUsed):
        MetricsMiddleware(lambda _: HttpResponse())


@pytest.mark.django_db
@pytest.mark.parametrize("sent", [{}, {"Authorization": "Bearer wrong"}, {"Authorization": KEY}])
@pytest.mark.usefixtures("on")
def test_without_the_key_there_is_no_such_page(client: Client, sent: dict[str, str]) -> None:
    other = client.get("/nothing-here", headers=sent)
    answer = client.get("/metrics", headers=sent)
    assert (answer.status_code, answer.content) == (other.status_code, other.content)


@pytest.mark.django_db
@pytest.mark.usefixtures("on")
def test_answers_and_saves_are_counted_by_page_and_of_no_one(client: Client) -> None:
    draft = AssessmentFactory()
    client.force_login(UserFactory(role=Role.NURSE))
    lines = {
        'clinic_requests_total{method="GET",page="charting:chart",status="200"}': 1,
        'clinic_request_seconds_count{page="charting:chart"}': 1,
        'clinic_saves_total{outcome="saved"}': 1,
        'clinic_saves_total{outcome="conflict"}': 1,
    }
    before = {line: _number(client, line) for line in lines}
    client.get(reverse("charting:chart", args=[draft.uuid]))
    save = reverse("charting:save", args=[draft.uuid])
    typed = {"visit-note": "Came by taxi.", "version": 0}
    client.post(save, typed | {"version": draft.visit.version}, headers={"X-Autosave": "1"})
    client.post(save, typed | {"visit-note": "By bus.", "version": 0}, headers={"X-Autosave": "1"})
    assert {line: _number(client, line) - before[line] for line in lines} == lines
    text = client.get("/metrics", headers=SENT).content.decode()
    patient = draft.visit.patient
    for secret in (draft.uuid, patient.uuid, patient.record_number, patient.family_name, "taxi"):
        assert str(secret) not in text


@pytest.mark.django_db
@pytest.mark.usefixtures("on")
def test_what_anyone_may_send_makes_no_count_of_its_own(client: Client) -> None:
    other = 'clinic_requests_total{method="other",page="none",status="404"}'
    before = _number(client, other)
    for method in ("FIRST", "SECOND"):
        client.generic(method, f"/nothing/{method}")
    assert _number(client, other) == before + 2
    assert "FIRST" not in client.get("/metrics", headers=SENT).content.decode()


@pytest.mark.usefixtures("on")
def test_a_failing_database_is_counted(client: Client, rf: RequestFactory) -> None:
    line = 'clinic_database_errors_total{kind="OperationalError"}'
    before = _number(client, line)
    counted: Callable[[HttpRequest, Exception], None] = MetricsMiddleware(
        lambda _: HttpResponse()
    ).process_exception
    counted(rf.get("/"), OperationalError("away"))
    counted(rf.get("/"), ValueError("no fault of the database"))
    assert _number(client, line) == before + 1


@pytest.mark.usefixtures("on")
def test_a_watching_program_needs_no_database(client: Client) -> None:
    """No ``db`` mark: a query would fail the test."""
    answer = client.get("/metrics", headers=SENT)
    assert answer.status_code == 200
    assert answer.headers["Content-Type"].startswith("text/plain")

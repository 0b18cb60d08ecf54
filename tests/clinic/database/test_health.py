"""What watches the server hears the truth; a database that is away is no fault of the program."""

from typing import Any

import pytest
from django.core.management import call_command
from django.db import InterfaceError, OperationalError, connection
from django.test import Client
from pytest_django import DjangoAssertNumQueries

from clinic.database import health
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db


def away(*_given: Any, **_named: Any) -> None:
    raise OperationalError("the server closed the connection: a patient's name")


def test_alive_asks_nothing(
    client: Client, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    with django_assert_num_queries(0):
        answer = client.get(health.ALIVE, headers={"host": "10.0.0.7"})
    assert (answer.status_code, answer.content) == (200, b"alive\n")
    assert not answer.cookies


def test_ready_with_the_tables_of_this_version(client: Client) -> None:
    answer = client.get(health.READY)
    assert (answer.status_code, answer.content) == (200, b"ready\n")


def test_not_ready_without_database(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connection, "cursor", away)
    monkeypatch.setattr(connection, "close", lambda: None)  # the test's own transaction
    answer = client.get(health.READY)
    assert answer.status_code == 503
    assert b"name" not in answer.content


def test_not_ready_before_the_migrations(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(health, "_unapplied", lambda: True)
    answer = client.get(health.READY)
    assert (answer.status_code, answer.content) == (503, b"migrations are missing\n")


@pytest.mark.parametrize("fault", [OperationalError, InterfaceError])
def test_a_page_says_when_to_try_again(
    client: Client, monkeypatch: pytest.MonkeyPatch, fault: type[Exception]
) -> None:
    def fail(*_given: Any, **_named: Any) -> None:
        raise fault("a patient's name")

    client.force_login(UserFactory())
    monkeypatch.setattr("clinic.clinic_day.views.render", fail)
    client.raise_request_exception = False
    answer = client.get("/")
    assert answer.status_code == 503
    assert answer.headers["Retry-After"] == "5"
    assert answer.headers["Cache-Control"] == "no-store"
    assert "go back, wait a moment" in answer.content.decode()
    assert "name" not in answer.content.decode().replace('name="', "")


def test_the_application_waits_for_no_one_long(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("APPLICATION_ROLE_PASSWORD", "an invented one")
    call_command("make_application_role", "own_server")
    with connection.cursor() as cursor:
        cursor.execute("SELECT rolconfig FROM pg_roles WHERE rolname = 'own_server'")
        assert {"lock_timeout=3s", "statement_timeout=15s"} <= set(cursor.fetchone()[0])


def test_what_takes_too_long_is_the_databases_fault() -> None:
    """As the page above takes it."""
    with connection.cursor() as cursor:
        cursor.execute("SET LOCAL statement_timeout = '1ms'")
        with pytest.raises(OperationalError):
            cursor.execute("SELECT pg_sleep(1)")

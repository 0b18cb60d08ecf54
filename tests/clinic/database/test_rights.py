"""The application's role reads and writes, and can neither change what is final nor switch off
what keeps it so. Every table is tried."""

from typing import Any

import pghistory
import pytest
from django.apps import apps
from django.core.exceptions import ImproperlyConfigured
from django.core.management import CommandError, call_command
from django.db import DatabaseError, connection, transaction
from django.db.backends.signals import connection_created
from pghistory.models import Context, Event

from clinic.audit.models import AccessLink, AccessLog
from clinic.database import least_rights, rights
from tests.clinic.plans.signed_visits import signed
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory

pytestmark = pytest.mark.django_db


def refused(statement: str) -> bool:
    """Whether the database refuses this under the role that asks."""
    try:
        with transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(statement)
    except DatabaseError:
        return True
    return False


def every_table() -> list[str]:
    with connection.cursor() as cursor:
        return rights.tables(cursor)


def test_nothing_of_history_or_audit_is_changed(application_role: str) -> None:
    signed()
    final: list[Any] = [m for m in apps.get_models() if issubclass(m, Event)]
    final += [AccessLog, AccessLink, Context]
    assert len(final) > 20
    attempts = [
        statement.format(table=model._meta.db_table, column=model._meta.pk.column)
        for model in final
        for statement in ('UPDATE "{table}" SET "{column}" = "{column}"', 'DELETE FROM "{table}"')
    ]
    assert [one for one in attempts if not refused(one)] == []


def test_no_table_is_emptied_and_no_trigger_switched_off(application_role: str) -> None:
    passed = [
        statement
        for table in every_table()
        for statement in (
            f'TRUNCATE "{table}" CASCADE',
            f'ALTER TABLE "{table}" DISABLE TRIGGER ALL',
            f'ALTER TABLE "{table}" DISABLE TRIGGER USER',
            f'CREATE TRIGGER own BEFORE UPDATE ON "{table}" '
            "EXECUTE FUNCTION suppress_redundant_updates_trigger()",
            f'DROP TABLE "{table}" CASCADE',
        )
        if not refused(statement)
    ]
    assert passed == []


@pytest.mark.parametrize(
    "switch",
    [
        "SET session_replication_role = replica",
        "SET ROLE postgres",
        "CREATE OR REPLACE FUNCTION public._pgtrigger_should_ignore(trigger_name NAME) "
        "RETURNS BOOLEAN AS $$ SELECT TRUE $$ LANGUAGE sql",
        "CREATE TABLE own (n int)",
        "CREATE FUNCTION own() RETURNS int AS $$ SELECT 1 $$ LANGUAGE sql",
    ],
)
def test_no_switch_is_its_own(application_role: str, switch: str) -> None:
    assert refused(switch)


def _names(cursor: Any, table: str) -> list[str]:
    cursor.execute(
        "SELECT tgname FROM pg_trigger WHERE tgrelid = %s::regclass AND NOT tgisinternal", [table]
    )
    return [row[0] for row in cursor.fetchall()]


@pytest.mark.parametrize("own_role", [True, False], ids=["application", "owner"])
def test_a_signed_visit_is_final_whatever_a_session_sets(
    request: pytest.FixtureRequest, own_role: bool
) -> None:
    """For the owner too: only by taking a trigger off the table itself."""
    made = signed()
    if own_role:
        request.getfixturevalue("application_role")
    with connection.cursor() as cursor:
        named = _names(cursor, "visits_visit") + _names(cursor, "visits_stomameasurement")
        for setting in ("pgtrigger.ignore", "clinic.may_truncate"):
            cursor.execute(
                "SELECT set_config(%s, %s, false)", [setting, "{" + ",".join(named) + "}"]
            )
    for attempt in (
        "UPDATE visits_visit SET note = 'x' WHERE id = {visit}",
        "DELETE FROM visits_visit WHERE id = {visit}",
        "UPDATE visits_stomameasurement SET length_mm = 9 WHERE assessment_id = {assessment}",
    ):
        assert refused(attempt.format(visit=made.visit_id, assessment=made.pk))


def test_history_says_who_acted_under_the_application_too(application_role: str) -> None:
    """The context of a row is written by a function of the owner's."""
    nurse, patient = UserFactory(), PatientFactory()
    with pghistory.context(user=nurse.pk):
        patient.given_name = "Other"
        patient.save()
    latest = patient.events.order_by("-pgh_id").first()
    assert latest.pgh_context.metadata["user"] == nurse.pk


def test_an_owner_is_no_server() -> None:
    with pytest.raises(ImproperlyConfigured, match="make_application_role"):
        least_rights._ask(None, connection)


def test_the_application_is_and_is_asked_once(application_role: str) -> None:
    connection_created.connect(least_rights._ask, dispatch_uid="least rights")
    least_rights._ask(None, connection)
    assert not connection_created.disconnect(dispatch_uid="least rights")


def test_a_role_needs_a_password(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("clinic.management.commands.make_application_role.getpass", lambda _: "")
    with pytest.raises(CommandError, match="needs a password"):
        call_command("make_application_role", "own_server")


def test_the_command_makes_a_role_that_signs_in_and_owns_nothing(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("APPLICATION_ROLE_PASSWORD", "an invented one")
    for _ in range(2):  # again: another password
        call_command("make_application_role", "own_server")
    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT rolcanlogin, rolsuper, rolcreatedb, rolcreaterole, rolbypassrls "
            "FROM pg_roles WHERE rolname = 'own_server'"
        )
        assert cursor.fetchone() == (True, False, False, False, False)
        cursor.execute("SET LOCAL ROLE own_server")
    assert refused("DELETE FROM audit_accesslog")
    assert not refused("SELECT count(*) FROM visits_visit")
    assert "an invented one" not in capsys.readouterr().out

"""The log says what failed and where, and nothing about whose record it was."""

import logging
import logging.config
from collections.abc import Iterator
from copy import deepcopy
from datetime import date
from io import StringIO
from typing import Any

import pytest
from django.conf import settings
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse

from clinic.patients.models import Patient, Stoma
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def log() -> Iterator[StringIO]:
    """What the settings would write to the server's log."""
    written = StringIO()
    chosen: dict[str, Any] = deepcopy(settings.LOGGING)  # reading it takes it apart
    config = logging.config.DictConfigurator(chosen)
    handler = logging.StreamHandler(written)
    (name,) = chosen["formatters"]
    handler.setFormatter(config.configure_formatter(chosen["formatters"][name]))
    logging.getLogger().addHandler(handler)
    yield written
    logging.getLogger().removeHandler(handler)


@pytest.fixture
def somebody() -> Patient:
    return PatientFactory(
        family_name="Hazelgrove", given_name="Rufus", date_of_birth=date(1961, 4, 5)
    )


def refused_by_the_database(patient: Patient) -> DatabaseError:
    """As the driver tells it: the whole row in its words."""
    with pytest.raises(DatabaseError) as refused, transaction.atomic():
        Patient.objects.filter(pk=patient.pk).update(sex="f")
    assert "Hazelgrove" in str(refused.value)
    return refused.value


def test_a_row_that_the_database_refused_stays_out_of_the_log(
    log: StringIO, client: Client, somebody: Patient, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*given: object) -> None:
        Patient.objects.filter(pk=somebody.pk).update(sex="f")

    monkeypatch.setattr("clinic.patient_record.views.clinical_page", fail)
    client.force_login(UserFactory())
    client.raise_request_exception = False
    with transaction.atomic():
        client.get(reverse("patients:record", args=[somebody.uuid]))
        transaction.set_rollback(True)
    text = log.getvalue()
    assert "Internal Server Error" in text
    assert "psycopg.errors.CheckViolation (23514, patient_sex_is_known_word)" in text
    assert "in fail" in text
    for word in ("Hazelgrove", "Rufus", "1961", "Failing row"):
        assert word not in text


def test_an_error_named_in_the_line_is_its_type_alone(log: StringIO, somebody: Patient) -> None:
    error = refused_by_the_database(somebody)
    logging.getLogger("any").error("Not saved: %s", error)
    logging.getLogger("any").error("Not saved: %(why)s", {"why": error})
    logging.getLogger("any").error(error)
    assert log.getvalue().count("django.db.utils.IntegrityError") == 3
    assert "Hazelgrove" not in log.getvalue()


def test_text_that_another_handler_left_is_not_taken_over(log: StringIO, somebody: Patient) -> None:
    error = refused_by_the_database(somebody)
    other = logging.Formatter()
    told = logging.LogRecord(
        "any", logging.ERROR, "", 1, "x", None, (type(error), error, error.__traceback__)
    )
    assert "Hazelgrove" in other.format(told)
    logging.getLogger("any").handle(told)
    assert "IntegrityError" in log.getvalue()
    assert "Hazelgrove" not in log.getvalue()


def test_every_cause_is_logged_in_order(log: StringIO) -> None:
    try:
        try:
            raise KeyError("first")
        except KeyError as first:
            raise ValueError("second") from first
    except ValueError:
        logging.getLogger("any").exception("It failed")
    lines = [line for line in log.getvalue().splitlines() if not line.startswith("  ")]
    assert lines[1:] == ["builtins.KeyError", "which led to:", "builtins.ValueError"]
    assert "first" not in lines[1]


def test_what_a_trigger_refused_is_named_by_its_code(log: StringIO) -> None:
    stoma = StomaFactory()
    try:
        with transaction.atomic():
            Stoma.objects.filter(pk=stoma.pk).update(surgery_date=date(1900, 1, 1))
    except DatabaseError:
        logging.getLogger("any").exception("It failed")
    assert "psycopg.errors.CheckViolation (23514)" in log.getvalue()

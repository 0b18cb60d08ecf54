"""Sheets set in the evening print at once in the morning."""

from datetime import date, timedelta
from io import StringIO

import pytest
from django.core.management import CommandError, call_command
from django.test import Client
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.day_batch import build as day_batch
from clinic.documents.models import PrintedDocument, Rendering
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.follow_up.models import FollowUp
from clinic.visits.models import Assessment
from tests.clinic.documents.day_batch.test_day_sheets import printed
from tests.clinic.documents.made_visits import signed_as_planned

pytestmark = pytest.mark.django_db


def due(day: date, situation: str = "leaking") -> Assessment:
    made = signed_as_planned(situation)
    FollowUp.objects.filter(set_by=made).update(due=day)
    return made


def told(*given: str) -> str:
    said = StringIO()
    call_command("prepare_sheets", *given, stdout=said)
    return said.getvalue()


def test_only_tomorrows_are_set(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    tomorrow = timezone.localdate() + timedelta(days=1)
    made = due(tomorrow)
    due(tomorrow + timedelta(days=1), "hernia")
    said = told()
    assert said == f"Sheets ready for {tomorrow.isoformat()}: 1.\n"
    # The first visit's sheet, and its leaf.
    assert Rendering.objects.count() == 2
    assert not PrintedDocument.objects.exists()
    assert not AccessLog.objects.filter(action="printed").exists()
    monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", None)
    answer = printed(client, [made], Role.NURSE)
    assert answer.status_code == 200
    assert b"".join(answer.streaming_content).startswith(b"%PDF")


def test_another_day_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    """In turns that each set but one."""
    monkeypatch.setattr(day_batch, "A_TURN", 0.0)
    day = timezone.localdate() + timedelta(days=9)
    due(day)
    due(day, "hernia")
    assert told("--day", day.isoformat()).endswith(": 2.\n")
    assert Rendering.objects.count() == 4


def test_a_day_without_visits_is_said() -> None:
    assert told().endswith(": 0.\n")


@pytest.mark.parametrize("typed", ["tomorrow", "2026-02-30", "0001-01-01", "9999-12-31"])
def test_a_day_that_is_none_is_refused_in_words(typed: str) -> None:
    with pytest.raises(CommandError, match="year, month and day"):
        told("--day", typed)


def test_where_nothing_can_be_set_it_says_so(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(_pages: object, *, at_most: int) -> bytes:
        raise PrintingUnavailable("Pango is not here.")

    due(timezone.localdate() + timedelta(days=1))
    monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", fail)
    with pytest.raises(CommandError, match="Pango is not here"):
        told()

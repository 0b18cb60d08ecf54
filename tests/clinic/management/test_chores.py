"""What a timer clears away, and what it must leave."""

import hashlib
import uuid
from datetime import datetime, timedelta

import pytest
from django.contrib.sessions.models import Session
from django.core.cache import cache
from django.core.management import call_command
from django.db import connection
from django.utils import timezone

from clinic.documents.models import Rendering, StoredFile
from clinic.once.models import SentForm
from clinic.visits.models import ConflictCopy, PendingEntry
from tests.clinic.documents.made_papers import SOME_PDF, printed_paper
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

OLD, NEW = timezone.now() - timedelta(days=40), timezone.now() + timedelta(minutes=30)


def a_file(words: bytes, at: datetime) -> StoredFile:
    return StoredFile.objects.create(
        sha256=hashlib.sha256(words).hexdigest(), pdf=words, made_at=at
    )


@pytest.fixture
def old_and_new(db: None) -> None:
    """One of each that is over, one that is not; and what is the record's, however old."""
    nurse = UserFactory.create()
    cache.clear()  # what another test let be remembered
    for name, at in (("old", OLD), ("new", NEW)):
        Session.objects.create(session_key=name, session_data="", expire_date=at)
        SentForm.objects.create(key=uuid.uuid4(), by=nurse, at=at)
        cache.set(name, "counted")
        Rendering.objects.create(key=name, file=a_file(name.encode(), at), made_at=at)
    with connection.cursor() as cursor:
        cursor.execute("UPDATE clinic_cache SET expires = %s WHERE cache_key LIKE '%%:old'", [OLD])
    a_file(SOME_PDF, OLD)
    printed_paper(AssessmentFactory.create())
    about = AssessmentFactory.create()
    ConflictCopy.objects.create(assessment=about, by=nurse, base_version=1, data={})
    ConflictCopy.objects.update(at=OLD)
    PendingEntry.objects.create(assessment=about, prefix="x", data={})


def left() -> dict[str, int]:
    with connection.cursor() as cursor:
        cursor.execute("SELECT count(*) FROM clinic_cache")
        (remembered,) = cursor.fetchone()
    models = (Session, SentForm, Rendering, StoredFile, ConflictCopy, PendingEntry)
    return {one.__name__: one._default_manager.count() for one in models} | {"cache": remembered}


def test_what_is_over_is_cleared_away_and_nothing_else(
    old_and_new: None, application_role: str, capsys: pytest.CaptureFixture[str]
) -> None:
    call_command("chores")
    said = capsys.readouterr().out
    assert said.count("Cleared away: ") == said.count(": 1.") == 4
    now = {"Session": 1, "SentForm": 1, "Rendering": 1, "StoredFile": 2, "cache": 1}
    assert left() == now | {"ConflictCopy": 1, "PendingEntry": 1}
    assert Session.objects.get().session_key == Rendering.objects.get().key == "new"
    assert SentForm.objects.get().at == NEW
    assert cache.get("new") == "counted"
    call_command("chores")
    assert capsys.readouterr().out.count(": 0.") == 4
    assert left() == now | {"ConflictCopy": 1, "PendingEntry": 1}

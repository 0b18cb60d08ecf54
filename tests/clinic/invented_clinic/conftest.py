"""The invented clinic, loaded once for this folder."""

from collections.abc import Iterator
from typing import Any

import pytest
from django.db import connection, transaction
from django.utils import timezone

from fixtures.invented_clinic.load import Loaded, load


@pytest.fixture(scope="package")
def loaded(django_db_setup: None, django_db_blocker: Any) -> Iterator[Loaded]:
    """The clinic, loaded once and taken back at the end; each test runs in a savepoint in it."""
    with django_db_blocker.unblock(), transaction.atomic():
        result = load(timezone.now())
        with connection.cursor() as cursor:
            # What the database checks at commit is checked here: nothing is ever committed.
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
        yield result
        transaction.set_rollback(True)

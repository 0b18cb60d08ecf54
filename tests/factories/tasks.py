"""A task about somebody, for all."""

from datetime import UTC, date, datetime
from uuid import uuid4

import factory

from clinic.tasks.models import Task, TaskKind
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory


class TaskFactory(factory.django.DjangoModelFactory[Task]):
    """Open, of a day long ago."""

    class Meta:
        model = Task

    once = factory.LazyFunction(uuid4)
    patient = factory.SubFactory(PatientFactory)
    kind = TaskKind.CALL
    day = date(2025, 5, 6)
    made_by = factory.SubFactory(UserFactory)
    made_at = datetime(2025, 5, 2, 9, 0, tzinfo=UTC)

"""Invented complications."""

import factory

from clinic.complications.choices import Kind
from clinic.complications.models import Complication
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory


class ComplicationFactory(factory.django.DjangoModelFactory[Complication]):
    """A narrowing; when it was found is not known, and no one has graded it."""

    class Meta:
        model = Complication

    stoma = factory.SubFactory(StomaFactory)
    kind = Kind.STENOSIS
    recorded_by = factory.SubFactory(UserFactory)

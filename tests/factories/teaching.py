"""Invented teaching."""

from datetime import date

import factory

from clinic.teaching.choices import Item, Learner, Level
from clinic.teaching.models import TaughtPoint
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory


class TaughtPointFactory(factory.django.DjangoModelFactory[TaughtPoint]):
    """The patient empties the pouch alone."""

    class Meta:
        model = TaughtPoint

    stoma = factory.SubFactory(StomaFactory)
    on = date(2025, 5, 6)
    item = Item.EMPTY
    level = Level.ALONE
    learner = Learner.PATIENT
    recorded_by = factory.SubFactory(UserFactory)

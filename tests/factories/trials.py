"""Invented trials from before this record."""

import factory

from clinic.trials.choices import KnownFrom, Outcome, Supply
from clinic.trials.models import EarlierTrial
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory


class EarlierTrialFactory(factory.django.DjangoModelFactory[EarlierTrial]):
    """A ring that did not help, as the person says; when is not known."""

    class Meta:
        model = EarlierTrial

    stoma = factory.SubFactory(StomaFactory)
    supplies = [Supply.RING]
    outcome = Outcome.NO_HELP
    known_from = KnownFrom.PERSON
    recorded_by = factory.SubFactory(UserFactory)

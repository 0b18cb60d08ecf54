"""Invented site markings."""

from datetime import date

import factory

from clinic.patients.models import Site
from clinic.site_marking.choices import Rank
from clinic.site_marking.models import MarkedSite, SiteMarking
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory


class SiteMarkingFactory(factory.django.DjangoModelFactory[SiteMarking]):
    """Before the surgery of the stoma factory; add its sites."""

    class Meta:
        model = SiteMarking

    patient = factory.SubFactory(PatientFactory)
    marked_on = date(2024, 3, 10)
    marked_by = "R. Quill, stoma nurse"
    recorded_by = factory.SubFactory(UserFactory)


class MarkedSiteFactory(factory.django.DjangoModelFactory[MarkedSite]):
    class Meta:
        model = MarkedSite

    marking = factory.SubFactory(SiteMarkingFactory)
    rank = Rank.FIRST
    quadrant = Site.RIGHT_LOWER

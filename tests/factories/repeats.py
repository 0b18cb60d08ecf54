"""Invented repeats."""

from datetime import timedelta

import factory

from clinic.repeats.models import RepeatMeasurement
from tests.factories.accounts import UserFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory


class RepeatFactory(factory.django.DjangoModelFactory[RepeatMeasurement]):
    """Of two nurses, a millimetre apart in protrusion; recorded minutes after the visit began."""

    class Meta:
        model = RepeatMeasurement

    assessment = factory.SubFactory(AssessmentFactory)
    measured_by = factory.SubFactory(UserFactory)
    first_by = factory.SelfAttribute("assessment.visit.clinician")
    recorded_by = factory.SelfAttribute("measured_by")
    measured_at = HAPPENED_AT + timedelta(minutes=10)
    recorded_at = HAPPENED_AT + timedelta(minutes=12)
    known_before = False
    protrusion_mm = 21
    first_protrusion_mm = 20

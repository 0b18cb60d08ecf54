"""Invented answers."""

from datetime import timedelta

import factory

from clinic.patient_answers.choices import How
from clinic.patient_answers.models import PatientAnswers
from tests.factories.visits import HAPPENED_AT, AssessmentFactory


class AnswersFactory(factory.django.DjangoModelFactory[PatientAnswers]):
    """Asked at the visit; only the worry about leaks was answered."""

    class Meta:
        model = PatientAnswers

    assessment = factory.SubFactory(AssessmentFactory)
    how = How.ASKED
    worry = 6
    recorded_by = factory.SelfAttribute("assessment.visit.clinician")
    recorded_at = HAPPENED_AT + timedelta(minutes=20)

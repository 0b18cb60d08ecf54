"""A leaking stoma's draft, and its nurse signed in."""

import pytest
from django.test import Client

from clinic.visits.models import Assessment
from tests.factories.visits import AssessmentFactory


@pytest.fixture
def assessment() -> Assessment:
    return AssessmentFactory(leaking=True)


@pytest.fixture
def nurse(client: Client, assessment: Assessment) -> Client:
    client.force_login(assessment.visit.clinician)
    return client

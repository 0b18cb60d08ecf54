"""A small clinic to drive: one nurse, one patient, one stoma seen once before."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Browser, BrowserContext, Page
from pytest_django.live_server_helper import LiveServer

from clinic.accounts.models import Role, User
from clinic.patients.models import Patient, Stoma
from clinic.visits.models import Assessment
from tests.browser.steps import sign_in
from tests.browser.watch import Watch
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, SensitivityFactory, StomaFactory
from tests.factories.visits import AssessmentFactory, VisitFactory

DESK = {"width": 1280, "height": 900}
PHONE = {"width": 390, "height": 844}

OpenPage = Callable[..., Page]


@dataclass(frozen=True)
class SmallClinic:
    """Who and what the journeys are about."""

    url: str
    nurse: User
    patient: Patient
    stoma: Stoma

    def draft(self, **situation: Any) -> Assessment:
        """A draft of this patient's stoma, opened by the nurse."""
        visit = VisitFactory(patient=self.patient, clinician=self.nurse)
        made: Assessment = AssessmentFactory(stoma=self.stoma, visit=visit, **situation)
        return made

    def chart_url(self, assessment: Assessment) -> str:
        """Address of the draft's page."""
        return f"{self.url}/visits/chart/{assessment.uuid}/"


@pytest.fixture
def small_clinic(live_server: LiveServer) -> SmallClinic:
    """Everything invented; names are unlike any in the factories' lists."""
    patient = PatientFactory(
        family_name="Wintergreen", given_name="Sorrel", record_number="B000417"
    )
    SensitivityFactory(patient=patient)
    return SmallClinic(
        url=live_server.url,
        nurse=UserFactory(username="rowan", first_name="Rowan", last_name="Tansy", role=Role.NURSE),
        patient=patient,
        stoma=StomaFactory(patient=patient),
    )


@pytest.fixture
def watch(live_server: LiveServer) -> Iterator[Watch]:
    """Watches every page opened with ``open_page``; the test fails on anything amiss."""
    watching = Watch(host=urlsplit(live_server.url).netloc)
    yield watching
    assert watching.amiss == []


@pytest.fixture
def open_page(browser: Browser, watch: Watch) -> Iterator[OpenPage]:
    """``open_page(user)``: a watched page in a context of its own, signed in."""
    contexts: list[BrowserContext] = []

    def opened(user: User | None = None, url: str = "", **options: Any) -> Page:
        context = browser.new_context(**{"viewport": DESK, "locale": "en-US", **options})
        context.set_default_timeout(10_000)
        contexts.append(context)
        page = watch.page(context.new_page())
        if user is not None:
            sign_in(page, url, user)
        return page

    yield opened
    for context in contexts:
        context.close()

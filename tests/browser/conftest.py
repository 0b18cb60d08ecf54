"""A small clinic to drive: one nurse, one patient, one stoma seen once before."""

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlsplit

import pytest
from django.conf import settings
from django.db import connection
from django.test import Client
from playwright._impl._api_structures import SetCookieParam
from playwright.sync_api import Browser, BrowserContext, Page, ViewportSize, expect
from pytest_django.live_server_helper import LiveServer

from clinic.accounts.models import User
from clinic.patients.models import Patient, Stoma
from clinic.visits.models import Assessment
from tests.browser.watch import Watch
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, SensitivityFactory, StomaFactory
from tests.factories.visits import AssessmentFactory, VisitFactory

# A busy machine is no fault.
PATIENCE = 30_000
expect.set_options(timeout=PATIENCE)

DESK = ViewportSize(width=1280, height=900)
PHONE = ViewportSize(width=390, height=844)

OpenPage = Callable[..., Page]


def session_of(user: User, url: str) -> SetCookieParam:
    """The cookie of a session begun without the sign-in page, whose slow hash costs time."""
    client = Client()
    client.force_login(user)
    name = settings.SESSION_COOKIE_NAME
    return {"name": name, "value": client.cookies[name].value, "url": url}


@dataclass(frozen=True)
class SmallClinic:
    """Who and what the journeys are about."""

    url: str
    nurse: User
    patient: Patient
    stoma: Stoma

    def draft(self, **situation: Any) -> Assessment:
        """A draft of this patient's stoma, opened by the nurse."""
        visit = VisitFactory.create(patient=self.patient, clinician=self.nurse)
        return AssessmentFactory.create(stoma=self.stoma, visit=visit, **situation)

    def colleague(self) -> User:
        """Another nurse of the clinic."""
        return UserFactory.create(username="fern", first_name="Fern", last_name="Larkspur")

    def chart_url(self, assessment: Assessment) -> str:
        """Address of the draft's page."""
        return f"{self.url}/visits/chart/{assessment.uuid}/"


@pytest.fixture
def settled(live_server: LiveServer) -> Iterator[None]:
    """After the pages are closed: waits until the server has answered what they last asked for,
    such as a save sent while a page closes. Emptying the tables under it would be a deadlock."""
    yield
    quiet = 0
    for _ in range(500):
        quiet = 0 if _others_at_work() else quiet + 1
        if quiet == 3:
            return
        time.sleep(0.02)


def _others_at_work() -> bool:
    """Whether another connection of this database is in the middle of something."""
    with connection.cursor() as cursor:
        cursor.execute(
            "SELECT EXISTS (SELECT FROM pg_stat_activity WHERE datname = current_database() "
            "AND pid <> pg_backend_pid() AND backend_type = 'client backend' AND state <> 'idle')"
        )
        return bool(cursor.fetchone()[0])


@pytest.fixture
def small_clinic(live_server: LiveServer, settled: None) -> SmallClinic:
    """Everything invented; names are unlike any in the factories' lists."""
    patient = PatientFactory.create(
        family_name="Wintergreen", given_name="Sorrel", record_number="B000417"
    )
    SensitivityFactory.create(patient=patient)
    return SmallClinic(
        url=live_server.url,
        nurse=UserFactory.create(username="rowan", first_name="Rowan", last_name="Tansy"),
        patient=patient,
        stoma=StomaFactory.create(patient=patient),
    )


@pytest.fixture
def watch(live_server: LiveServer) -> Iterator[Watch]:
    """Watches every page opened with ``open_page``; the test fails on anything amiss."""
    watching = Watch(host=urlsplit(live_server.url).netloc)
    yield watching
    assert watching.amiss == []


@pytest.fixture
def open_page(
    browser: Browser, live_server: LiveServer, watch: Watch, settled: None
) -> Iterator[OpenPage]:
    """``open_page(user)``: a watched page in a context of its own, signed in already."""
    contexts: list[BrowserContext] = []

    def opened(user: User | None = None, **options: Any) -> Page:
        context = browser.new_context(**{"viewport": DESK, "locale": "en-US", **options})
        context.set_default_timeout(PATIENCE)
        contexts.append(context)
        page = watch.page(context.new_page())
        if user is not None:
            context.add_cookies([session_of(user, live_server.url)])
        return page

    yield opened
    for context in contexts:
        context.close()


@pytest.fixture
def browser_page(browser: Browser) -> Iterator[Page]:
    """An empty page, without a clinic behind it."""
    page = browser.new_page()
    yield page
    page.close()

"""The records that the requests are about: one or more for every address, from the table that says
who may open it, so that a new address is tried without a word here."""

from __future__ import annotations

import io
from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from django.conf import settings
from django.test import Client
from django.urls import URLPattern, get_resolver
from PIL import Image

from clinic.accounts.models import Role
from clinic.bad_input import utf8_only
from clinic.patients.models import Stoma
from tests.clinic.access import table
from tests.clinic.plans.signed_visits import signed
from tests.clinic.test_access import patterns
from tests.factories.accounts import UserFactory
from tests.factories.complications import ComplicationFactory
from tests.factories.patients import KnownStateFactory, PatientFactory, StomaFactory
from tests.factories.teaching import TaughtPointFactory
from tests.factories.trials import EarlierTrialFactory
from tests.factories.visits import AssessmentFactory, PhotoFactory

Parts = dict[str, Any]


@dataclass
class Clinic:
    """``parts`` by address: what it can be opened with; ``known`` by name of a part: every id;
    ``sessions``: who is signed in, by role, with "" for no one."""

    urls: dict[str, URLPattern]
    parts: dict[str, list[Parts]] = field(default_factory=lambda: defaultdict(list))
    known: dict[str, list[Any]] = field(default_factory=lambda: defaultdict(list))
    sessions: dict[str, str] = field(default_factory=lambda: {"": ""})
    #: One for all, as it reads the list of static files when it first answers.
    client: Client = field(default_factory=lambda: Client(raise_request_exception=False))

    def __post_init__(self) -> None:
        self.handler = self.client.handler
        # As the server's own application (clinic/wsgi.py).
        self.client.handler = utf8_only(self.handler)

    def know(self, **parts: Any) -> None:
        """One more record; addresses that take just these parts can be opened with it."""
        for name, value in parts.items():
            self.known[name].append(value)
        for name, url in self.urls.items():
            if url.pattern.converters.keys() == parts.keys():
                self.parts[name].append(parts)


def made() -> Clinic:
    """An invented clinic, small."""
    clinic = Clinic(dict(sorted(patterns(get_resolver()))))
    _from_the_table(clinic)
    _more(clinic)
    for role in Role:
        client = Client()
        client.force_login(UserFactory(role=role))
        clinic.sessions[role] = client.cookies[settings.SESSION_COOKIE_NAME].value
    return clinic


def _from_the_table(clinic: Clinic) -> None:
    """Each row's own record, made once however many rows share it."""
    once: dict[Callable[[], Parts], Parts] = {}
    for name, row in table().items():
        if row.parts not in once:
            once[row.parts] = row.parts()
            for part, value in once[row.parts].items():
                clinic.known[part].append(value)
        clinic.parts[name].append(once[row.parts])


def _more(clinic: Clinic) -> None:
    """Records in states that the table does not need: much charted, a child's, a closed stoma's."""
    for trait in ("prolapse", "hernia", "contact_reaction", "retracted"):
        assessment = AssessmentFactory(**{trait: True})
        clinic.know(assessment=assessment.uuid)
        clinic.know(visit=assessment.visit.uuid)
    child = StomaFactory(patient=PatientFactory(date_of_birth=date(2022, 3, 4)))
    clinic.know(assessment=AssessmentFactory(stoma=child, leaking=True).uuid)
    picture = io.BytesIO()
    Image.new("RGB", (120, 90), "tan").save(picture, "JPEG")
    photo = PhotoFactory(image=picture.getvalue(), width=120, height=90)
    clinic.know(photo=photo.pk)
    _closed(clinic, date(2025, 6, 1))
    _closed(clinic, date(2025, 5, 1))


def _closed(clinic: Clinic, on: date) -> None:
    """Everything that hangs on a stoma which was closed since, or earlier than its visits."""
    after = signed()
    stoma = after.stoma
    clinic.know(assessment=after.uuid)
    clinic.know(visit=after.visit.uuid)
    clinic.know(assessment=AssessmentFactory(stoma=stoma, leaking=True).uuid)
    clinic.know(complication=ComplicationFactory(stoma=stoma).uuid)
    clinic.know(trial=EarlierTrialFactory(stoma=stoma).uuid)
    clinic.know(point=TaughtPointFactory(stoma=stoma).uuid)
    known = KnownStateFactory(stoma=stoma)
    clinic.know(patient=stoma.patient.uuid, known=known.uuid)
    Stoma.objects.filter(pk=stoma.pk).update(closed_on=on)
    clinic.know(stoma=stoma.uuid)
    clinic.know(patient=stoma.patient.uuid, stoma=stoma.uuid)

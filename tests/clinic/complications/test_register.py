"""The register of complications: recorded once, graded openly, a hernia classed as measured."""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse

from clinic.audit.models import AccessLog
from clinic.complications.choices import FROM_VISITS, Grade, Kind
from clinic.complications.forms import ComplicationForm
from clinic.complications.models import Complication
from clinic.complications.seen_at_visits import seen_at_visits
from clinic.measures.at_risk import KINDS
from clinic.plans.complication_rules import hernia_class
from clinic.visits.choices import Junction
from tests.clinic.measures.clinic_builders import START, visited
from tests.factories.accounts import UserFactory
from tests.factories.complications import ComplicationFactory
from tests.factories.patients import StomaFactory

pytestmark = pytest.mark.django_db

TYPED: dict[str, Any] = {
    "kind": "hernia",
    "found_on": "Jan 2025",
    "grade": "IIIb",
    "disability": "",
    "done": "repaired",
    "defect_cm": "5.1",
    "measured_by": "ct",
    "incisional": "False",
    "recurrent": "",
}


@pytest.mark.parametrize(
    ("size", "incisional", "found"),
    [
        # Smietanski and others, Hernia 2014;18:1: up to 5 cm, and above it.
        ("5.0", False, "I"),
        ("5.0", True, "II"),
        ("5.1", False, "III"),
        ("5.1", True, "IV"),
        (None, True, ""),
        ("5.1", None, ""),
    ],
)
def test_the_class_of_a_hernia(size: str | None, incisional: bool | None, found: str) -> None:
    cm = None if size is None else Decimal(size)
    assert hernia_class(cm, incisional=incisional) == found
    row = Complication(kind=Kind.HERNIA, defect_cm=cm, incisional=incisional, measured_by="ct")
    assert row.hernia_words.startswith(f"Class {found};" if found else "No class;")


def test_the_grades_are_the_seven_and_in_order() -> None:
    """Dindo and others, Annals of Surgery 2004."""
    assert Grade.values == ["I", "II", "IIIa", "IIIb", "IVa", "IVb", "V"]
    row = Complication(kind=Kind.STENOSIS, grade="IIIb", disability=True)
    assert (row.grade_words, Complication(grade="").grade_words) == ("IIIbd", "not graded")


def test_typed_in_once_though_sent_twice(client: Client) -> None:
    stoma, nurse = StomaFactory(), UserFactory()
    client.force_login(nurse)
    there = reverse("complications:of_stoma", args=[stoma.uuid])
    sent = {**TYPED, "once": str(uuid4())}
    for _ in range(2):
        answer = client.post(reverse("complications:add", args=[stoma.uuid]), sent)
        assert answer.status_code == 302, answer.content.decode()
        assert answer.headers["Location"] == there
    row = Complication.objects.get()
    assert (row.found_on, row.defect_cm, row.incisional) == ("2025-01", Decimal("5.1"), False)
    assert (row.recurrent, row.disability, row.recorded_by) == (None, None, nurse)
    page = client.get(there).content.decode()
    assert "Class III; gap 5.1 cm (CT); no incisional hernia" in page
    assert "Jan 2025" in page
    assert AccessLog.objects.filter(action="viewed complications").count() == 1
    # Corrected, then removed, each on the trail.
    form = client.get(reverse("complications:correct", args=[row.uuid])).context["form"]
    changed = {**TYPED, "grade": "", "seen": form["seen"].value() or ""}
    assert client.post(
        reverse("complications:correct", args=[row.uuid]), changed
    ).status_code == 302  # fmt: skip
    assert "not graded" in client.get(there).content.decode()
    remove = reverse("complications:remove", args=[row.uuid])
    assert client.post(remove, {"why": "mistake"}).status_code == 302
    assert not Complication.objects.exists()
    done = AccessLog.objects.filter(subject_kind="complication", patient_uuid=stoma.patient.uuid)
    assert {"added", "corrected", "removed"} <= set(done.values_list("action", flat=True))


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({}, None),
        ({"kind": ""}, "kind"),
        ({"defect_cm": "5.1", "measured_by": ""}, "measured_by"),
        ({"defect_cm": "", "measured_by": "ct"}, "defect_cm"),
        ({"defect_cm": "five"}, "defect_cm"),
        ({"defect_cm": "0"}, "defect_cm"),
        ({"defect_cm": "41"}, "defect_cm"),
        ({"defect_cm": "", "measured_by": "", "incisional": ""}, None),
        ({"kind": "stenosis", "measured_by": "", "incisional": ""}, "defect_cm"),
        ({"kind": "stenosis", "defect_cm": "", "measured_by": ""}, "incisional"),
        ({"grade": "", "disability": "True"}, "disability"),
        ({"grade": "V", "disability": "False"}, "disability"),
        ({"grade": "VI"}, "grade"),
        ({"found_on": "2099"}, "found_on"),
        # The stoma of the factories was made on 14 March 2024.
        ({"found_on": "Feb 2024"}, "found_on"),
        ({"found_on": ""}, None),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(
    changed: dict[str, Any], field: str | None
) -> None:
    form = ComplicationForm({**TYPED, **changed}, instance=Complication(stoma=StomaFactory()))
    assert list(form.errors) == ([] if field is None else [field])


@pytest.mark.parametrize(
    "wrong",
    [
        {"kind": "nothing"},
        {"grade": "VI"},
        {"found_on": "14 Mar 2021"},
        {"incisional": True},
        {"kind": "hernia", "defect_cm": 5},
        {"kind": "hernia", "measured_by": "ct"},
        {"kind": "hernia", "defect_cm": 41, "measured_by": "ct"},
        {"disability": True},
        {"grade": "V", "disability": True},
    ],
)
def test_the_database_refuses_it_too(wrong: dict[str, Any]) -> None:
    with pytest.raises((DatabaseError, ValidationError)), transaction.atomic():
        ComplicationFactory(**wrong)


def test_what_visits_found_is_shown_and_not_typed(client: Client) -> None:
    client.force_login(UserFactory())
    first = visited(prolapse=True)
    stoma = first.stoma
    visited(
        stoma,
        START + timedelta(30),
        well_fitting=True,
        measurement__protrusion_mm=-5,
        measurement__junction=Junction.SEPARATED,
        measurement__separation_hours=[6],
    )
    visited(StomaFactory(patient=stoma.patient), hernia=True)
    seen = {one.kind: one for one in seen_at_visits(stoma)}
    assert set(seen) == set(KINDS) - {"leak"}
    assert {str(kind) for kind in FROM_VISITS} < set(seen)
    assert seen["prolapse"].found == (date(2025, 3, 3),)
    assert (seen["prolapse"].now, seen["prolapse"].looked) == (False, date(2025, 4, 2))
    assert seen["retraction"].now is seen["separation"].now is True
    assert seen["skin"].now is False
    assert seen["bulge"].found == ()
    page = client.get(reverse("complications:of_stoma", args=[stoma.uuid])).content.decode()
    assert "not there on 2 Apr 2025" in page
    grade = reverse("complications:add", args=[stoma.uuid]) + "?kind=prolapse"
    assert grade in page
    assert client.get(grade).context["form"]["kind"].value() == "prolapse"

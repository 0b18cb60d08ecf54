"""Who comes second reads what happened, and finds what was typed; never a bare refusal."""

from typing import Any

import pytest
from django.http import QueryDict
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.patients.models import Sensitivity
from clinic.visits.actions.start import discard_visit
from clinic.visits.models import Assessment, ConflictCopy
from tests.clinic.plans.signed_visits import accept, posted_page, referred, sign
from tests.factories.accounts import UserFactory
from tests.factories.patients import SensitivityFactory
from tests.factories.visits import PhotoFactory

pytestmark = pytest.mark.django_db
TYPED = "Rope burn from the garden gate"


@pytest.fixture
def other(assessment: Assessment) -> User:
    return UserFactory(first_name="Fern", last_name="Larkspur")


def send(client: Client, assessment: Assessment, data: QueryDict, *, quiet: bool) -> Any:
    data["csrfmiddlewaretoken"] = "a-token"
    return client.post(
        reverse("charting:save", args=[assessment.uuid]),
        data.urlencode(),
        content_type="application/x-www-form-urlencoded",
        headers={"X-Autosave": "1"} if quiet else {},
        follow=not quiet,
    )


@pytest.mark.parametrize("quiet", [True, False])
def test_saved_after_another_discarded_the_draft(
    nurse: Client, assessment: Assessment, other: User, *, quiet: bool
) -> None:
    data = posted_page(assessment, visit__note=TYPED)
    discard_visit(visit=assessment.visit, by=other)
    answer = send(nurse, assessment, data, quiet=quiet)
    if quiet:
        assert answer.status_code == 409
        assert "by Fern Larkspur" in answer.json()["message"]
        answer = nurse.get(answer.json()["discarded"])
    page = answer.content.decode()
    assert answer.status_code == 200
    assert "by Fern Larkspur" in page
    assert TYPED in page
    copy = ConflictCopy.objects.get()
    assert copy.data["visit-note"] == [TYPED]
    assert not {"csrfmiddlewaretoken", "press", "version"} & copy.data.keys()
    # The draft's own address leads there too; a colleague reads what happened, not the words.
    assert TYPED in nurse.get(chart_of(assessment), follow=True).content.decode()
    nurse.force_login(UserFactory())
    seen = nurse.get(chart_of(assessment), follow=True).content.decode()
    assert "This draft was discarded" in seen
    assert TYPED not in seen


def chart_of(assessment: Assessment) -> str:
    return reverse("charting:chart", args=[assessment.uuid])


@pytest.mark.parametrize(
    ("note", "words"),
    [("", "All you sent is in it."), (TYPED, "What you typed since is kept beside it")],
)
def test_signed_after_another_signed(
    nurse: Client, assessment: Assessment, other: User, note: str, words: str
) -> None:
    accept(assessment)
    data = posted_page(assessment, **({"visit__note": note} if note else {}))
    data["press"] = "sign"
    nurse.force_login(other)
    sign(assessment)
    page = send(nurse, assessment, data, quiet=False).content.decode()
    assert "This visit was signed on" in page
    assert f"by {assessment.visit.clinician.display_name}." in page
    assert words in page
    assert (TYPED in page) == bool(note)


def test_discarded_after_another_signed(nurse: Client, assessment: Assessment) -> None:
    accept(assessment)
    sign(assessment)
    discard = reverse("visits:discard", args=[assessment.visit.uuid])
    page = nurse.post(discard, follow=True)
    assert page.status_code == 200
    assert "Not discarded." in page.content.decode()
    assert "This visit was signed on" in page.content.decode()
    assessment.visit.refresh_from_db()
    assert assessment.visit.is_signed


def test_discarded_after_another_discarded(
    nurse: Client, assessment: Assessment, other: User
) -> None:
    discard_visit(visit=assessment.visit, by=other)
    page = nurse.post(reverse("visits:discard", args=[assessment.visit.uuid]), follow=True)
    assert page.status_code == 200
    assert "by Fern Larkspur" in page.content.decode()


def test_a_photo_removed_after_the_signature(nurse: Client, assessment: Assessment) -> None:
    photo = PhotoFactory(assessment=assessment)
    accept(assessment)
    sign(assessment)
    page = nurse.post(reverse("visits:photo_remove", args=[photo.pk]))
    assert page.status_code == 409
    assert "This visit was signed on" in page.content.decode()
    # No one was refused: the audit trail does not say so.
    assert not AccessLog.objects.filter(action="was refused").exists()


def test_an_answer_that_comes_second_is_given_back(client: Client) -> None:
    asked = referred()
    for words in ("Come now.", TYPED):
        client.force_login(UserFactory(role=Role.SURGEON, first_name="Ivo", last_name="Tarn"))
        address = reverse("referrals:answer", args=[asked.uuid])
        page = client.post(address, {"answer": words})
    assert page.status_code == 409
    assert "by Ivo Tarn" in page.content.decode()
    assert TYPED in page.content.decode()
    asked.refresh_from_db()
    assert asked.answer == "Come now."


def test_what_was_sent_about_something_gone_is_given_back(nurse: Client) -> None:
    one = SensitivityFactory()
    address = reverse("patients:sensitivity_remove", args=[one.patient.uuid, one.uuid])
    Sensitivity.objects.all().delete()
    page = nurse.post(address, {"why": "mistake", "words": TYPED})
    assert page.status_code == 404
    assert "no longer there" in page.content.decode()
    assert TYPED in page.content.decode()
    assert "Not saved" not in nurse.get(address).content.decode()

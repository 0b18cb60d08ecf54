"""Photos of a visit: taken in one by one, shown to those who may see the record, final at last."""

from collections.abc import Callable
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import DatabaseError, connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.visits.actions.photo import keep_measurement
from clinic.visits.models import Assessment, Photo, PhotoMeasurement
from clinic.visits.policies import NotAllowedNow
from clinic.visits.views import photos
from tests.clinic.visits.test_finality import sign
from tests.clinic.visits.test_pictures import heic, saved
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory, PhotoFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def nurse(client: Client) -> User:
    user: User = UserFactory.create(role=Role.NURSE)
    client.force_login(user)
    return user


def send(client: Client, assessment: Assessment, *files: tuple[str, bytes], **more: Any) -> Any:
    uploads = [SimpleUploadedFile(name, data) for name, data in files]
    address = reverse("visits:photo_add", args=[assessment.uuid])
    return client.post(address, {"picture": uploads, **more})


def test_several_at_once_with_one_caption(client: Client, nurse: User) -> None:
    draft = AssessmentFactory.create()
    files = [("a.jpg", saved()), ("b.png", saved("PNG")), ("c.heic", heic())]
    answer = send(client, draft, *files, caption="  Lying down ")
    assert answer.url == reverse("charting:chart", args=[draft.uuid])
    found = draft.photos.all()
    assert [(p.caption, bool(p.thumbnail), p.taken_by) for p in found] == [
        ("Lying down", True, nurse)
    ] * 3
    assert AccessLog.objects.filter(action="added photo").count() == 3


def test_one_that_cannot_be_read_keeps_the_others_in(client: Client, nurse: User) -> None:
    draft = AssessmentFactory.create()
    answer = send(
        client, draft, ("good.jpg", saved()), ("page.jpg", b"<html>"), caption="After washing"
    )
    assert answer.status_code == 422
    assert draft.photos.count() == 1
    text = answer.content.decode()
    assert "page.jpg: This file is not a JPEG, PNG or HEIC picture." in text
    assert "good.jpg" not in text
    assert 'value="After washing"' in text
    assert "1 photos" not in text
    assert "Photo added." in text


@pytest.mark.parametrize(
    ("files", "caption", "words"),
    [
        ([], "Kept", "Choose a photo first."),
        ([("a.jpg", b"")] * 13, "Kept", "At most 12 photos at once; these are 13."),
        ([("a.jpg", b"x")], "Kept" * 60, "The caption is too long"),
    ],
)
def test_a_post_that_is_not_taken_says_why(
    client: Client, nurse: User, files: list[tuple[str, bytes]], caption: str, words: str
) -> None:
    draft = AssessmentFactory.create()
    answer = send(client, draft, *files, caption=caption)
    assert (answer.status_code, draft.photos.count()) == (422, 0)
    assert words in answer.content.decode()
    assert caption in answer.content.decode()


def test_a_file_over_20_mb_is_not_even_read(
    client: Client, nurse: User, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(photos, "MOST_BYTES", 100)
    monkeypatch.setattr(photos, "add_photo", None)
    draft = AssessmentFactory.create()
    answer = send(client, draft, ("large.jpg", saved()))
    assert "large.jpg: This picture is larger than 20 MB." in answer.content.decode()


def test_a_file_name_is_shown_as_text(client: Client, nurse: User) -> None:
    answer = send(client, AssessmentFactory.create(), ("<b>x</b>.jpg", b"no"))
    assert "<b>x</b>" not in answer.content.decode()


def test_nothing_is_added_to_a_signed_visit(client: Client, nurse: User) -> None:
    draft = AssessmentFactory.create()
    sign(draft.visit)
    late = send(client, draft, ("a.jpg", saved()), caption="Behind the gate")
    assert late.status_code == 409
    assert "This visit was signed on" in late.content.decode()
    assert "Behind the gate" in late.content.decode()
    assert not draft.photos.exists()


@pytest.mark.parametrize("name", ["visits:photo", "visits:photo_small"])
def test_a_picture_is_an_image_and_nothing_else(client: Client, nurse: User, name: str) -> None:
    draft = AssessmentFactory.create()
    send(client, draft, ("evil.svg.jpg", saved() + b"<script>alert(1)</script>"))
    answer = client.get(reverse(name, args=[draft.photos.get().pk]))
    assert answer.headers["Content-Type"] == "image/jpeg"
    assert answer.headers["X-Content-Type-Options"] == "nosniff"
    assert answer.headers["Cache-Control"] == "no-store"
    assert answer.headers["Content-Disposition"] == 'inline; filename="photo.jpg"'
    assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"
    policy = answer.headers["Content-Security-Policy"]
    assert policy.startswith("default-src 'none';")
    assert policy.endswith("sandbox")
    assert answer.content.startswith(b"\xff\xd8\xff")
    row = AccessLog.objects.filter(action="viewed photo").get()
    assert row.patient_uuid == draft.visit.patient.uuid
    assert row.actor_id == nurse.pk


def test_the_desk_sees_no_photo(client: Client) -> None:
    client.force_login(UserFactory.create(role=Role.DESK))
    photo = PhotoFactory.create()
    for name in ("visits:photo", "visits:photo_small"):
        assert client.get(reverse(name, args=[photo.pk])).status_code == 403


def test_an_older_photo_has_its_small_picture_made(client: Client, nurse: User) -> None:
    photo = PhotoFactory.create(image=saved(size=(900, 600)), thumbnail=None)
    sign(photo.assessment.visit)
    small = client.get(reverse("visits:photo_small", args=[photo.pk])).content
    assert small.startswith(b"\xff\xd8\xff")
    assert len(small) < len(saved(size=(900, 600)))
    unreadable = PhotoFactory.create(image=b"not read", thumbnail=None)
    address = reverse("visits:photo_small", args=[unreadable.pk])
    assert client.get(address).content == b"not read"


def test_pages_show_small_pictures_and_fetch_no_large_ones(client: Client, nurse: User) -> None:
    photo = PhotoFactory.create(caption="Sitting")
    with CaptureQueriesContext(
        connection,
    ) as asked:
        page = client.get(reverse("charting:chart", args=[photo.assessment.uuid]))
    text = page.content.decode()
    assert reverse("visits:photo_small", args=[photo.pk]) in text
    assert "Sitting" in text
    assert reverse("charting:measure_photo", args=[photo.pk]) in text
    lists = [q["sql"] for q in asked if 'FROM "visits_photo"' in q["sql"]]
    assert len(lists) == 1
    assert '"visits_photo"."image"' not in lists[0]
    assert '"visits_photo"."thumbnail"' not in lists[0]


def test_removing_is_on_record(client: Client, nurse: User) -> None:
    photo = PhotoFactory.create()
    client.post(reverse("visits:photo_remove", args=[photo.pk]))
    assert not Photo.objects.exists()
    assert AccessLog.objects.filter(action="removed photo").count() == 1


# --- what was measured -----------------------------------------------------------------------
def measured(photo: Photo, length: float = 30.0) -> PhotoMeasurement:
    return keep_measurement(
        photo=photo,
        marks={"kind": "card"},
        result={"length_mm": [length, 1.0]},
        rule_set="photo.1",
        by=photo.taken_by,
    )


def test_measuring_again_replaces_and_the_history_keeps_both() -> None:
    photo = PhotoFactory.create()
    measured(photo)
    measured(photo, 31.0)
    assert PhotoMeasurement.objects.get().result["length_mm"][0] == 31.0
    events = PhotoMeasurement.pgh_event_models  # type: ignore[attr-defined]
    kept = next(iter(events.values())).objects.order_by("pgh_id")
    assert [e.pgh_label for e in kept] == ["insert", "delete", "insert"]


@pytest.mark.parametrize("attempt", ["update", "delete", "insert"])
def test_signed_it_stays(attempt: str) -> None:
    photo, other = PhotoFactory.create(), PhotoFactory.create()
    measured(photo)
    sign(photo.assessment.visit)
    sign(other.assessment.visit)
    rows = PhotoMeasurement.objects.filter(photo=photo)
    values = {"marks": {}, "result": {}, "rule_set": "x", "by": other.taken_by}
    attempts: dict[str, Callable[[], Any]] = {
        "insert": lambda: PhotoMeasurement.objects.create(photo=other, **values),
        "update": lambda: rows.update(result={}),
        "delete": rows.delete,
    }
    with pytest.raises(DatabaseError, match="signed"), transaction.atomic():
        attempts[attempt]()
    assert rows.get().result
    with pytest.raises(NotAllowedNow):
        measured(photo)

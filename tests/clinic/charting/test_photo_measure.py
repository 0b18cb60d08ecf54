"""Measuring on a photo, as posted by its page: figures, refusals, and filling in a visit."""

import json
from decimal import Decimal
from html import unescape
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.charting.actions.fill_from_photo import current_values, seen
from clinic.plans.bridge import findings_of
from clinic.visits.models import Assessment, ConflictCopy, Photo, PhotoMeasurement
from clinic.visits.queries import with_parts
from tests.clinic.visits.test_finality import sign
from tests.factories.accounts import UserFactory
from tests.factories.scene import Array, Camera, card_at, line_at, oval
from tests.factories.visits import AssessmentFactory, PhotoFactory

pytestmark = pytest.mark.django_db

VIEW = Camera()
OVAL = oval(40, 30, 60)


@pytest.fixture
def nurse(client: Client) -> User:
    user: User = UserFactory.create(role=Role.NURSE)
    client.force_login(user)
    return user


@pytest.fixture
def photo() -> Photo:
    assessment = AssessmentFactory.create(well_fitting=True)
    made: Photo = PhotoFactory.create(assessment=assessment, width=1600, height=1200)
    return made


def points(shape: Array, wide: float = 1.0) -> list[list[float]]:
    return [[float(x), float(y), wide] for x, y in VIEW.pixels(shape)]


def marks(**changes: Any) -> str:
    drawn = {
        "card": points(card_at(0, -50)),
        "line": points(line_at(0, 30, 80)),
        "outline": points(OVAL),
    }
    return json.dumps({**drawn, **changes})


def now(photo: Photo) -> str:
    return seen(current_values(with_parts().get(pk=photo.assessment_id)))


def body(photo: Photo, **changes: Any) -> dict[str, Any]:
    values = {
        "kind": "card",
        "line_mm": "",
        "raised": "flat",
        "raised_mm": "",
        "rounded": "flat",
        "askew": "",
        "head": "0",
        "head_sure": "on",
        "marks": marks(),
        "seen": now(photo),
        "press": "axes",
    }
    return {name: v for name, v in {**values, **changes}.items() if v is not None}


def post(client: Client, photo: Photo, quiet: bool = False, **changes: Any) -> Any:
    headers = {"X-Measure": "1"} if quiet else {}
    address = reverse("charting:measure_photo", args=[photo.pk])
    return client.post(address, body(photo, **changes), headers=headers)


def test_figures_alone_store_nothing(client: Client, nurse: User, photo: Photo) -> None:
    answer = post(client, photo, quiet=True).json()
    assert answer["errors"] == {}
    assert "40 mm" in answer["html"]
    assert "30 mm" in answer["html"]
    assert "2 o&#x27;clock" in answer["html"]
    assert not PhotoMeasurement.objects.exists()
    assert photo.assessment.measurement.length_mm == 30


def test_confirmed_it_fills_length_width_and_hour(
    client: Client, nurse: User, photo: Photo
) -> None:
    version = photo.assessment.visit.version
    answer = post(client, photo)
    assert answer.url == reverse("charting:chart", args=[photo.assessment.uuid]) + "#stoma"
    stored = Assessment.objects.get(pk=photo.assessment_id)
    m = stored.measurement
    assert m.length_mm == pytest.approx(Decimal(40), abs=Decimal("0.1"))
    assert m.width_mm == pytest.approx(Decimal(30), abs=Decimal("0.1"))
    assert (m.axis_hour, m.radii_mm) == (2, None)
    assert m.protrusion_mm == 24  # what was charted before stays
    assert stored.visit.version == version + 1
    kept = PhotoMeasurement.objects.get()
    assert kept.rule_set == "photo.2"
    assert kept.by == nurse
    assert kept.marks["marks"]["line"] == []  # drawn, but not what was measured by
    assert len(kept.marks["marks"]["outline"]) == len(OVAL)
    assert "40 × 30 mm, each within" in kept.result["words"]
    rows = AccessLog.objects.exclude(action="signed in").order_by("pk")
    actions = list(rows.values_list("action", flat=True))
    assert actions == ["measured on photo", "saved"]


def test_the_photos_error_goes_with_the_size_until_another_is_typed(
    client: Client, nurse: User, photo: Photo
) -> None:
    def errors() -> tuple[float | None, float | None]:
        found = findings_of(with_parts().get(pk=photo.assessment_id)).measurement
        return found.length_error_mm, found.width_error_mm

    assert errors() == (None, None)
    post(client, photo)
    result = PhotoMeasurement.objects.get().result
    assert errors() == (result["length_mm"][1], result["width_mm"][1])
    assert 0 not in errors()
    row = Assessment.objects.get(pk=photo.assessment_id).measurement
    row.length_mm += Decimal("0.2")
    row.save()
    assert errors() == (None, None)


def test_twelve_radii_when_asked_for_and_cleared_when_not(
    client: Client, nurse: User, photo: Photo
) -> None:
    post(client, photo, press="radii")
    radii = Assessment.objects.get(pk=photo.assessment_id).measurement.radii_mm
    assert radii is not None
    assert float(radii[1]) == pytest.approx(20, abs=0.1)  # 2 o'clock
    assert float(radii[4]) == pytest.approx(15, abs=0.1)  # 5 o'clock
    answer = post(client, photo, quiet=True).json()
    assert "clears them" in answer["html"]
    post(client, photo, press="axes")
    assert Assessment.objects.get(pk=photo.assessment_id).measurement.radii_mm is None


def test_the_same_marks_give_the_same_figures_again(
    client: Client, nurse: User, photo: Photo
) -> None:
    post(client, photo)
    first = PhotoMeasurement.objects.get()
    page = client.get(reverse("charting:measure_photo", args=[photo.pk])).content.decode()
    assert json.dumps(first.marks["marks"]) in unescape(page)
    post(client, photo, marks=json.dumps(first.marks["marks"]))
    second = PhotoMeasurement.objects.get()
    assert (second.result, second.pk != first.pk) == (first.result, True)


def test_by_ruler(client: Client, nurse: User, photo: Photo) -> None:
    post(client, photo, kind="line", line_mm="80,0", askew="straight")
    kept = PhotoMeasurement.objects.get()
    assert (kept.marks["kind"], kept.marks["line_mm"]) == ("line", "80.0")
    assert kept.marks["askew"] == "straight"
    assert kept.result["length_mm"][0] == pytest.approx(40, abs=0.1)
    assert "by a ruler" in kept.result["words"]


CROSSED = points(OVAL[[0, 12, 6, 18]])


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"kind": None}, "kind", "Say what lies beside the stoma."),
        ({"kind": "line"}, "line_mm", "How many mm lie between the two marks?"),
        ({"kind": "line", "line_mm": "80"}, "askew", "Say how the phone was held"),
        (
            {"kind": "line", "line_mm": "80", "askew": "strongly"},
            "askew",
            "a camera held strongly askew gives no size",
        ),
        ({"raised": None}, "raised", "Say how high it lies"),
        ({"raised": "raised"}, "raised_mm", "By about how many mm?"),
        ({"raised": "raised", "raised_mm": "21"}, "raised_mm", "At most 20 mm"),
        ({"rounded": None}, "rounded", "Say how rounded the belly is"),
        ({"rounded": "strongly"}, "rounded", "which is too much to go by"),
        ({"kind": "line", "line_mm": "5o"}, "line_mm", "Write a number"),
        ({"kind": "line", "line_mm": "5"}, "line_mm", "At least 10 mm"),
        ({"marks": marks(card=[])}, "kind", "Mark the reference"),
        ({"marks": marks(card=points(card_at(0, 0))[:3])}, "kind", "Mark the reference"),
        ({"marks": marks(outline=[])}, "marks", "at least three points"),
        ({"marks": marks(outline=CROSSED)}, "marks", "crosses itself"),
        ({"marks": ""}, "marks", "required"),
        ({"marks": "[]"}, "marks", "did not arrive complete"),
        ({"marks": "{"}, "marks", "did not arrive complete"),
        ({"marks": marks(outline=[[1, 2]])}, "marks", "did not arrive complete"),
        ({"marks": marks(outline=[[1, 2, "x"]])}, "marks", "did not arrive complete"),
        ({"marks": marks(outline=[[1, 2, float("nan")]])}, "marks", "did not arrive complete"),
        ({"marks": marks(outline=[[-5, 2, 1]])}, "marks", "did not arrive complete"),
        ({"marks": marks(outline=[[1601, 2, 1]])}, "marks", "did not arrive complete"),
        ({"marks": marks(outline=[[1, 2, 1]] * 91)}, "marks", "did not arrive complete"),
        ({"marks": "[" * 5000}, "marks", "did not arrive complete"),
        ({"head": "7"}, "head", "Select a valid choice"),
    ],
)
def test_what_cannot_be_measured_is_said_beside_its_step(
    client: Client, nurse: User, photo: Photo, changes: dict[str, Any], field: str, words: str
) -> None:
    answer = post(client, photo, quiet=True, **changes).json()
    assert words in " ".join(answer["errors"][field])
    assert answer["html"] == ""
    page = post(client, photo, **changes)
    assert page.status_code == 422
    assert words in page.content.decode()
    assert not PhotoMeasurement.objects.exists()
    assert Assessment.objects.get(pk=photo.assessment_id).measurement.length_mm == 30


def test_what_is_left_in_a_hidden_box_does_not_matter(
    client: Client, nurse: User, photo: Photo
) -> None:
    answer = post(client, photo, line_mm="rubbish", raised_mm="rubbish", askew="rubbish")
    assert answer.status_code == 302
    kept = PhotoMeasurement.objects.get().marks
    assert (kept["line_mm"], kept["raised_mm"], kept["askew"]) == (None, None, "")


def test_what_was_answered_is_kept_and_comes_back(
    client: Client, nurse: User, photo: Photo
) -> None:
    post(client, photo, raised="raised", raised_mm="4.5", rounded="gently")
    kept = PhotoMeasurement.objects.get().marks
    assert (kept["raised"], kept["raised_mm"], kept["rounded"]) == ("raised", "4.5", "gently")
    page = client.get(reverse("charting:measure_photo", args=[photo.pk]))
    form = page.context["form"]
    shown = [form[name].value() for name in ("raised", "raised_mm", "rounded")]
    assert shown == ["raised", "4.5", "gently"]


def test_a_height_that_is_not_known_widens_the_error(
    client: Client, nurse: User, photo: Photo
) -> None:
    errors = []
    for raised in ("flat", "unknown"):
        post(client, photo, raised=raised)
        errors.append(PhotoMeasurement.objects.get().result["length_mm"][1])
    assert errors[1] > errors[0] + 0.5


def test_an_earlier_measurement_keeps_its_rules_and_is_asked_anew(
    client: Client, nurse: User, photo: Photo
) -> None:
    """By photo.1 no one was asked how the reference lay."""
    old = {"kind": "card", "line_mm": None, "head": 0, "marks": json.loads(marks(line=[]))}
    words = "41 × 31 mm, each within 1.2 mm, by a card beside the stoma"
    PhotoMeasurement.objects.create(
        photo=photo, marks=old, result={"words": words}, rule_set="photo.1", by=nurse
    )
    page = client.get(reverse("charting:measure_photo", args=[photo.pk]))
    form = page.context["form"]
    assert [form[name].value() for name in ("raised", "rounded", "askew")] == [None] * 3
    assert post(client, photo, raised=None, rounded=None).status_code == 422
    stored = PhotoMeasurement.objects.get()
    assert (stored.rule_set, stored.result["words"]) == ("photo.1", words)


def test_which_way_the_head_is_has_to_be_checked(client: Client, nurse: User, photo: Photo) -> None:
    answer = post(client, photo, head_sure=None)
    assert answer.status_code == 422
    text = answer.content.decode()
    assert "Check which way the head is" in text
    assert marks() in unescape(text)  # nothing marked is lost
    assert not PhotoMeasurement.objects.exists()


def test_a_measurement_typed_in_the_meantime_is_not_overwritten_unseen(
    client: Client, nurse: User, photo: Photo
) -> None:
    before = now(photo)
    m = photo.assessment.measurement
    m.length_mm = 33
    m.save()
    answer = post(client, photo, seen=before)
    assert answer.status_code == 409
    text = answer.content.decode()
    assert "changed this visit&#x27;s measurement after you opened this page" in text
    assert "33" in text
    assert Assessment.objects.get(pk=photo.assessment_id).measurement.length_mm == 33
    assert not PhotoMeasurement.objects.exists()
    assert not ConflictCopy.objects.exists()
    assert post(client, photo).status_code == 302  # having seen it


def test_other_fields_saved_in_the_meantime_stay(client: Client, nurse: User, photo: Photo) -> None:
    before = now(photo)
    visit = photo.assessment.visit
    visit.note, visit.version = "Typed meanwhile", visit.version + 3
    visit.save()
    assert post(client, photo, seen=before).status_code == 302
    visit.refresh_from_db()
    assert visit.note == "Typed meanwhile"


def test_what_is_half_typed_elsewhere_on_the_page_stays_as_typed(
    client: Client, nurse: User, photo: Photo
) -> None:
    photo.assessment.pending.create(
        prefix="output", data={"output-volume_ml_24h": ["70o"], "output-symptoms": ["none"]}
    )
    assert post(client, photo).status_code == 302
    kept = photo.assessment.pending.get()
    assert kept.data["output-volume_ml_24h"] == ["70o"]


def test_a_signed_visit_shows_figures_and_fills_nothing(
    client: Client, nurse: User, photo: Photo
) -> None:
    sign(photo.assessment.visit)
    page = client.get(reverse("charting:measure_photo", args=[photo.pk]))
    assert page.status_code == 200
    html = post(client, photo, quiet=True).json()["html"]
    assert "signed: nothing can be filled in" in html
    assert "<button" not in html
    assert post(client, photo).status_code == 200
    assert not PhotoMeasurement.objects.exists()


def test_opening_is_on_record(client: Client, nurse: User, photo: Photo) -> None:
    client.get(reverse("charting:measure_photo", args=[photo.pk]))
    row = AccessLog.objects.get(action="opened photo to measure")
    assert row.patient_uuid == photo.assessment.visit.patient.uuid


def test_a_photo_of_a_discarded_draft_is_not_there(
    client: Client, nurse: User, photo: Photo
) -> None:
    visit = photo.assessment.visit
    visit.state = "discarded"
    visit.save()
    assert client.get(reverse("charting:measure_photo", args=[photo.pk])).status_code == 404


@pytest.mark.parametrize("role", [Role.SURGEON, Role.LEAD])
def test_others_read_what_was_measured_beside_the_photo(
    client: Client, nurse: User, photo: Photo, role: Role
) -> None:
    post(client, photo)
    sign(photo.assessment.visit)
    client.force_login(UserFactory.create(role=role))
    page = client.get(
        reverse("charting:visit", args=[photo.assessment.visit.uuid])
    ).content.decode()
    assert "Measured on this photo: 40 × 30 mm" in page
    assert "Measure on this photo" not in page

"""A photo's size that contradicts the recorded one: asked which is right, not signed before."""

from uuid import UUID

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.audit.models import AccessLog
from clinic.plans.actions.sign import NotReadyError, sign_visit
from clinic.plans.photo_or_ruler import disputed
from clinic.visits.models import Assessment, PhotoMeasurement
from tests.clinic.charting.test_one_press import press
from tests.clinic.plans.signed_visits import accept, reread
from tests.factories.visits import AssessmentFactory, PhotoFactory

pytestmark = pytest.mark.django_db
#: A ruler's reading is within half a mm (planning/geometry/photo_error.py, design value).
RESULT = {
    "length_mm": [38.0, 1.5],
    "width_mm": [30.0, 1.5],
    "axis_hour": 6,
    "radii_mm": [[17.0, 1.0]] * 12,
    "words": "38 × 30 mm, each within 1.5 mm, by a card beside the stoma",
}


def measured(length: str, width: str = "30", **more: object) -> tuple[Assessment, UUID]:
    """A draft with this size by ruler, and the number of a photo that says 38 × 30."""
    draft = AssessmentFactory(
        leaking=True, measurement__length_mm=length, measurement__width_mm=width, **more
    )
    photo = PhotoFactory(assessment=draft)
    by = draft.visit.clinician
    PhotoMeasurement.objects.create(photo=photo, marks={}, result=RESULT, rule_set="photo.1", by=by)
    return reread(draft), photo.pk


@pytest.mark.parametrize(("length", "asked"), [("40", False), ("40.1", True), ("35.9", True)])
def test_asked_beyond_both_errors(length: str, asked: bool) -> None:
    draft, _ = measured(length)
    assert bool(disputed(draft)) is asked


def test_a_width_alone_can_contradict() -> None:
    draft, _ = measured("38", "33")
    assert [one.question for one in disputed(draft)] == [
        "Which size is right: 38 × 33 mm as recorded, or 38 × 30 mm, each within 1.5 mm, "
        "by a card beside the stoma?"
    ]


def test_nothing_recorded_contradicts_nothing() -> None:
    draft, _ = measured("38")
    draft.measurement.length_mm = draft.measurement.width_mm = None
    assert disputed(draft) == []


def test_not_signed_while_it_is_open() -> None:
    draft, _ = measured("44")
    accept(draft)
    with pytest.raises(NotReadyError) as refused:
        sign_visit(visit=draft.visit, by=draft.visit.clinician, at=timezone.now())
    assert [p.field for p in refused.value.problems] == ["stoma-length_mm"]


def test_the_recorded_size_stands(client: Client) -> None:
    draft, photo = measured("44")
    client.force_login(draft.visit.clinician)
    answer = press(client, draft, f"recorded-right-{photo}")
    assert answer["Location"].endswith("#stoma")
    stored = reread(draft)
    assert (stored.measurement.length_mm, disputed(stored)) == (44, [])
    assert AccessLog.objects.filter(action="kept recorded size").count() == 1
    # Another size is another question.
    press(client, stored, "save", stoma__length_mm="45")
    assert len(disputed(reread(draft))) == 1


@pytest.mark.parametrize("radii", [None, [20] * 12])
def test_the_photos_size_stands(client: Client, radii: list[int] | None) -> None:
    draft, photo = measured("44", measurement__radii_mm=radii)
    client.force_login(draft.visit.clinician)
    press(client, draft, f"photo-right-{photo}")
    stored = reread(draft)
    assert (stored.measurement.length_mm, stored.measurement.width_mm) == (38, 30)
    # What the plan measures by is the photo's too.
    assert stored.measurement.radii_mm == (radii and [17] * 12)
    assert disputed(stored) == []


def test_a_photo_of_another_visit_fills_in_nothing(client: Client) -> None:
    draft, _ = measured("44")
    _, other = measured("44")
    client.force_login(draft.visit.clinician)
    for button in (f"photo-right-{other}", "photo-right-x", f"recorded-right-{other}"):
        press(client, reread(draft), button)
    assert reread(draft).measurement.length_mm == 44
    assert PhotoMeasurement.objects.exclude(recorded_is_right="").count() == 0


def test_the_page_asks(client: Client) -> None:
    draft, photo = measured("44")
    client.force_login(draft.visit.clinician)
    page = client.get(reverse("charting:chart", args=[draft.uuid])).content.decode()
    assert f'value="photo-right-{photo}"' in page

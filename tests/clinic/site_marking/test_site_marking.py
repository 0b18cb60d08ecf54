"""Sites marked before surgery: what is asked, what is refused, what the stoma takes over."""

from datetime import date
from typing import Any
from uuid import uuid4

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse

from clinic.audit.models import AccessLog
from clinic.patients.models import Patient, Site
from clinic.site_marking.choices import CRITERIA, POSTURES, Rank
from clinic.site_marking.drawing import mark_of
from clinic.site_marking.forms import MarkingForm
from clinic.site_marking.models import MarkedSite, SiteMarking, SiteUsed
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.site_marking import MarkedSiteFactory, SiteMarkingFactory
from tests.factories.visits import PIXEL

pytestmark = pytest.mark.django_db

TYPED: dict[str, Any] = {
    "marked_on": "10 Mar 2024",
    "marked_by": "R. Quill, stoma nurse",
    "planned": "ileostomy",
    "consent": "yes",
    "quadrant_1": "right lower",
    "place_x_1": "-40",
    "place_y_1": "-30",
    "side_mm_1": "55",
    "sitting_1": "yes",
    "bending_1": "no",
}


def add(client: Client, person: Patient, **changed: Any) -> Any:
    return client.post(reverse("site_marking:add", args=[person.uuid]), {**TYPED, **changed})


def test_a_person_without_a_stoma_is_marked_once_though_sent_twice(client: Client) -> None:
    person, nurse = PatientFactory(), UserFactory()
    client.force_login(nurse)
    record = client.get(reverse("patients:record", args=[person.uuid])).content.decode()
    assert "Mark a site before surgery" in record
    for _ in range(2):
        answer = add(client, person, once=KEY)
        assert answer.status_code == 302, answer.content.decode()
    marking = SiteMarking.objects.get()
    site = marking.sites.get()
    assert (marking.patient, marking.recorded_by, marking.consent) == (person, nurse, True)
    # What was not pressed is not checked, never yes or no.
    assert (marking.surgeon_informed, site.lying, site.in_rectus) == (None, None, None)
    assert (site.sitting, site.bending, site.height_mm) == (True, False, None)
    assert (site.place_x, site.place_y, site.side_mm) == (-40, -30, 55)
    assert AccessLog.objects.filter(action="marked", subject_uuid=marking.uuid).count() == 1


KEY = str(uuid4())


def test_nothing_is_filled_in_beforehand(client: Client) -> None:
    client.force_login(UserFactory())
    url = reverse("site_marking:add", args=[PatientFactory().uuid])
    page = client.get(url).content.decode()
    tags = [part.partition(">")[0] for part in page.split("<input")[1:]]
    checked = [tag for tag in tags if " checked" in tag]
    assert all('value="unknown"' in tag or 'value=""' in tag for tag in checked)


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({}, None),
        ({"marked_on": ""}, "marked_on"),
        ({"marked_on": "1 Jan 2099"}, "marked_on"),
        ({"marked_on": "1 Jan 1950"}, "marked_on"),
        ({"marked_by": ""}, "marked_by"),
        ({"quadrant_1": ""}, "quadrant_1"),
        ({"side_mm_1": "301"}, "side_mm_1"),
        ({"side_mm_1": "-1"}, "side_mm_1"),
        ({"side_mm_1": "a hand"}, "side_mm_1"),
        ({"side_mm_1": "300"}, None),
        ({"place_y_1": ""}, "place_y_1"),
        ({"place_x_1": "", "place_y_1": ""}, None),
        ({"place_x_1": "101"}, "place_x_1"),
        # The patient's right is negative; below the navel too.
        ({"place_x_1": "40"}, "quadrant_1"),
        ({"place_y_1": "30"}, "quadrant_1"),
        ({"place_x_1": "0", "place_y_1": "0"}, None),
        ({"quadrant_1": "umbilical"}, None),
        ({"seen_by_person_2": "no"}, "quadrant_2"),
        ({"seen_by_person_2": "no", "quadrant_2": "left upper"}, None),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(
    changed: dict[str, Any], field: str | None
) -> None:
    form = MarkingForm({**TYPED, **changed}, patient=PatientFactory())
    assert list(form.errors) == ([] if field is None else [field])


def test_every_check_is_a_column_and_is_shown(client: Client) -> None:
    names = {column.name for column in MarkedSite._meta.concrete_fields}
    assert {*CRITERIA, *POSTURES} <= names
    site = MarkedSiteFactory(bending=False)
    client.force_login(UserFactory())
    page = client.get(reverse("site_marking:show", args=[site.marking.uuid])).content.decode()
    assert all(label in page for label in CRITERIA.values())
    assert page.count("not checked") == len(CRITERIA) + len(POSTURES) - 1


@pytest.mark.parametrize(
    ("values", "words"),
    [
        ({}, "Right lower; not measured"),
        ({"side_mm": 60}, "Right lower; from the navel 60 mm to the side"),
        (
            {"side_mm": 60, "height_mm": 40, "quadrant": Site.LEFT_UPPER},
            "Left upper; from the navel 60 mm to the side, 40 mm up",
        ),
        ({"height_mm": 0}, "Right lower; from the navel 0 mm down"),
    ],
)
def test_a_place_in_words(values: dict[str, Any], words: str) -> None:
    assert MarkedSite(**{"quadrant": Site.RIGHT_LOWER, **values}).place_words == words


def test_the_patients_left_is_drawn_on_the_right() -> None:
    exact = mark_of(MarkedSite(rank="1", quadrant=Site.LEFT_LOWER, place_x=40, place_y=-30))
    assert (exact.cx, exact.cy, exact.exact) == (160, 160, True)
    about = mark_of(MarkedSite(rank="1", quadrant=Site.RIGHT_UPPER))
    assert about.cx < 120
    assert about.cy < 130
    assert not about.exact


def test_a_photo_is_made_again_and_shown_to_those_who_may_see_it(client: Client) -> None:
    client.force_login(UserFactory())
    upload = SimpleUploadedFile("belly.jpg", PIXEL, "image/jpeg")
    assert add(client, PatientFactory(), photo=upload).status_code == 302
    marking = SiteMarking.objects.get()
    answer = client.get(reverse("site_marking:photo", args=[marking.uuid]))
    assert answer.headers["Content-Type"] == "image/jpeg"
    broken = SimpleUploadedFile("belly.jpg", b"no picture", "image/jpeg")
    assert add(client, PatientFactory(), photo=broken).status_code == 422


@pytest.mark.parametrize(
    ("sent", "saved"),
    [
        ({"used": "first"}, True),
        # Only one site was marked.
        ({"used": "second"}, False),
        ({"used": "another"}, False),
        ({"used": "another", "why": "Scar tissue"}, True),
        ({"used": "unknown"}, True),
        ({}, False),
    ],
)
def test_the_stoma_says_which_site_was_used(
    client: Client, sent: dict[str, str], saved: bool
) -> None:
    stoma = StomaFactory()
    marking = MarkedSiteFactory(marking__patient=stoma.patient).marking
    client.force_login(UserFactory())
    record = reverse("patients:record", args=[stoma.patient.uuid])
    assert "at which of the marked sites?" in client.get(record).content.decode()
    url = reverse("site_marking:used", args=[marking.uuid, stoma.uuid])
    assert (client.post(url, sent).status_code == 302) is saved
    assert SiteUsed.objects.filter(stoma=stoma, used=sent.get("used")).exists() is saved
    page = client.get(record).content.decode()
    assert ("at which of the marked sites?" in page) is not saved


def test_a_stoma_of_before_the_marking_is_not_asked_about(client: Client) -> None:
    stoma = StomaFactory(surgery_date=date(2024, 3, 9))
    MarkedSiteFactory(marking__patient=stoma.patient)
    client.force_login(UserFactory())
    page = client.get(reverse("patients:record", args=[stoma.patient.uuid])).content.decode()
    assert "at which of the marked sites?" not in page


def test_another_persons_marking_is_not_found(client: Client) -> None:
    client.force_login(UserFactory())
    url = reverse("site_marking:used", args=[SiteMarkingFactory().uuid, StomaFactory().uuid])
    assert client.post(url, {"used": "first"}).status_code == 404


def test_withdrawn_it_stays_and_no_longer_counts(client: Client) -> None:
    marking = MarkedSiteFactory().marking
    client.force_login(UserFactory())
    url = reverse("site_marking:withdraw", args=[marking.uuid])
    assert client.post(url, {"why": "no_surgery"}).status_code == 302
    page = client.get(reverse("site_marking:show", args=[marking.uuid])).content.decode()
    assert "Withdrawn:" in page
    record = client.get(reverse("patients:record", args=[marking.patient.uuid])).content.decode()
    assert "an earlier marking was withdrawn" in record
    assert AccessLog.objects.filter(action="withdrew", subject_uuid=marking.uuid).exists()


@pytest.mark.parametrize(
    "wrong",
    [{"rank": "3"}, {"quadrant": "knee"}, {"place_x": 5}, {"place_x": 101, "place_y": 0},
     {"side_mm": 301}],
)  # fmt: skip
def test_the_database_refuses_it_too(wrong: dict[str, Any]) -> None:
    with pytest.raises(DatabaseError), transaction.atomic():
        MarkedSiteFactory(**wrong)


def test_a_marking_never_changes() -> None:
    site = MarkedSiteFactory()
    with pytest.raises(DatabaseError), transaction.atomic():
        MarkedSite.objects.update(side_mm=1)
    with pytest.raises(DatabaseError), transaction.atomic():
        SiteMarking.objects.update(marked_by="Somebody else")
    with pytest.raises(DatabaseError), transaction.atomic():
        MarkedSiteFactory(marking=site.marking, rank=Rank.FIRST)

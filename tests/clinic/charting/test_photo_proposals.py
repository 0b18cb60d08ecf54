"""What the computer proposes on a photo counts for nothing until the nurse has confirmed it."""

import json
from typing import Any

import numpy as np
import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.plans.photo_proposals import NO_CARD, UNREADABLE, signed
from clinic.visits.models import Photo, PhotoMeasurement
from tests.clinic.charting.test_photo_measure import OVAL, VIEW, body, marks, points, post
from tests.factories.accounts import UserFactory
from tests.factories.rendered import Look, as_jpeg, rendered
from tests.factories.scene import card_at, oval
from tests.factories.visits import AssessmentFactory, PhotoFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def nurse(client: Client) -> User:
    user: User = UserFactory.create(role=Role.NURSE)
    client.force_login(user)
    return user


def photo_of(image: bytes) -> Photo:
    assessment = AssessmentFactory.create(well_fitting=True)
    made: Photo = PhotoFactory.create(assessment=assessment, width=1600, height=1200, image=image)
    return made


@pytest.fixture
def photo() -> Photo:
    card, edge = VIEW.pixels(card_at(0, -50)), VIEW.pixels(oval(40, 30, 60, n=200))
    return photo_of(as_jpeg(rendered(Look(), card, edge, np.random.default_rng(1))))


def asked(client: Client, photo: Photo, **given: Any) -> Any:
    return client.post(reverse("charting:propose_marks", args=[photo.pk]), given)


def with_proposal(got: dict[str, Any], *, confirmed: bool, **changes: Any) -> str:
    card = {"token": got["token"], "confirmed": confirmed}
    return marks(card=got["points"], proposed={"card": card}, **changes)


def test_proposed_moved_confirmed_and_measured_and_all_that_is_kept(
    client: Client, nurse: User, photo: Photo
) -> None:
    got = asked(client, photo, what="card").json()
    edge = asked(client, photo, what="outline").json()
    assert (len(got["points"]), got["words"], len(edge["points"])) == (4, "", 20)
    assert not PhotoMeasurement.objects.exists()
    moved = [[got["points"][0][0] + 3, got["points"][0][1], 1.0], *got["points"][1:]]
    proposed = {
        "card": {"token": got["token"], "confirmed": True},
        "outline": {"token": edge["token"], "confirmed": True},
    }
    drawn = marks(card=moved, outline=edge["points"], proposed=proposed)
    assert post(client, photo, marks=drawn).status_code == 302
    kept = PhotoMeasurement.objects.get()
    card = kept.marks["proposed"]["card"]
    assert card["points"] == got["points"]
    assert (card["confirmed"], card["moved"], card["farthest_px"]) == (True, 1, 3.0)
    assert kept.marks["proposed"]["outline"]["moved"] == 0
    assert kept.marks["marks"]["card"][0] == moved[0]
    assert kept.result["length_mm"][0] == pytest.approx(40, abs=0.8)
    words = "Proposed by the computer, then confirmed: corners (1 changed), edge."
    assert kept.result["proposed_words"] == words
    chart = client.get(reverse("charting:chart", args=[photo.assessment.uuid]))
    assert words in chart.content.decode()
    actions = AccessLog.objects.exclude(action="signed in").values_list("action", flat=True)
    assert list(actions.order_by("pk"))[:2] == ["had marks proposed on photo"] * 2
    # Opened again, it still says what was proposed; measured again, it is kept again.
    page = client.get(reverse("charting:measure_photo", args=[photo.pk]))
    again = page.context["form"]["marks"].value()
    assert post(client, photo, marks=again).status_code == 302
    assert PhotoMeasurement.objects.get().marks["proposed"] == kept.marks["proposed"]


def test_nothing_is_measured_from_what_nobody_confirmed(
    client: Client, nurse: User, photo: Photo
) -> None:
    got = asked(client, photo, what="card").json()
    open_ = with_proposal(got, confirmed=False)
    answer = post(client, photo, quiet=True, marks=open_).json()
    assert "Check each one, then confirm them" in answer["errors"]["kind"][0]
    assert answer["html"] == ""
    assert post(client, photo, marks=open_).status_code == 422
    # "Yes" in any other form is no confirmation.
    assert post(client, photo, marks=open_.replace("false", '"yes"')).status_code == 422
    assert not PhotoMeasurement.objects.exists()
    # Of a ruler, an unconfirmed card is not what is measured by.
    by_ruler = post(client, photo, kind="line", line_mm="80", askew="straight", marks=open_)
    assert by_ruler.status_code == 302
    assert "proposed" not in PhotoMeasurement.objects.get().marks


def test_an_edge_that_nobody_confirmed_is_said_beside_the_edge(
    client: Client, nurse: User, photo: Photo
) -> None:
    token = signed(photo.pk, "outline", points(OVAL))
    drawn = marks(proposed={"outline": {"token": token, "confirmed": False}})
    answer = post(client, photo, quiet=True, marks=drawn).json()
    assert "Check it, then confirm it" in answer["errors"]["marks"][0]


def test_what_was_not_proposed_here_is_not_kept_as_proposed(
    client: Client, nurse: User, photo: Photo
) -> None:
    other = photo_of(b"another")
    corners = points(card_at(0, -50))
    for token in (
        "made up",
        None,
        signed(other.pk, "card", corners),
        signed(photo.pk, "outline", corners),
    ):
        drawn = marks(proposed={"card": {"token": token, "confirmed": True}})
        answer = post(client, photo, quiet=True, marks=drawn).json()
        assert "did not arrive complete" in answer["errors"]["marks"][0]
    broken: list[Any] = [[], {"card": []}, {"card": {"token": "x"}}, 3]
    for proposed in broken:
        answer = post(client, photo, quiet=True, marks=marks(proposed=proposed)).json()
        assert "did not arrive complete" in answer["errors"]["marks"][0]


def test_when_unsure_the_computer_says_so_and_proposes_nothing(client: Client, nurse: User) -> None:
    bare = rendered(Look(), None, None, np.random.default_rng(1))
    got = asked(client, photo_of(as_jpeg(bare)), what="card").json()
    assert got == {"points": [], "words": NO_CARD, "token": ""}
    got = asked(client, photo_of(b"\xff\xd8 cut short"), what="outline").json()
    assert got["words"] == UNREADABLE


def test_only_an_asked_request_of_somebody_who_may_chart(
    client: Client, nurse: User, photo: Photo
) -> None:
    address = reverse("charting:propose_marks", args=[photo.pk])
    assert client.get(address).status_code == 405
    for given in ({}, {"what": "line"}, {"what": "outline", "x": "left"}):
        assert client.post(address, given).status_code == 400
    visit = photo.assessment.visit
    visit.state = "discarded"
    visit.save()
    assert client.post(address, {"what": "card"}).status_code == 404
    client.force_login(UserFactory.create(role=Role.SURGEON))
    assert client.post(address, {"what": "card"}).status_code == 403
    assert not AccessLog.objects.filter(action="had marks proposed on photo").exists()


def test_marks_by_hand_alone_say_nothing_of_proposals(
    client: Client, nurse: User, photo: Photo
) -> None:
    assert body(photo)["marks"] == marks()
    post(client, photo, marks=json.dumps({**json.loads(marks()), "proposed": {}}))
    kept = PhotoMeasurement.objects.get()
    assert "proposed" not in kept.marks
    assert "proposed_words" not in kept.result

"""A suspected material becomes a sensitivity with one press, once, with where it comes from."""

import pytest
from django.test import Client
from django.urls import reverse

from clinic.audit.models import AccessLog
from clinic.patients.actions import remove_sensitivity
from clinic.patients.models import Removal
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Choice
from clinic.visits.choices import SkinState
from clinic.visits.models import Assessment
from tests.clinic.plans.signed_visits import accept, reread, sign, signed
from tests.factories.accounts import UserFactory
from tests.factories.patients import SensitivityFactory
from tests.factories.visits import ALL_ROUND, AssessmentFactory, SkinFindingFactory

pytestmark = pytest.mark.django_db


def reacting() -> Assessment:
    """A draft in which the skin reacts in the outline of the protectant film."""
    found = AssessmentFactory(
        well_fitting=True, system__accessories=["protectant"], skin__state=SkinState.FINDINGS
    )
    SkinFindingFactory(
        assessment=found, hours=ALL_ROUND, outer_mm=40, product_outline=True, outline_of="film",
        itch=True,
    )  # fmt: skip
    return reread(found)


def reacted() -> Assessment:
    found = reacting()
    accept(found)
    sign(found)
    return reread(found)


def press(client: Client, about: Assessment, material: str = "protectant film") -> str:
    url = reverse("plans:suspected", args=[about.uuid])
    return client.post(url, {"material": material}, follow=True).content.decode()


def test_the_plan_names_what_it_suspects() -> None:
    plan = draft_plan(reacting()).plan
    assert plan is not None
    assert [one.value for one in plan.suspects] == ["protectant"]


def test_one_press_records_it_with_its_origin_and_only_once(client: Client) -> None:
    about = reacted()
    client.force_login(UserFactory())
    page = client.get(reverse("charting:visit", args=[about.visit.uuid])).content.decode()
    assert "Record as a sensitivity" in page
    for _ in range(2):
        after = press(client, about)
        assert "Recorded as a sensitivity from this plan." in after
        assert "Record as a sensitivity<" not in after
    one = about.visit.patient.sensitivities.get()
    assert (one.material, one.confirmed_by_patch_test, one.since) == ("protectant film", None, "")
    assert one.origin == "Suspected in the plan of the visit of 6 May 2025"
    assert one.origin_visit == about.visit.uuid
    assert one.reaction.startswith("Suspected on 6 May 2025, not proven. Seen: ")
    assert AccessLog.objects.filter(action="added", subject_uuid=one.uuid).count() == 1
    record = client.get(reverse("patients:record", args=[about.visit.patient.uuid]))
    assert one.origin in record.content.decode()


def test_what_was_removed_is_not_offered_again(client: Client) -> None:
    about = reacted()
    client.force_login(nurse := UserFactory())
    press(client, about)
    one = about.visit.patient.sensitivities.get()
    remove_sensitivity(sensitivity=one, by=nurse, why=Removal.RULED_OUT)
    assert "It was recorded from this plan and removed since." in press(client, about)
    assert not about.visit.patient.sensitivities.exists()


def test_on_record_already_is_said_and_not_doubled(client: Client) -> None:
    about = reacted()
    SensitivityFactory(patient=about.visit.patient, material="protectant film")
    client.force_login(UserFactory())
    assert "A sensitivity to it is on record already." in press(client, about)
    assert about.visit.patient.sensitivities.count() == 1


def test_what_the_nurse_dropped_is_not_offered(client: Client) -> None:
    about = reacting()
    accept(about)
    said = about.decisions.get(key="suspected_product")
    said.choice, said.reason = Choice.DROPPED, "It was the new soap."
    said.save()
    sign(about)
    client.force_login(UserFactory())
    assert "Not taken up at this visit." in press(client, reread(about))
    assert not about.visit.patient.sensitivities.exists()


@pytest.mark.parametrize("material", ["paste", "", "glue"])
def test_what_the_plan_does_not_suspect_is_refused(client: Client, material: str) -> None:
    about = reacted()
    client.force_login(UserFactory())
    assert "This plan does not suspect that." in press(client, about, material)
    assert not about.visit.patient.sensitivities.exists()


def test_a_plan_that_suspects_nothing_shows_nothing(client: Client) -> None:
    about = signed()
    client.force_login(UserFactory())
    page = client.get(reverse("charting:visit", args=[about.visit.uuid])).content.decode()
    assert "Suspected to hurt the skin" not in page

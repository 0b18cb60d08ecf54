"""Who may print what, when there is no PDF, and what the log keeps."""

from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse
from pytest_django import Settings

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.visits.actions.start import discard_visit
from clinic.visits.models import Assessment
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.made_plans import LEAK
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def draft(monkeypatch: pytest.MonkeyPatch) -> Assessment:
    """Decided, not signed."""
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed()
    made_visits.sore_low_down(made)
    made_visits.decide(made, LEAK)
    return made


@pytest.fixture
def signed(draft: Assessment) -> Assessment:
    made_visits.sign(draft)
    return draft


def url(made: Assessment) -> str:
    return reverse("documents:care_sheet", args=[made.uuid])


def opened(made: Assessment) -> list[str]:
    """What the trail says was shown in place of the sheet."""
    rows = AccessLog.objects.filter(action="opened to print", subject_uuid=made.uuid)
    return [row.detail for row in rows if row.patient_uuid == made.visit.patient.uuid]


def as_role(client: Client, role: Role) -> Client:
    client.force_login(UserFactory.create(role=role))
    return client


def test_every_role_that_prints_may_print_a_signed_sheet(
    client: Client, signed: Assessment
) -> None:
    for role in Role:
        response = as_role(client, role).get(url(signed))
        assert response.status_code == 200, role
        assert response["Content-Type"] == "application/pdf"
        shown = "attachment" if role == Role.DESK else "inline"
        assert response["Content-Disposition"] == f'{shown}; filename="care-sheet.pdf"'
        assert response["Cache-Control"] == "no-store"
        text = paper.whole_text(response.content)
        assert "A soft ring round the stoma." in text
        assert "Not signed yet" not in text


def test_a_draft_is_for_who_charts(client: Client, draft: Assessment) -> None:
    for role in (Role.SURGEON, Role.DESK, Role.LEAD):
        response = as_role(client, role).get(url(draft))
        assert response.status_code == 403, role
    assert not AccessLog.objects.filter(action="printed").exists()


def test_a_draft_says_so_on_every_page(client: Client, draft: Assessment) -> None:
    response = as_role(client, Role.NURSE).get(url(draft))
    assert response.status_code == 200
    for text in paper.page_texts(response.content):
        assert "Not signed yet" in text


def test_not_signed_in(client: Client, signed: Assessment) -> None:
    response = client.get(url(signed))
    assert response.status_code == 302
    assert response["Location"].startswith(reverse("account_login"))


def test_only_get(client: Client, signed: Assessment) -> None:
    assert as_role(client, Role.NURSE).post(url(signed)).status_code == 405


def test_unknown_and_discarded_are_not_there(client: Client, draft: Assessment) -> None:
    as_role(client, Role.NURSE)
    assert client.get(reverse("documents:care_sheet", args=[uuid4()])).status_code == 404
    discard_visit(visit=draft.visit, by=draft.visit.clinician)
    assert client.get(url(draft)).status_code == 404


def test_undecided_says_what_to_decide_first(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed()
    response = as_role(client, Role.NURSE).get(url(made))
    assert response.status_code == 409
    page = response.content.decode()
    assert f"{len(LEAK.recommendations) + 1} items of the plan are still open" in page
    assert "For the clinician: ring" in page
    assert reverse("charting:chart", args=[made.uuid]) in page
    assert not AccessLog.objects.filter(action="printed").exists()
    assert opened(made) == ["decide first"]


def test_an_emergency_sheet_waits_for_no_decision(client: Client) -> None:
    made = made_visits.assessed()
    type(made.measurement).objects.filter(pk=made.measurement.pk).update(colour="black_brown_grey")
    response = as_role(client, Role.NURSE).get(url(made))
    assert response.status_code == 200
    text = paper.whole_text(response.content)
    assert "Get help now" in text
    assert "Not signed yet" in text


def test_findings_that_contradict_each_other_make_no_sheet(client: Client) -> None:
    made = made_visits.assessed()
    type(made.measurement).objects.filter(pk=made.measurement.pk).update(
        protrusion_mm=-5, prolapse="present", prolapse_extra_mm=20
    )
    response = as_role(client, Role.NURSE).get(url(made))
    assert response.status_code == 409
    assert "contradict" in response.content.decode()
    assert opened(made) == ["decide first"]


def test_without_a_printer_program_there_is_a_page(
    client: Client, signed: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(_pages: object, *, at_most: int) -> bytes:
        raise PrintingUnavailable("Pango is not here.")

    monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", fail)
    for role in (Role.NURSE, Role.DESK):
        response = as_role(client, role).get(url(signed))
        assert response.status_code == 503
        assert "Pango is not here." in response.content.decode()
    assert opened(signed) == ["printing unavailable"] * 2
    assert not AccessLog.objects.filter(action="printed").exists()


def test_each_printing_is_on_record(client: Client, signed: Assessment) -> None:
    as_role(client, Role.DESK)
    client.get(url(signed))
    client.get(url(signed), {"print": "large"})
    rows = AccessLog.objects.filter(action="printed").order_by("id")
    assert [row.detail for row in rows] == ["care sheet", "care sheet, large print"]
    for row in rows:
        assert row.subject_uuid == signed.uuid
        assert row.patient_uuid == signed.visit.patient.uuid
        assert signed.visit.patient.family_name not in str(vars(row))


def test_large_print(client: Client, signed: Assessment) -> None:
    as_role(client, Role.NURSE)
    people = type(signed.visit.patient).objects.filter(pk=signed.visit.patient.pk)
    for wants_large, asked, least in (
        (False, "", 14),
        (False, "large", 18),
        (True, "", 18),
        (True, "normal", 14),
        (True, "nonsense", 18),
    ):
        people.update(large_print=wants_large)
        response = client.get(url(signed), {"print": asked} if asked else {})
        first = paper.runs(paper.reader(response.content).pages[0])
        found = min(run.points for run in first)
        assert found == pytest.approx(least, abs=0.01), (wants_large, asked)


def test_letter_paper(client: Client, signed: Assessment, settings: Settings) -> None:
    settings.PAPER_SIZE = "Letter"
    response = as_role(client, Role.NURSE).get(url(signed))
    assert float(paper.reader(response.content).pages[0].mediabox.width) == pytest.approx(612)


def test_number_of_queries_is_constant(
    client: Client, signed: Assessment, django_assert_max_num_queries: object
) -> None:
    as_role(client, Role.NURSE)
    # Two of them read the clinic's details: its paper, and how it is reached.
    with django_assert_max_num_queries(42):  # type: ignore[operator]
        assert client.get(url(signed)).status_code == 200

"""Pressing *Sign visit*: what is missing is said at its place; twice is once."""

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.plans.actions.sign import NOTHING_SEEN
from clinic.plans.models import PlanSnapshot
from clinic.visits.actions.save import Turn, save_chart
from clinic.visits.models import Assessment, ConflictCopy
from tests.clinic.plans.signed_visits import posted_page
from tests.clinic.visits.posting import posted
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


def send(nurse: Client, assessment: Assessment, data: Any, **options: Any) -> Any:
    return nurse.post(
        reverse("charting:save", args=[assessment.uuid]),
        data.urlencode(),
        content_type="application/x-www-form-urlencoded",
        **options,
    )


def press(nurse: Client, assessment: Assessment, button: str, **changes: Any) -> Any:
    return send(nurse, assessment, posted_page(assessment, press=button, **changes))


def test_an_empty_visit_says_what_is_missing_in_the_list_and_beside_the_note(
    client: Client,
) -> None:
    empty = AssessmentFactory()
    client.force_login(empty.visit.clinician)
    page = press(client, empty, "sign")
    html = page.content.decode()
    assert page.status_code == 422
    top, below = html.split('<nav class="chart-index"')
    assert "Not signed yet" in top
    assert f'<a href="#div_id_visit-note">Note</a>: {NOTHING_SEEN}' in top
    note = below.split('id="div_id_visit-note"')[1].split("</section>")[0]
    assert NOTHING_SEEN in note
    # Nothing typed is wrong: the plan waits for no entry.
    assert "needs correcting" not in html


def test_what_is_wrong_at_another_stoma_leads_to_its_page(
    nurse: Client, assessment: Assessment
) -> None:
    visit = assessment.visit
    urostomy = StomaFactory(patient=visit.patient, kind="urostomy")
    other = AssessmentFactory(visit=visit, stoma=urostomy)
    save_chart(
        assessment=other,
        data=posted(other, stoma__length_mm="3O"),
        turn=Turn(visit.version),
        by=visit.clinician,
    )
    press(nurse, assessment, "accept-rest")
    page = press(nurse, assessment, "sign")
    assert page.status_code == 422
    there = reverse("charting:chart", args=[other.uuid])
    top = page.content.decode().split('<nav class="chart-index"')[0]
    assert f'<a href="{there}">{other.stoma.short_name}: An entry here needs' in top


def test_a_second_press_of_the_same_is_no_late_entry(nurse: Client, assessment: Assessment) -> None:
    press(nurse, assessment, "accept-rest")
    twice = posted_page(assessment, press="sign")
    assert send(nurse, assessment, twice).status_code == 302
    page = send(nurse, assessment, twice, follow=True)
    assert "You signed this visit at" in page.content.decode()
    assert PlanSnapshot.objects.count() == 1
    assert not ConflictCopy.objects.exists()


@pytest.mark.parametrize(
    "late",
    [
        {"visit-note": "Also told me about a fall."},
        {"decision-follow_up-choice": "dropped", "decision-follow_up-reason": "Moves away."},
    ],
)
def test_a_second_press_that_says_more_is_kept(
    nurse: Client, assessment: Assessment, late: dict[str, str]
) -> None:
    press(nurse, assessment, "accept-rest")
    more = posted_page(assessment, press="sign")
    for name, value in late.items():
        more[name] = value
    press(nurse, assessment, "sign")
    page = send(nurse, assessment, more, follow=True)
    assert "You signed this visit at" not in page.content.decode()
    assert ConflictCopy.objects.count() == 1


def test_the_second_of_two_presses_at_one_moment_gets_words(
    nurse: Client, assessment: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It looked while the visit was a draft, and found it signed when its turn came."""
    press(nurse, assessment, "accept-rest")
    twice = posted_page(assessment, press="sign")
    send(nurse, assessment, twice)
    monkeypatch.setattr("clinic.charting.views.chart.can_edit", lambda _: True)
    page = send(nurse, assessment, twice, follow=True)
    assert page.status_code == 200
    assert "You signed this visit at" in page.content.decode()

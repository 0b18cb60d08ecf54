"""What is known and accepted: recorded, shown, compared with, ended; never changed."""

from datetime import date, timedelta
from typing import Any

import pytest
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.audit.models import AccessLog
from clinic.patients.known_state_form import KnownStateForm
from clinic.patients.models import KnownState
from clinic.plans.bridge import history_of
from planning.inputs.findings import Baseline, BaselineKind
from tests.factories.accounts import UserFactory
from tests.factories.patients import KnownStateFactory, StomaFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

TYPED = {
    "kind": "prolapse",
    "value": "40",
    "reducible": "yes",
    "agreed_by": "Dr Hale, surgeon",
    "agreed_on": "1 Jan 2025",
    "since": "1 Jun 2024",
    "review_by": "1 Jul 2025",
}


@pytest.mark.parametrize("role", ["nurse", "surgeon"])
def test_recorded_with_who_and_put_on_the_audit_trail(client: Client, role: str) -> None:
    stoma, user = StomaFactory(), UserFactory(role=role)
    client.force_login(user)
    url = reverse("patients:known_agree", args=[stoma.patient.uuid, stoma.uuid])
    page = client.get(url).content.decode()
    yes = "true" if 'value="true"' in page else "yes"
    answer = client.post(url, {**TYPED, "reducible": yes})
    assert answer.status_code == 302, answer.content.decode()
    state = stoma.known_states.get()
    assert (state.value, state.reducible, state.recorded_by) == (40, True, user)
    assert AccessLog.objects.filter(action="agreed", subject_uuid=state.uuid).exists()
    client.post(reverse("patients:known_end", args=[stoma.patient.uuid, state.uuid]))
    assert stoma.known_states.get().ended_on == timezone.localdate()
    assert AccessLog.objects.filter(action="ended", subject_uuid=state.uuid).exists()


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"kind": "confusion"}, "value"),
        ({"kind": "output_target", "reducible": ""}, None),
        ({"kind": "output_target", "value": "20001", "reducible": ""}, "value"),
        ({"kind": "height"}, "reducible"),
        ({"agreed_by": " "}, "agreed_by"),
        ({"since": "2 Jan 2025"}, "since"),
        ({"review_by": "1 Dec 2024"}, "review_by"),
        ({"agreed_on": f"{timezone.localdate() + timedelta(days=2):%Y-%m-%d}"}, "agreed_on"),
    ],
)
def test_what_does_not_hold_together_is_said_beside_its_field(
    changed: dict[str, str], field: str | None
) -> None:
    form = KnownStateForm({**TYPED, **changed}, instance=KnownState(stoma=StomaFactory()))
    assert (field in form.errors) if field else form.is_valid(), form.errors


@pytest.mark.parametrize(
    "values",
    [
        {"kind": "confusion", "value": 1},
        {"kind": "output_target", "value": 20_001},
        {"kind": "height", "reducible": True},
        {"kind": "no word of ours"},
        {"agreed_by": " "},
        {"since": date(2025, 1, 2)},
        {"review_by": date(2024, 12, 31)},
    ],
)
def test_the_database_refuses_it_too(values: dict[str, Any]) -> None:
    with pytest.raises(DatabaseError), transaction.atomic():
        KnownStateFactory(**values)


def test_it_is_ended_and_never_changed_or_deleted() -> None:
    state = KnownStateFactory(value=40)
    for change in (
        lambda: KnownState.objects.filter(pk=state.pk).update(value=60),
        lambda: KnownState.objects.filter(pk=state.pk).delete(),
    ):
        with pytest.raises(DatabaseError), transaction.atomic():
            change()
    KnownState.objects.filter(pk=state.pk).update(ended_on=date(2025, 5, 1))


def test_the_planner_compares_with_what_held_on_the_day_of_the_visit() -> None:
    assessment = AssessmentFactory()  # 6 May 2025
    stoma = assessment.stoma
    KnownStateFactory(
        stoma=stoma,
        value=40,
        reducible=True,
        since=date(2025, 4, 26),
        agreed_on=date(2025, 5, 6),
        review_by=date(2025, 5, 5 + 8),
    )
    KnownStateFactory(stoma=stoma, kind="height", agreed_on=date(2025, 5, 7))
    KnownStateFactory(stoma=stoma, kind="bulge", ended_on=date(2025, 5, 6))
    KnownStateFactory(kind="varices")
    assert history_of(assessment).baselines == (
        Baseline(
            BaselineKind.PROLAPSE,
            "Dr Hale, surgeon",
            value=40.0,
            reducible=True,
            since_days=10.0,
            review_in_days=7.0,
        ),
    )


def test_it_is_shown_on_the_visit_page_and_on_the_record(client: Client) -> None:
    assessment = AssessmentFactory()
    KnownStateFactory(stoma=assessment.stoma, value=40, reducible=False)
    client.force_login(assessment.visit.clinician)
    words = "Prolapse, 40 mm, not reducible: agreed by Dr Hale, surgeon, 1 Jan 2025"
    for url in (
        reverse("charting:chart", args=[assessment.uuid]),
        reverse("patients:record", args=[assessment.visit.patient.uuid]),
    ):
        assert words in client.get(url).content.decode()

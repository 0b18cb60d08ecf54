"""The page: who may see it, what it says, and that long records cost no more queries."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.patients.models import Stoma
from clinic.referrals.models import Referral
from tests.clinic.plans.signed_visits import referred
from tests.clinic.trends.seen_stomas import seen
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, PhotoFactory, VisitFactory

pytestmark = pytest.mark.django_db


def signed_in(role: Role = Role.SURGEON) -> Client:
    client = Client()
    client.force_login(UserFactory.create(role=role))
    return client


def page(stoma: Stoma, client: Client | None = None, asked: dict[str, str] | None = None) -> str:
    answer = (client or signed_in()).get(reverse("trends:stoma", args=[stoma.uuid]), asked)
    assert answer.status_code == 200
    return answer.content.decode()


@pytest.mark.parametrize(
    ("role", "status"), [(Role.NURSE, 200), (Role.SURGEON, 200), (Role.LEAD, 200), (Role.DESK, 403)]
)
def test_only_who_may_see_the_record(role: Role, status: int) -> None:
    stoma = StomaFactory.create()
    seen(stoma, 1)
    address = reverse("trends:stoma", args=[stoma.uuid])
    assert signed_in(role).get(address).status_code == status


def test_looking_is_on_the_access_log() -> None:
    stoma = StomaFactory.create()
    page(stoma)
    row = AccessLog.objects.get(action="viewed trend")
    assert (row.subject_uuid, row.patient_uuid) == (stoma.uuid, stoma.patient.uuid)


def test_without_a_signed_visit_there_is_nothing_yet() -> None:
    stoma = StomaFactory.create()
    AssessmentFactory.create(stoma=stoma, leaking=True)
    shown = page(stoma)
    assert "Nothing to show yet" in shown
    assert "<svg class" not in shown


def test_headline_figure_outcomes_and_tables() -> None:
    stoma = StomaFactory.create()
    visits = seen(stoma, 4)
    shown = page(stoma)
    assert shown.count('class="trend-svg"') == 2
    assert f"6 May {HAPPENED_AT.year}: protrusion 24 mm" in shown
    assert shown.count('data-label="Plan of"') == len(visits)
    assert "Every value as a table" in shown
    assert "<td>24 mm</td>" in shown


def test_nothing_that_the_content_policy_forbids() -> None:
    stoma = StomaFactory.create()
    seen(stoma, 2)
    main = page(stoma).partition("<main")[2].partition("</main>")[0]
    assert not re.search(r"\sstyle=|<style|\son[a-z]+=|<script", main)


@pytest.mark.parametrize(("role", "word"), [(Role.SURGEON, "Answer"), (Role.NURSE, "Open")])
def test_a_referral_that_waits_is_asked_for(role: Role, word: str) -> None:
    waiting = referred()
    shown = page(waiting.assessment.stoma, signed_in(role))
    assert reverse("referrals:referral", args=[waiting.uuid]) in shown
    assert re.search(rf'class="button[^>]*>{word}<', shown)


def test_an_answered_referral_waits_no_longer() -> None:
    answered = referred()
    waiting = Referral.objects.filter(assessment=answered.assessment)
    waiting.update(
        answer="Seen.", answered_at=answered.made_at + timedelta(days=1),
        answered_by=answered.made_by,
    )  # fmt: skip
    assert "No referral waits for an answer." in page(answered.assessment.stoma)


def test_words_of_the_record_stay_words() -> None:
    waiting = referred()
    waiting.question = "<script>alert(1)</script>"
    waiting.save(update_fields=["question"])
    assert "<script>alert" not in page(waiting.assessment.stoma)


def test_pictures_oldest_and_newest_unless_others_are_asked_for() -> None:
    stoma = StomaFactory.create()
    first, second, third = (
        PhotoFactory.create(
            assessment=AssessmentFactory.create(
                stoma=stoma,
                visit=VisitFactory.create(
                    patient=stoma.patient, happened_at=HAPPENED_AT + timedelta(days=n)
                ),
            )
        )
        for n in range(3)
    )
    PhotoFactory.create()  # somebody else's
    seen(stoma, 1)

    def shown(**asked: str) -> list[str]:
        return re.findall(r'<img src="([^"]+)"', page(stoma, asked=asked))

    def address(*photos: object) -> list[str]:
        return [reverse("visits:photo", args=[photo.pk]) for photo in photos]  # type: ignore[attr-defined]

    assert shown() == address(first, third)
    assert shown(first=str(second.pk), second=str(first.pk)) == address(second, first)
    assert shown(first="nonsense", second="") == address(first, third)


def queries(client: Client, stoma: Stoma) -> int:
    with CaptureQueriesContext(connection) as asked:
        page(stoma, client)
    return len(asked)


def test_queries_do_not_grow_with_the_record() -> None:
    client = signed_in()
    short, long = StomaFactory.create(), StomaFactory.create()
    seen(short, 1)
    for assessment in seen(long, 6):
        PhotoFactory.create(assessment=_another_draft(assessment.stoma))
    queries(client, short)  # what is only asked for once
    assert queries(client, long) == queries(client, short)


def _another_draft(stoma: Stoma) -> object:
    return AssessmentFactory.create(
        stoma=stoma, visit=VisitFactory.create(patient=stoma.patient, happened_at=HAPPENED_AT)
    )


def test_the_record_links_to_the_trend() -> None:
    stoma = StomaFactory.create()
    record = reverse("patients:record", args=[stoma.patient.uuid])
    link = reverse("trends:stoma", args=[stoma.uuid])

    def read_by(role: Role) -> str:
        return signed_in(role).get(record).content.decode()

    assert link in read_by(Role.SURGEON)
    assert link not in read_by(Role.DESK)

"""The next visit card: the day as it is known, what to bring, and never leave to wait."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import Settings

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.models import Kind, PrintedDocument
from clinic.documents.patient_language.lay_terms import long_day
from clinic.documents.patient_language.said import english
from clinic.follow_up.models import FollowUp
from clinic.patients.models import SheetLanguage
from clinic.referrals.models import Alarm
from clinic.visits.models import Assessment
from planning import Plan
from planning.results.plan import Urgency
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.made_plans import EMERGENCY, LEAK, flag
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db
TODAY_FLAG = flag(Urgency.SAME_DAY, "It has opened. You must be seen today.")
DANGER = replace(LEAK, urgency=Urgency.SAME_DAY, red_flags=(TODAY_FLAG,))
SEEN_FIRST = "You need to be seen before this visit. Do not wait. Call us:"
WORSE = "If anything gets worse before this visit, call us at once:"


@pytest.fixture(autouse=True)
def clinic(settings: Settings) -> None:
    settings.CLINIC_NAME = "Fern Lane Stoma Clinic (invented)"
    settings.CLINIC_PHONE, settings.CLINIC_HOURS = "555-0100", "Monday to Friday, 8:00 to 16:00"
    settings.EMERGENCY_NUMBER = "112"


@pytest.fixture(autouse=True)
def on_the_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """Today is the day of the visit."""
    monkeypatch.setattr(
        "clinic.documents.next_visit_card.timezone.localdate",
        lambda at=None: timezone.localtime(at or made_visits.VISIT_AT).date(),
    )


def visit_with(
    monkeypatch: pytest.MonkeyPatch, plan: Plan, *, sign: bool = True, **patient: Any
) -> Assessment:
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed(**patient)
    made_visits.decide(made, plan)
    if sign:
        made_visits.sign(made)
    return made


def card(client: Client, made: Assessment, role: Role = Role.NURSE, **asked: str) -> Any:
    client.force_login(UserFactory.create(role=role))
    return client.get(reverse("documents:next_visit_card", args=[made.uuid]), asked)


def words(answer: Any) -> str:
    assert answer["Content-Type"] == "application/pdf", answer.content.decode()
    return paper.whole_text(answer.content)


def no_card(answer: Any) -> str:
    assert answer.status_code == 409
    assert not PrintedDocument.objects.filter(kind=Kind.NEXT_VISIT_CARD).exists()
    return str(answer.content.decode())


def test_it_says_when_where_and_what_to_bring(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = visit_with(monkeypatch, LEAK, given_name="Imogen", family_name="Thistledown")
    text = words(card(client, made))
    due = FollowUp.objects.get(set_by=made).due
    for said in (
        "Fern Lane Stoma Clinic (invented)",
        "Imogen Thistledown",
        english(long_day(due, weekday=True)),
        "555-0100",
        "Monday to Friday",
        "The last barrier you took off, in a closed bag.",
        "All you need for one change.",
        "The list of your medicines.",
        "In an emergency, call 112",
    ):
        assert said in text
    assert SEEN_FIRST not in text
    assert WORSE not in text


def test_it_is_kept_listed_and_on_the_trail(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = visit_with(monkeypatch, LEAK)
    answer = card(client, made, Role.DESK, print="large")
    stored = PrintedDocument.objects.get()
    assert (stored.kind, stored.assessment, stored.detail) == (
        Kind.NEXT_VISIT_CARD,
        made,
        "large print",
    )
    assert bytes(stored.file.pdf) == answer.content
    assert AccessLog.objects.get(action="printed").detail == "next visit card, large print"
    record = client.get(reverse("patients:record", args=[made.visit.patient.uuid]))
    assert reverse("documents:next_visit_card", args=[made.uuid]) in record.content.decode()
    assert reverse("documents:printed", args=[stored.uuid]) in record.content.decode()


def test_a_moved_day_is_the_day(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    made = visit_with(monkeypatch, LEAK)
    moved = FollowUp.objects.get(set_by=made).due + timedelta(days=3)
    FollowUp.objects.filter(set_by=made).update(due=moved)
    assert english(long_day(moved, weekday=True)) in words(card(client, made))


def test_a_day_that_has_passed_is_unknown(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    made = visit_with(monkeypatch, LEAK)
    past = made_visits.VISIT_AT.date() - timedelta(days=1)
    FollowUp.objects.filter(set_by=made).update(due=past)
    text = words(card(client, made))
    assert "No day is set yet." in text
    assert english(long_day(past)) not in text


def test_a_dropped_next_visit_is_unknown(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed()
    made_visits.decide(made, LEAK, dropped=("follow_up",))
    made_visits.sign(made)
    assert "No day is set yet." in words(card(client, made))


def test_a_draft_says_that_it_may_change(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    made = visit_with(monkeypatch, LEAK, sign=False)
    text = words(card(client, made))
    assert "Not signed yet. This card may still change." in text


def test_a_danger_that_cannot_wait_comes_before_the_visit(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    text = words(card(client, visit_with(monkeypatch, DANGER)))
    assert f"{SEEN_FIRST} 555-0100" in text
    assert "today" not in text
    assert "opened" not in text


def test_a_danger_that_the_visit_is_in_time_for(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    lesser = flag(Urgency.TWO_WEEKS, "It may grow. You will be seen within 2 weeks.")
    made = visit_with(monkeypatch, replace(DANGER, urgency=Urgency.TWO_WEEKS, red_flags=(lesser,)))
    text = words(card(client, made))
    assert f"{WORSE} 555-0100" in text
    assert SEEN_FIRST not in text
    FollowUp.objects.filter(set_by=made).update(
        due=made_visits.VISIT_AT.date() + timedelta(days=15)
    )
    assert SEEN_FIRST in words(card(client, made))


class TestNoCard:
    def test_in_an_emergency(self, client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
        page = no_card(card(client, visit_with(monkeypatch, EMERGENCY)))
        assert "There is an emergency, so there is no card" in page
        assert "Print the care sheet" in page

    def test_in_an_emergency_nobody_decided_yet(self, client: Client) -> None:
        made = made_visits.assessed()
        type(made.measurement).objects.update(colour="black_brown_grey")
        assert "There is an emergency" in no_card(card(client, made))

    def test_in_an_emergency_of_the_other_stoma(self, client: Client) -> None:
        other = made_visits.assessed()
        stoma = StomaFactory.create(patient=other.stoma.patient)
        made = AssessmentFactory.create(stoma=stoma, visit=other.visit, well_fitting=True)
        plan = made_visits.decided(made).plan
        made_visits.decide(made, plan)
        assert words(card(client, made))
        type(other.measurement).objects.filter(pk=other.measurement.pk).update(
            colour="black_brown_grey"
        )
        answer = card(client, made)
        assert answer.status_code == 409
        assert "There is an emergency" in answer.content.decode()

    def test_while_a_later_draft_finds_an_emergency(
        self, client: Client, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        made = visit_with(monkeypatch, LEAK)
        stoma = StomaFactory.create(patient=made.stoma.patient)
        later = made_visits.start_visit(
            stoma=stoma, by=UserFactory.create(), at=made_visits.VISIT_AT
        )
        found = later.assessments.get()
        Alarm.objects.create(
            assessment=found, urgency="emergency", headline="x", since=timezone.now()
        )
        assert "There is an emergency" in no_card(card(client, made))

    def test_after_a_later_visit(self, client: Client) -> None:
        old = made_visits.signed_as_planned("well_fitting")
        made_visits.signed_again(old, old.visit.happened_at + timedelta(days=9))
        assert "There is a later visit, of" in no_card(card(client, old))

    def test_for_a_stoma_that_was_closed(
        self, client: Client, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        made = visit_with(monkeypatch, LEAK)
        type(made.stoma).objects.filter(pk=made.stoma_id).update(closed_on=date(2026, 4, 1))
        assert "it has no next visit" in no_card(card(client, made))

    def test_before_everything_is_decided(
        self, client: Client, monkeypatch: pytest.MonkeyPatch
    ) -> None:
        made_visits.use_plan(monkeypatch, LEAK)
        assert "Decide first" in no_card(card(client, made_visits.assessed()))


#: Every language in either print; Letter, the shorter paper, where half of it must do.
EACH = [
    *((language, False, "letter") for language in SheetLanguage),
    *((language, True, "a4") for language in SheetLanguage),
    (SheetLanguage.SPANISH, False, "a4"),
    (SheetLanguage.SPANISH, True, "letter"),
]


def test_it_is_one_page_and_in_print_of_its_size_half_of_it(
    client: Client, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """With the longest name that fits a record, a danger, and opening hours left in English."""
    made = visit_with(
        monkeypatch, DANGER, given_name="Maximiliana Rosalind", family_name="Thistledown-Ashgrove"
    )
    for each in EACH:
        language, large, size = each
        sized = "large" if large else "normal"
        answer = card(client, made, paper=size, language=language.value, print=sized)
        pages = paper.reader(answer.content).pages
        assert len(pages) == 1, each
        least = 18 if large else 14
        found = min(run.points for run in paper.runs(pages[0]))
        assert found == pytest.approx(least, abs=0.01), each
        boxes = paper.boxes(answer.content, tmp_path)
        assert all(0 < box.left < box.right < box.page_width for box in boxes), each
        lowest = max(box.bottom for box in boxes)
        assert lowest < boxes[0].page_height * (1 if large else 0.5), each

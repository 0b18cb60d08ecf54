"""The sheet on the screen before it prints: what it shows, what its buttons do."""

from dataclasses import replace
from typing import Any
from uuid import uuid4

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.care_sheet.readability import grade, hint
from clinic.documents.models import PrintedDocument, SheetEdit
from clinic.visits.models import Assessment
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.care_sheet.test_sheet_edit import PLAN
from tests.clinic.documents.made_plans import LEAK
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> Assessment:
    """Decided and signed."""
    plan = replace(PLAN, recommendations=LEAK.recommendations)
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.sore_low_down(made)
    made_visits.decide(made, plan)
    made_visits.sign(made)
    return made


def look(client: Client, made: Assessment, role: Role = Role.NURSE) -> str:
    client.force_login(UserFactory.create(role=role))
    answer = client.get(reverse("documents:preview", args=[made.uuid]))
    assert answer.status_code == 200
    return answer.content.decode()


def post(client: Client, made: Assessment, **given: str) -> Any:
    return client.post(reverse("documents:edit_sheet", args=[made.uuid]), given)


def test_it_says_what_the_paper_says_in_its_order(client: Client, made: Assessment) -> None:
    page = look(client, made)
    sheet = made_visits.sheet_of(made)
    said = [one.line.words for one in sheet.changes]
    said += [step.words for step in sheet.steps]
    said += [line.words for use in sheet.unmarked for line in use.lines]
    said += [mark.words for mark in sheet.marks]
    said += [line for group in sheet.call for line in group.lines]
    places = [page.index(words) for words in said]
    assert places == sorted(places)
    assert "clock-face" in page
    assert " style=" not in page.partition("<main")[2]


def test_looking_is_on_record_and_prints_nothing(client: Client, made: Assessment) -> None:
    look(client, made)
    row = AccessLog.objects.get(action="viewed", detail="care sheet before printing")
    assert row.patient_uuid == made.visit.patient.uuid
    assert not PrintedDocument.objects.exists()


@pytest.mark.parametrize("role", [Role.SURGEON, Role.LEAD])
def test_who_does_not_chart_looks_and_prints(client: Client, made: Assessment, role: Role) -> None:
    page = look(client, made, role)
    assert reverse("documents:edit_sheet", args=[made.uuid]) not in page
    assert reverse("documents:care_sheet", args=[made.uuid]) in page


def test_undecided_is_said_first(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed()
    client.force_login(UserFactory.create(role=Role.NURSE))
    answer = client.get(reverse("documents:preview", args=[made.uuid]))
    assert answer.status_code == 409
    assert "Decide first" in answer.content.decode()
    assert post(client, made, press="save").status_code == 409
    assert client.get(reverse("documents:preview", args=[uuid4()])).status_code == 404


def test_saved_edited_and_printed_exactly_so(client: Client, made: Assessment) -> None:
    look(client, made)
    answer = post(client, made, press="hide:peel", after_steps="Call me\non Friday.", seen="0")
    assert answer["Location"].endswith("/preview/#step-peel")
    answer = post(client, made, press="print", after_steps="Call me on Friday.", print="large")
    pdf = client.get(answer["Location"]).content
    text = paper.whole_text(pdf)
    assert "Call me on Friday." in text
    assert "Plain words of peel." not in text
    assert "Plain words of clean." in text
    stored = PrintedDocument.objects.get()
    assert stored.detail == "large print"
    page = look(client, made)
    assert reverse("documents:printed", args=[stored.uuid]) in page
    assert "hidden, not printed" in page


@pytest.mark.parametrize("press", ["save", "print"])
def test_what_is_looked_at_in_another_language_stays_and_prints_in_it(
    client: Client, made: Assessment, press: str
) -> None:
    look(client, made)
    address = reverse("documents:preview", args=[made.uuid])
    assert 'name="language"' not in client.get(address).content.decode()
    page = client.get(f"{address}?language=es").content.decode()
    assert '<input type="hidden" name="language" value="es">' in page
    answer = post(client, made, press=press, language="es", seen="0")
    assert answer["Location"].endswith("?language=es")
    client.get(answer["Location"])
    printed = PrintedDocument.objects.values_list("language", flat=True)
    assert list(printed) == (["es"] if press == "print" else [])
    assert "language" not in post(client, made, press=press, language="x/y", seen="1")["Location"]


def test_a_refusal_stays_in_the_language_it_was_pressed_in(
    client: Client, made: Assessment
) -> None:
    look(client, made)
    answer = post(client, made, press="save", language="es", after_steps="x" * 999, seen="0")
    assert answer.status_code == 422
    assert '<article class="sheet-preview" lang="es"' in answer.content.decode()


def test_who_only_prints_prints_what_is_shown(client: Client, made: Assessment) -> None:
    look(client, made, Role.SURGEON)
    address = reverse("documents:preview", args=[made.uuid])
    page = client.get(f"{address}?language=es").content.decode()
    sheet = reverse("documents:care_sheet", args=[made.uuid])
    assert f'class="button primary" href="{sheet}?language=es"' in page


def test_a_refusal_keeps_what_was_typed_and_says_why_beside_the_step(
    client: Client, made: Assessment
) -> None:
    look(client, made)
    answer = post(client, made, press="hide:seal_powder", after_uses="Bring a towel.")
    assert answer.status_code == 422
    page = answer.content.decode()
    assert 'href="#step-seal_powder"' in page
    assert page.count("it can&#x27;t be hidden") == 2
    assert "Bring a towel.</textarea>" in page
    assert not SheetEdit.objects.exists()


@pytest.mark.parametrize("seen", ["", "x", "-1", "9" * 30, "\N{SUPERSCRIPT TWO}"])
def test_a_version_that_is_no_number_is_none(client: Client, made: Assessment, seen: str) -> None:
    look(client, made)
    assert post(client, made, press="save", after_uses="Bring it.", seen=seen).status_code == 302


def test_an_edit_that_no_longer_fits_is_shown_before_it_prints(
    client: Client, made: Assessment
) -> None:
    SheetEdit.objects.create(
        assessment=made,
        hidden=["repeat_layers"],
        changed_by=made.visit.clinician,
        changed_at=made.visit.happened_at,
    )
    client.force_login(UserFactory.create(role=Role.NURSE))
    answer = client.get(reverse("documents:care_sheet", args=[made.uuid]))
    assert answer["Location"] == reverse("documents:preview", args=[made.uuid])
    page = client.get(answer["Location"]).content.decode()
    assert "no longer in the plan" in page
    printed = post(client, made, press="print", seen="1")
    assert client.get(printed["Location"])["Content-Type"] == "application/pdf"


def test_the_desk_prints_what_is_there(client: Client, made: Assessment) -> None:
    SheetEdit.objects.create(
        assessment=made,
        hidden=["dance"],
        after_steps="Call me.",
        changed_by=made.visit.clinician,
        changed_at=made.visit.happened_at,
    )
    client.force_login(UserFactory.create(role=Role.DESK))
    answer = client.get(reverse("documents:care_sheet", args=[made.uuid]))
    assert "Call me." in paper.whole_text(answer.content)


def test_hard_words_get_a_hint_and_are_stored(client: Client, made: Assessment) -> None:
    hard = "Peristomal maceration necessitates meticulous reapplication of protectants."
    look(client, made)
    assert post(client, made, press="save", after_steps=hard).status_code == 302
    page = look(client, made)
    assert "This reads like school grade" in page
    assert SheetEdit.objects.get().after_steps == hard


def test_the_grade_is_that_of_the_formula() -> None:
    """Kincaid and others 1975; counted by hand: 9 words, 2 sentences, 10 syllables."""
    words = "Wash the skin with warm water. Pat it dry."
    assert grade(words) == pytest.approx(0.39 * 9 / 2 + 11.8 * 10 / 9 - 15.59)
    assert hint(words) == ""
    assert grade("Call me.") is None


def test_the_draft_leads_to_it(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, PLAN)
    draft = made_visits.assessed()
    made_visits.decide(draft, PLAN)
    client.force_login(draft.visit.clinician)
    chart = client.get(reverse("charting:chart", args=[draft.uuid])).content.decode()
    assert 'name="press" value="preview"' in chart
    assert "Not signed yet" in look(client, draft)

"""Every paper of somebody under 16: none shows a figure for adults."""

from __future__ import annotations

import re
from datetime import date
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.documents.care_sheet.build import NO_CHILD_PLAN
from clinic.patients.models import SheetLanguage
from clinic.visits.models import Assessment
from tests.clinic.documents import made_visits, paper
from tests.clinic.plans.signed_visits import accept, reread, sign
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

BORN = date(2017, 4, 5)
#: Amounts, times and sizes for adults, as papers word them; inches follow measured sizes.
ADULT = re.compile(
    r"\blitre|\b(?:2|4|6|24) hours|10 minutes|2 minutes|1000|1500|2000|every \d|"
    r"\b[347] days\b(?<!3 days)|tends to leak|on target|hole is|template",
    re.IGNORECASE,
)


def child(**traits: Any) -> Assessment:
    made: Assessment = AssessmentFactory(
        stoma__patient__date_of_birth=BORN, **(traits or {"leaking": True})
    )
    accept(made)
    sign(made)
    return reread(made)


def get(name: str, *args: Any, role: Role = Role.NURSE) -> Any:
    client = Client()
    client.force_login(UserFactory.create(role=role))
    return client.get(reverse(f"documents:{name}", args=args))


def words_of(answer: Any) -> str:
    if answer["Content-Type"] == "application/pdf":
        return " ".join(paper.whole_text(answer.content).split())
    return " ".join(re.sub(r"<[^>]+>", " ", answer.content.decode()).split())


def test_the_sheet_says_who_plans_what_not_to_do_and_when_to_call() -> None:
    words = words_of(get("care_sheet", child().uuid))
    for said in (
        NO_CHILD_PLAN,
        "Do not push the stoma in. Put nothing into it.",
        "A children's stoma team will plan your care.",
        "bleeds and does not stop while you press",
        "To hear what the children's stoma team has planned.",
        "Your stoma is 30 mm by 28 mm",
    ):
        assert said in words
    assert "step by step" not in words
    assert not ADULT.findall(words)


def test_an_emergency_of_a_child_is_an_emergency_sheet() -> None:
    words = words_of(
        get("care_sheet", child(leaking=True, measurement__colour="black_brown_grey").uuid)
    )
    for said in ("Get help now", "This needs a surgeon now", "Keep a pouch on."):
        assert said in words
    assert not ADULT.findall(words)


@pytest.mark.parametrize("language", [one for one in SheetLanguage if one != "en"])
def test_every_sentence_of_it_is_translated(language: str) -> None:
    """Whatever is charted: nothing is left in English."""
    for traits in (
        {"leaking": True},
        {"leaking": True, "output__symptoms": ["vomiting", "fever"], "output__pain_0_10": 5},
        {"leaking": True, "output__watery_for_hours": 5, "measurement__colour": "dusky"},
    ):
        sheet = made_visits.sheet_of(child(**traits), language=language)
        made_visits.printed(sheet)
        assert not sheet.in_english


def test_the_sheet_before_printing_shows_the_same() -> None:
    words = words_of(get("preview", child().uuid))
    assert NO_CHILD_PLAN.replace("'", "&#x27;") in words


def test_nothing_is_cut_to_the_plan_and_it_says_why() -> None:
    answer = get("cutting_template", child().uuid)
    assert answer.status_code == 409
    assert "there are no sizes for children in these rules" in words_of(answer)


@pytest.mark.parametrize("name", ["supplies", "supply_list", "supply_list_csv"])
def test_the_supply_list_says_why_it_is_empty(name: str) -> None:
    answer = get(name, child().uuid)
    assert answer.status_code == 409
    assert "these rules cover no supplies for children" in words_of(answer)


def test_letter_and_diary_show_none() -> None:
    made = child(leaking=True, output__volume_ml_24h=840)
    letter = words_of(get("visit_letter", made.uuid))
    assert "No rules for children" in letter or "paediatric stoma team" in letter
    assert "840 mL" in letter
    diary = words_of(get("diary", made.stoma.uuid))
    for words in (letter, diary):
        assert not ADULT.findall(words)


def test_papers_of_a_plan_signed_by_the_rules_for_adults_are_held_back() -> None:
    """The date of birth was corrected after the visit."""
    made = made_visits.signed_as_planned("leaking")
    grown = words_of(get("care_sheet", made.uuid))
    assert ADULT.search(grown)
    made.visit.patient.date_of_birth = BORN
    made.visit.patient.record_number = "K-7"  # a number that no one takes for a figure
    made.visit.patient.save()
    words = words_of(get("care_sheet", made.uuid))
    assert NO_CHILD_PLAN in words
    assert not ADULT.findall(words)
    assert get("cutting_template", made.uuid).status_code == 409
    assert get("supply_list", made.uuid).status_code == 409

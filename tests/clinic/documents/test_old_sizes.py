"""A size too old to cut to is said on every paper that tells it (rule R17 of the clinical files:
measured again after 30 days, after 7 while a new stoma shrinks; design values)."""

from datetime import timedelta

import pytest
from django.utils import timezone

from clinic.documents.care_sheet.sizes import measure_again
from clinic.documents.patient_language.said import english, said
from clinic.documents.supply_list.build import supply_list
from clinic.plans.draft_plan import draft_plan
from tests.clinic.documents import made_visits, paper
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(("days", "told"), [(0, False), (30, False), (31, True)])
def test_it_is_said_once_a_settled_stomas_size_is_too_old(days: int, told: bool) -> None:
    made = made_visits.signed_as_planned("leaking")
    measured = timezone.localdate(made.visit.happened_at)
    words = english(measure_again(made_visits.decided(made), measured + timedelta(days=days)))
    assert bool(words) is told
    assert "6 May 2025" in words or not told


def test_sheet_and_supply_list_of_last_year_say_it() -> None:
    made = made_visits.signed_as_planned("leaking")
    text = paper.whole_text(made_visits.printed(made_visits.sheet_of(made)))
    assert "We took your size on 6 May 2025" in text
    assert supply_list(made_visits.decided(made)).measured_long_ago == "6 May 2025"


@pytest.mark.parametrize("language", ["es", "ar"])
def test_it_is_said_in_every_language(language: str) -> None:
    made = made_visits.signed_as_planned("leaking")
    words = said(measure_again(made_visits.decided(made), timezone.localdate()), language)
    assert words
    assert "measure it again" not in words


def test_what_was_never_measured_is_not_called_old() -> None:
    made = AssessmentFactory.create()
    plan = draft_plan(made_visits.fresh(made)).plan
    assert plan is not None
    decided = made_visits.all_accepted(plan, made)
    assert measure_again(decided, timezone.localdate() + timedelta(days=99)) == ""

"""An older paper says that a later visit measured the stoma, or that there is one."""

from datetime import datetime, timedelta
from typing import Any

import pytest
from django.db import connection
from django.template.loader import render_to_string
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils.html import strip_tags

from clinic.accounts.models import Role
from clinic.documents.cutting_template.build import Template, cutting_template
from clinic.documents.cutting_template.template_drawing import Side
from clinic.documents.letter.build import visit_letter
from clinic.documents.letter.views import pages_of
from clinic.documents.models import Kind, PrintedDocument
from clinic.documents.patient_language.said import english
from clinic.documents.printed.superseded import measured_again, seen_again
from clinic.documents.supply_list.build import supply_list
from clinic.plans.draft_plan import draft_plan
from clinic.visits.actions.start import discard_visit
from clinic.visits.models import Assessment, StomaMeasurement
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.made_papers import printed_paper
from tests.clinic.documents.made_templates import printed
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory
from tests.factories.visits import (
    HAPPENED_AT,
    AssessmentFactory,
    SkinAssessmentFactory,
    VisitFactory,
)

pytestmark = pytest.mark.django_db

LATER = HAPPENED_AT + timedelta(days=9)
WORDS = "The stoma was measured again on 15 May 2025"


@pytest.fixture
def old() -> Assessment:
    return made_visits.signed_as_planned("leaking")


def again(
    old: Assessment, at: datetime = LATER, *, signed: bool = True, **sizes: Any
) -> Assessment:
    """A later visit of the same stoma; without ``sizes`` it only looked."""
    visit = VisitFactory.create(patient=old.stoma.patient, happened_at=at)
    made = AssessmentFactory.create(stoma=old.stoma, visit=visit)
    SkinAssessmentFactory.create(assessment=made)
    if sizes:
        StomaMeasurement.objects.create(assessment=made, **sizes)
    if signed:
        plan = draft_plan(made_visits.fresh(made)).plan
        assert plan is not None
        made_visits.decide(made, plan)
        made_visits.sign(made)
    return made


SIZED: dict[str, Any] = {"length_mm": 26, "width_mm": 24}


# --- what counts ----------------------------------------------------------------------------
def test_only_a_size_is_a_measurement(old: Assessment) -> None:
    recorded: tuple[tuple[dict[str, Any], bool], ...] = (
        (SIZED, True),
        ({"widest_mm": 40}, True),
        ({"radii_mm": [15] * 12}, True),
        ({"protrusion_mm": 8}, False),
        ({}, False),
    )
    for sizes, measured in recorded:
        draft = again(old, signed=False, **sizes)
        assert (old.pk in measured_again([old])) is measured, sizes
        discard_visit(visit=draft.visit, by=draft.visit.clinician)


def test_the_newest_of_several_is_shown(old: Assessment) -> None:
    again(old, **SIZED)
    newest = again(old, LATER + timedelta(days=5), **SIZED)
    again(old, LATER + timedelta(days=7))
    found = measured_again([old])[old.pk]
    assert (found.assessment, found.words) == (newest, "20 May 2025")
    assert measured_again([newest]) == {}


def test_a_draft_counts_and_says_so_and_a_discarded_one_does_not(old: Assessment) -> None:
    draft = again(old, signed=False, **SIZED)
    assert measured_again([old])[old.pk].words == "15 May 2025 (not signed yet)"
    assert seen_again([old]) == {}
    discard_visit(visit=draft.visit, by=draft.visit.clinician)
    assert measured_again([old]) == {}


def test_an_earlier_visit_or_another_stoma_is_not_newer(old: Assessment) -> None:
    again(old, HAPPENED_AT - timedelta(days=1), **SIZED)
    other = StomaFactory.create(patient=old.stoma.patient, kind="urostomy")
    visit = VisitFactory.create(patient=old.stoma.patient, happened_at=LATER)
    made = AssessmentFactory.create(stoma=other, visit=visit)
    StomaMeasurement.objects.create(assessment=made, **SIZED)
    assert measured_again([old]) == seen_again([old]) == {}


def test_it_is_one_query_however_many(old: Assessment) -> None:
    more = [old, *(again(old, LATER + timedelta(days=n), **SIZED) for n in range(3))]
    about = list(Assessment.objects.select_related("visit").filter(pk__in=[m.pk for m in more]))
    with CaptureQueriesContext(connection) as asked:
        assert len(measured_again(about)) == 3
    assert len(asked) == 1


# --- papers ---------------------------------------------------------------------------------
def words_of(html: str) -> str:
    return " ".join(strip_tags(html.partition("<body")[2]).split())


def template_text(about: Assessment) -> str:
    made = cutting_template(made_visits.decided(about), side=Side.FRONT, paper="letter")
    assert isinstance(made, Template)
    pages = paper.page_texts(printed(english(made)))
    assert len(pages) == 1
    return pages[0]


def test_a_new_printing_of_an_old_visits_template_says_it_first(old: Assessment) -> None:
    assert "measured again on" not in template_text(old)
    again(old, **SIZED)
    text = template_text(old)
    assert f"{WORDS}: do not cut to this." in text
    assert text.index(WORDS) < text.index("Cut along this line")
    assert "Print the template of the later visit." in text


def test_an_old_supply_list_names_the_later_visit(old: Assessment) -> None:
    def text() -> str:
        listed = supply_list(made_visits.decided(old))
        context = {"list": listed, "paper": "a4"}
        return words_of(render_to_string("documents/supply_list/list.html", context))

    assert "later visit" not in text()
    again(old)
    assert "There is a later visit, of 15 May 2025: order by the list of that visit" in text()


def test_a_letter_about_an_old_visit_is_not_mistaken_for_the_last(old: Assessment) -> None:
    def text() -> str:
        letter = visit_letter(old, made_visits.decided(old), to="The surgeon")
        return words_of(pages_of(letter)[0])

    assert "later visit" not in text()
    again(old)
    assert (
        "There is a later visit, of 15 May 2025: findings and plan here are those of 6 May 2025."
        in text()
    )


# --- pages ----------------------------------------------------------------------------------
def page(client: Client, role: Role, name: str, uuid: object) -> str:
    client.force_login(UserFactory.create(role=role))
    return client.get(reverse(name, args=[uuid])).content.decode()


def test_the_list_of_an_old_visits_papers_says_it(client: Client, old: Assessment) -> None:
    printed_paper(old, Kind.CUTTING_TEMPLATE)
    new = again(old, **SIZED)
    printed_paper(new, Kind.CUTTING_TEMPLATE)
    for role in (Role.NURSE, Role.SURGEON):
        text = page(client, role, "charting:visit", old.visit.uuid)
        assert f"{WORDS}.</b>" in text
        assert text.count("old size") == 1
        text = page(client, role, "charting:visit", new.visit.uuid)
        assert "measured again" not in text
        assert "old size" not in text


def test_so_does_the_desks(client: Client, old: Assessment) -> None:
    printed_paper(old, Kind.CUTTING_TEMPLATE)
    printed_paper(old, Kind.CARE_SHEET)
    printed_paper(again(old, **SIZED), Kind.CUTTING_TEMPLATE)
    text = page(client, Role.DESK, "patients:record", old.visit.patient.uuid)
    assert text.count(WORDS) == 1
    assert text.count("old size") == 1
    assert text.index("Visit of 6 May 2025") < text.index(WORDS)


def test_the_desk_is_warned_before_anything_is_printed(client: Client, old: Assessment) -> None:
    again(old, **SIZED)
    assert not PrintedDocument.objects.exists()
    text = page(client, Role.DESK, "patients:record", old.visit.patient.uuid)
    assert WORDS in text


def test_pages_of_an_old_visit_lead_to_the_later_one(client: Client, old: Assessment) -> None:
    new = made_visits.signed_again(old, LATER)
    for name in ("documents:preview", "documents:supplies"):
        text = page(client, Role.NURSE, name, old.uuid)
        assert "here is a later visit, of 15 May 2025" in text
        assert reverse(name, args=[new.uuid]) in text
        assert "later visit" not in page(client, Role.NURSE, name, new.uuid)

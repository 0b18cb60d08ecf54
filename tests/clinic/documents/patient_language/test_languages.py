"""Sheets in Spanish and Arabic: whole, marked where they are not, with the name of the reviewer."""

import io
import json
import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pytest_django import Settings

from clinic.accounts.models import Role
from clinic.documents.care_sheet.build import ASK_HOW
from clinic.documents.care_sheet.pages import html_of
from clinic.documents.care_sheet.sheet import CHANGED, LEAVE_OFF, NEW, Sheet
from clinic.documents.care_sheet.step_drawings import SHOWS
from clinic.documents.patient_language.english_marks import CLOSE, OPEN, in_english, runs
from clinic.documents.patient_language.localised import texts
from clinic.documents.rendering.pdf_merge import PdfMerge
from clinic.documents.shared import Who
from clinic.follow_up.models import FollowUp
from clinic.patients.models import SheetLanguage
from clinic.referrals.models import Urgency
from clinic.visits.models import Assessment
from planning import Plan, recommend
from planning.results.snapshot import findings_from_dict, history_from_dict
from tests.clinic.documents import made_findings, made_plans, made_visits, paper, reading
from tests.clinic.documents.catalogues import LANGUAGES
from tests.clinic.documents.made_plans import LEAK
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db
CASES = Path(__file__).parents[4] / "fixtures" / "cases"
FRAME = 'class="in-english"'
NOTE = {
    "es": "Las palabras en un recuadro no están traducidas.",
    "ar": "الكلمات داخل إطار غير مترجمة.",
}
REVIEW = {
    "es": "Esta traducción aún debe revisarla un traductor cualificado.",
    "ar": "ما زالت هذه الترجمة تحتاج إلى مراجعة مترجم مؤهل.",
}
REVIEW_ENGLISH = "This translation still needs review by a qualified translator."
#: What the settings and the record put on a sheet as it is.
NBSP = "\N{NO-BREAK SPACE}"
AS_IT_IS = {"Fern Lane Stoma Clinic (invented)", "112", "555-0100", "C", "S", "B"}


@cache
def plans() -> tuple[tuple[str, Plan], ...]:
    """What the planner says over the sweep and the worked cases."""
    found = [(name, recommend(findings)) for name, findings in made_findings.cases()]
    for path in sorted(CASES.glob("*.json")):
        case = json.loads(path.read_text())
        findings = findings_from_dict(case["findings"])
        history = history_from_dict(case["history"]) if case.get("history") else None
        found.append((path.stem, recommend(findings, history) if history else recommend(findings)))
    return tuple(found)


def sheet_for(monkeypatch: pytest.MonkeyPatch, plan: Plan, **decisions: object) -> Sheet:
    """In English; other languages through ``language``."""
    return _made(monkeypatch, plan, "en", **decisions)


def _made(monkeypatch: pytest.MonkeyPatch, plan: Plan, language: str, **decisions: object) -> Sheet:
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed(given_name="Imogen", family_name="Thistledown")
    made_visits.everything_found(made)
    made_visits.decide(made, plan, **decisions)  # type: ignore[arg-type]
    return made_visits.sheet_of(made, language=language)


def english_words(sheet: Sheet) -> Iterator[str]:
    """Texts of a translated sheet that hold Latin letters of more than a record number."""
    for words in texts(replace(sheet, who=Who("", "", ""), language="")):
        if words not in AS_IT_IS and re.search("[A-Za-z]{2}", words):
            yield words


@pytest.mark.parametrize("language", LANGUAGES)
def test_no_sheet_falls_back_to_english(swept: Assessment, language: str) -> None:
    """Over the sweep of findings and every worked case."""
    marked, same = {}, {}
    assert len(plans()) > 90
    for name, plan in plans():
        decided = made_visits.all_accepted(plan, swept)
        sheet = made_visits.sheet_from(decided, language=language)
        english = set(texts(made_visits.sheet_from(decided)))
        if sheet.in_english or FRAME in html_of(sheet).partition('class="reviewed"')[0]:
            marked[name] = sheet.in_english
        untouched = english & set(texts(replace(sheet, who=Who("", "", ""))))
        words = {one for one in untouched - AS_IT_IS if " " in one or one in reading.SYLLABLES}
        if words:
            same[name] = words
    assert not marked
    assert not same


def test_arabic_has_no_latin_letter() -> None:
    made = made_visits.assessed()
    made_visits.everything_found(made)
    made = made_visits.fresh(made)
    for name, plan in plans():
        decided = made_visits.all_accepted(plan, made)
        found = list(english_words(made_visits.sheet_from(decided, language="ar")))
        # Names of drawings, levels and marks, which the page has words for.
        assert not set(found) - {*SHOWS, *Urgency.values, NEW, CHANGED, LEAVE_OFF}, name


@pytest.mark.parametrize("language", LANGUAGES)
def test_every_mark_and_way_round_is_translated(
    monkeypatch: pytest.MonkeyPatch, language: str
) -> None:
    for plan in (LEAK, made_plans.LEAVE_ALONE):
        sheet = _made(monkeypatch, plan, language)
        assert len(sheet.marks) > 12
        assert not [mark for mark in sheet.marks if any(marked for _, marked in runs(mark.words))]


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize("name", made_plans.ALL)
def test_what_no_catalogue_knows_is_marked_and_said(
    monkeypatch: pytest.MonkeyPatch, name: str, language: str
) -> None:
    """The plans made by hand say what the planner does not: nothing of it slips through."""
    plan = made_plans.ALL[name]
    sheet = _made(monkeypatch, plan, language)
    assert sheet.in_english
    for words in sheet.in_english:
        assert re.search("[a-z]", words)
    english = _made(monkeypatch, plan, "en")
    for told, said in zip(sheet.steps, english.steps, strict=True):
        # Found whole in the catalogue, or marked whole.
        assert (sheet.translator.find(said.words) or in_english(said.words)) == told.words
    html = html_of(sheet)
    for words in (NOTE[language], "Words in a frame are not translated. Ask us what they mean."):
        assert words in html
    assert html.count('<span class="in-english" lang="en" dir="ltr">') > len(sheet.steps)


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_clinicians_own_words_stay_as_typed_and_are_marked(
    monkeypatch: pytest.MonkeyPatch, language: str
) -> None:
    plan = dict(plans())["leaking ileostomy"]
    changed = {"opening": "cut the hole 36 mm round"}
    sheet = _made(monkeypatch, plan, language, changed=changed)
    own = "Cut the hole 36 mm (about 1 7/16 inches) round.".replace(" ", NBSP)
    own = re.sub(f"{NBSP}(?!mm|7/16|inches)", " ", own)
    assert sheet.in_english == (own,)
    (line,) = [line for use in sheet.uses for line in use.lines if OPEN in line.words]
    assert line.words.startswith(f"{OPEN}{own}{CLOSE} ")
    assert line.words.endswith(f" {sheet.translator.translate(ASK_HOW)}")
    html = html_of(sheet)
    assert f'<span class="in-english" lang="en" dir="ltr">{OPEN}{own}{CLOSE}</span>' in html
    assert NOTE[language] in html


def test_marks_of_direction_typed_by_hand_are_taken_out() -> None:
    assert in_english(f"a{CLOSE}b{OPEN}c\u202e") == f"{OPEN}abc{CLOSE}"


def test_an_english_sheet_marks_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    html = html_of(sheet_for(monkeypatch, LEAK, changed={"opening": "cut it round"}))
    for words in (FRAME, "in a frame", "translat", OPEN, CLOSE):
        assert words not in html


@pytest.mark.parametrize("language", LANGUAGES)
def test_needs_review_until_a_reviewer_is_named(
    sheet: Sheet, settings: Settings, monkeypatch: pytest.MonkeyPatch, language: str
) -> None:
    plan = dict(plans())["sound"]
    for words in (REVIEW[language], REVIEW_ENGLISH):
        assert words in html_of(_made(monkeypatch, plan, language))
    other = next(code for code in LANGUAGES if code != language)
    settings.SHEET_REVIEWERS = {other: "Rowan Ashgrove"}
    assert REVIEW_ENGLISH in html_of(_made(monkeypatch, plan, language))
    settings.SHEET_REVIEWERS = {language: "Rowan Ashgrove"}
    html = html_of(_made(monkeypatch, plan, language))
    assert REVIEW_ENGLISH not in html
    assert REVIEW[language] not in html
    assert "Rowan Ashgrove" in html
    assert "Rowan" not in html_of(_made(monkeypatch, plan, "en"))


@pytest.mark.parametrize("language", LANGUAGES)
def test_opening_hours_nobody_translated_are_marked(
    monkeypatch: pytest.MonkeyPatch, settings: Settings, language: str
) -> None:
    plan = dict(plans())["sound"]
    assert not _made(monkeypatch, plan, language).in_english
    settings.CLINIC_HOURS_TRANSLATED = {}
    assert _made(monkeypatch, plan, language).in_english == (settings.CLINIC_HOURS,)
    settings.CLINIC_HOURS = ""
    assert not _made(monkeypatch, plan, language).in_english


def test_the_patients_own_language(monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed(sheet_language=SheetLanguage.ARABIC)
    made_visits.decide(made, LEAK)
    assert made_visits.sheet_of(made).language == "ar"
    assert made_visits.sheet_of(made, language="en").language == "en"
    with pytest.raises(ValueError, match="xx"):
        made_visits.sheet_of(made, language="xx")


def test_asked_for_once(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed()
    made_visits.decide(made, LEAK)
    made_visits.sign(made)
    client.force_login(UserFactory.create(role=Role.NURSE))
    people = type(made.visit.patient).objects.filter(pk=made.visit.patient.pk)
    for own, asked, printed in (
        *(("en", "", "en"), ("ar", "", "ar"), ("ar", "es", "es"), ("es", "en", "en")),
        ("es", "nonsense", "es"),
    ):
        people.update(sheet_language=own)
        query = {"language": asked} if asked else {}
        answer = client.get(reverse("documents:care_sheet", args=[made.uuid]), query)
        assert answer.status_code == 200
        content = b"".join(answer) if answer.streaming else answer.content
        root: Any = paper.reader(content).trailer["/Root"]
        assert root["/Lang"] == printed, (own, asked)


def test_words_put_together_in_each_language(monkeypatch: pytest.MonkeyPatch) -> None:
    """Directions, days, sizes and dates are made in the language, not cut out of English."""
    plan = dict(plans())["leaking ileostomy"]
    told = {code: _made(monkeypatch, plan, code) for code in LANGUAGES}
    plain = {c: s.size.replace("\N{NO-BREAK SPACE}", " ") for c, s in told.items()}
    assert plain == {
        "es": "Su estoma mide 30 mm por 26 mm (aprox. 1 3/16 por 1 pulgadas).",
        "ar": "مقاس فغرتك 30 مم في 26 مم (حوالي 1 3/16 في 1 بوصة).",
    }
    assert told["es"].visit_day == "2 de marzo de 2026"
    assert told["ar"].visit_day == "2 مارس 2026"
    assert told["es"].marks[-1].words == "Un pliegue o hundimiento: a su izquierda y a su derecha"
    assert told["ar"].marks[-1].words == "ثنية أو انخفاض: إلى يسارك وإلى يمينك"


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_pages_that_print_say_so_before(
    client: Client, monkeypatch: pytest.MonkeyPatch, settings: Settings, language: str
) -> None:
    plan = dict(plans())["leaking ileostomy"]
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed(sheet_language=language)
    made_visits.decide(made, plan, changed={"opening": "cut it round"})
    made_visits.sign(made)
    client.force_login(UserFactory.create(role=Role.NURSE))
    address = reverse("documents:preview", args=[made.uuid])
    label = SheetLanguage(language).label
    page = client.get(address).content.decode()
    assert f"Prints in {label}: needs review by a qualified translator" in page
    assert "<li>Cut it round.</li>" in page
    assert "Not translated" in page
    settings.SHEET_REVIEWERS = {language: "Rowan Ashgrove"}
    page = client.get(address).content.decode()
    assert "needs review" not in page
    assert "Rowan Ashgrove" in page
    english = client.get(address, {"language": "en"}).content.decode()
    assert "Prints in" not in english
    assert f"{reverse('documents:care_sheet', args=[made.uuid])}?language=en" in english


@pytest.mark.parametrize(("asked", "then"), [("", ""), ("es", "language=es")])
def test_other_papers_go_on_in_the_language_looked_at(
    client: Client, monkeypatch: pytest.MonkeyPatch, asked: str, then: str
) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed(sheet_language="ar")
    made_visits.decide(made, LEAK)
    made_visits.sign(made)
    client.force_login(UserFactory.create(role=Role.NURSE))
    query = {"language": asked} if asked else {}
    page = client.get(reverse("documents:preview", args=[made.uuid]), query).content.decode()
    menu = page.partition("Other papers</summary>")[2].partition("</details>")[0]
    for name, uuid, side in (
        ("care_sheet", made.uuid, ""),
        ("cutting_template", made.uuid, "?side=front"),
        ("cutting_template", made.uuid, "?side=back"),
        ("diary", made.stoma.uuid, ""),
        ("next_visit_card", made.uuid, ""),
    ):
        joined = f"{'&amp;' if side else '?'}{then}" if then else ""
        assert f'"{reverse(f"documents:{name}", args=[uuid])}{side}{joined}"' in menu
    assert "Supply list" in menu
    # These, and the leaf on living with the stoma.
    assert menu.count("language=") == (6 if then else 0)


def test_the_desk_is_told_the_language(client: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed(sheet_language="ar")
    made_visits.decide(made, LEAK)
    made_visits.sign(made)
    client.force_login(UserFactory.create(role=Role.DESK))
    note = f"in {SheetLanguage.ARABIC.label}, needs review by a qualified translator"
    record = client.get(reverse("patients:record", args=[made.visit.patient.uuid]))
    told = record.content.decode().partition("Care sheets, ")[2]
    for words in ("cutting templates", "wear diaries", "next visit cards", f" print {note}."):
        assert words in told
    FollowUp.objects.filter(set_by=made).update(due=timezone.localdate())
    listed = client.get(reverse("documents:day_sheets"))
    assert f"; {note}" in listed.content.decode()


def test_each_sheet_of_the_day_says_its_language(sheet: Sheet) -> None:
    out = io.BytesIO()
    joining = PdfMerge(out, title="Care sheets of the day")
    for code in ("en", "ar", "es"):
        joining.add(made_visits.printed(replace(sheet, language=code)))
    joining.finish()
    elements = paper.structure(out.getvalue())
    found = [str(one["/Lang"]) for one in elements if "/Lang" in one]
    assert found == ["en", "ar", "es"]

"""The wear diary: a month to a page, the wear log's own letters, plain words."""

import re
from datetime import date
from pathlib import Path
from typing import Any

import pytest
import textstat
from django.template.loader import render_to_string
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.patient_language.said import english, said
from clinic.documents.patient_language.translator import translator_for
from clinic.documents.wear_diary.build import REASONS, Diary, days_of, diary
from clinic.patients.models import Patient, SheetLanguage, Site, Stoma, StomaKind
from clinic.visits.choices import RemovalReason
from clinic.visits.wear_log.entry.reasons import LETTERS
from tests.clinic.documents import paper, reading
from tests.clinic.documents.set_once import set_once
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory

MONTHS = (date(2026, 2, 1), date(2028, 2, 1), date(2026, 11, 1), date(2026, 12, 1))
#: Context of the catalogue.
COLUMN = "column of the diary"
LONG = ("Wilhelmina" * 10, "Thistledown" * 9)


def made(
    month: date = MONTHS[3],
    size: str = "a4",
    name: tuple[str, str] = ("Imogen", "Thistledown"),
    *,
    large: bool = False,
    language: str = "en",
) -> Diary[str]:
    stoma = Stoma(
        patient=Patient(
            given_name=name[0],
            family_name=name[1],
            date_of_birth=date(1961, 4, 5),
            record_number="T000001",
        ),
        kind=StomaKind.ILEOSTOMY,
        site=Site.RIGHT_LOWER,
    )
    found: Diary[str] = said(diary(stoma, month=month, paper=size, large=large), language)
    return found


def html_of(one: Diary) -> str:
    return render_to_string("documents/wear_diary/diary.html", {"d": one})


def pdf(*given: Any, **more: Any) -> bytes:
    return set_once(html_of(made(*given, **more)))


def test_letters_are_those_of_the_wear_log() -> None:
    assert {letter: reason for reason, (letter, _, _) in REASONS.items()} == LETTERS
    assert set(REASONS) == set(RemovalReason)


@pytest.mark.parametrize(
    ("month", "size", "large"),
    [
        *((month, "a4", False) for month in MONTHS),
        # The longest month on every paper.
        *((MONTHS[3], *other) for other in (("a4", True), ("letter", False), ("letter", True))),
    ],
)
def test_every_day_of_the_month_is_on_the_first_page(month: date, size: str, large: bool) -> None:
    first = paper.page_texts(pdf(month, size, large=large))[0]
    days = english(days_of(month))
    for day in days:
        assert re.search(rf"\b{day.number} {day.name}\b", first)
    assert f"{len(days) + 1} " not in re.findall(r"\d+ (?=[A-Z][a-z]{2}\b)", first)
    assert f"Wear diary: {month:%B} {month.year}" in first


def test_days_are_named_rightly() -> None:
    """29 February 2028 is a Tuesday; 1 December 2026 a Tuesday."""
    days = english(days_of(date(2028, 2, 1)))
    assert (days[28].name, len(days)) == ("Tue", 29)
    assert english(days_of(date(2026, 12, 1)))[0].name == "Tue"
    assert [d.number for d in days_of(date(2026, 12, 1)) if d.week_starts] == [7, 14, 21, 28]


#: Every language, and either paper: Letter is the shorter, and Spanish has the longest words.
EACH = [("a4", "en"), ("letter", "es"), ("a4", "ar")]


@pytest.mark.parametrize(("size", "language"), EACH)
def test_a_month_is_one_page(size: str, language: str) -> None:
    assert len(paper.page_texts(pdf(MONTHS[3], size, language=language))) == 1


@pytest.mark.parametrize(("size", "language"), EACH)
def test_a_name_of_two_lines_leaves_room_for_whom_to_call(size: str, language: str) -> None:
    name = ("Maximiliana Wilhelmina Theodora", "Featherstonehaugh-Thistledown-Brackwater-Owlsworth")
    texts = paper.page_texts(pdf(MONTHS[3], size, name, language=language))
    assert len(texts) == 1
    assert language == "ar" or {"en": "Who to call", "es": "A quién llamar"}[language] in texts[0]


@pytest.mark.parametrize(("size", "language"), EACH)
def test_large_print_puts_the_words_on_a_second_page(size: str, language: str) -> None:
    found = made(MONTHS[3], size, large=True, language=language)
    texts = paper.page_texts(set_once(html_of(found)))
    assert len(texts) == 2
    if language != "ar":  # its words lie in the file as they are seen
        for reason in found.reasons:
            assert all(reason.name in text for text in texts)


@pytest.mark.parametrize("language", SheetLanguage)
@pytest.mark.parametrize(("large", "least"), [(False, 14), (True, 15.3)])
def test_print_is_large_enough(large: bool, least: float, language: str) -> None:
    """14 pt; in large print 18 pt, save the heads of the narrow columns."""
    translator = translator_for(language)
    heads = [translator.translate(head, COLUMN) for head in ("Day", "On", "Off", "Why")]
    for page in paper.reader(pdf(large=large, language=language)).pages:
        runs = paper.runs(page)
        assert min(run.points for run in runs) >= least - 0.01
        if large:
            small = [run.words for run in runs if run.points < 17.9]
            # Letters of Arabic come apart, and in other shapes.
            assert language == "ar" or all(words in " ".join(heads) for words in small)
            assert len(small) <= 2 * len("".join(heads))


@pytest.mark.parametrize("language", SheetLanguage)
def test_each_day_has_on_off_and_four_letters(language: str) -> None:
    """The wear log's letters, in every language."""
    html = html_of(made(language=language))
    rows = re.findall(r"<tr[^>]*><th scope=\"row\" class=\"day\">.*?</tr>", html, re.DOTALL)
    assert len(rows) == 31
    for row in rows:
        assert re.findall(r'class="tick[^"]*">(.*?)</span>', row) == ["", "", "p", "l", "i", "f"]


def test_boxes_are_big_enough_to_tick() -> None:
    """6.7 mm or more: about the height of a line ruled for handwriting (design value)."""
    css = Path("static/css/diary.css").read_text()
    sizes = re.findall(r"\.tick \{[^}]*width: ([\d.]+)mm; height: ([\d.]+)mm", css)
    assert len(sizes) == 3
    assert min(float(side) for pair in sizes for side in pair) >= 6.7


def test_words_are_plain() -> None:
    """Grade 6 or below by our own count and by textstat 0.7.3."""
    lines = reading.lines_of(html_of(made()))
    said = [line for line in lines if not re.fullmatch(r"(\d+ \w{3}|[plif]|Day|On|Off|Why)", line)]
    assert len(said) >= 6
    assert reading.grade(said) <= 6
    assert reading.words_a_sentence(said) <= 15
    assert textstat.flesch_kincaid_grade(" ".join(f"{line.rstrip('.')}." for line in said)) <= 6


def test_whom_to_call(settings: Any) -> None:
    settings.CLINIC_PHONE, settings.EMERGENCY_NUMBER = "555-0199", "112"
    text = paper.whole_text(pdf())
    assert "555-0199" in text
    assert "In an emergency, call 112" in text
    settings.CLINIC_PHONE = ""
    assert 'class="blank"' in html_of(made())


def test_title_language_tags_and_fonts() -> None:
    one = pdf()
    read = paper.reader(one)
    assert read.metadata is not None
    assert read.metadata.title == "Wear diary"
    assert "Thistledown" not in str(dict(read.metadata))
    assert read.trailer["/Root"]["/Lang"] == "en"  # type: ignore[index]
    assert {"H1", "H2", "Table", "TH", "TD"} <= set(paper.tags(one))
    assert paper.fonts(one) == {"Liberation-Sans", "Liberation-Sans-Bold"}


@pytest.mark.parametrize(
    ("name", "large", "language"),
    [
        (LONG, True, "en"),
        (LONG, False, "es"),
        (LONG, True, "ar"),
        (("Анна", "Иванова"), False, "ar"),
        (("Ελένη", "Ζωγράφου"), True, "en"),
    ],
)
def test_long_names_and_other_scripts_are_whole_on_every_page(
    name: tuple[str, str], large: bool, language: str, tmp_path: Path
) -> None:
    one = pdf(MONTHS[3], "letter", name, large=large, language=language)
    for text in paper.page_texts(one):
        assert "".join(name) in text.replace(" ", "")
        assert language == "ar" or {"en": "5 April", "es": "5 de abril"}[language] in text
        assert "1961" in text
        assert "T000001" in text
    for box in paper.boxes(one, tmp_path):
        # Lines of Arabic are reported with room for marks above and below that are not there.
        room = 0 if language == "ar" else 8
        assert box.top >= room
        assert 28 <= box.left <= box.right <= box.page_width - 28
        assert box.bottom <= box.page_height - room


def test_it_needs_no_colour() -> None:
    colours = set(re.findall(r"#[0-9a-f]{3,6}", Path("static/css/diary.css").read_text()))
    assert colours <= {"#111", "#777"}


# --- the page -------------------------------------------------------------------------------
@pytest.fixture
def stoma(db: None) -> Stoma:
    return StomaFactory.create(patient=PatientFactory.create(large_print=True))


def get(client: Client, stoma: Stoma, role: Role = Role.DESK, **asked: str) -> Any:
    client.force_login(UserFactory.create(role=role))
    return client.get(reverse("documents:diary", args=[stoma.uuid]), asked)


def test_users_who_print_may_print_it_and_it_is_on_record(client: Client, stoma: Stoma) -> None:
    for times, role in enumerate(Role, start=1):
        response = get(client, stoma, role, month="2026-03", print="normal")
        assert response.status_code == 200, role
        assert response["Content-Disposition"].endswith('; filename="wear-diary.pdf"')
        rows = AccessLog.objects.filter(action="printed")
        assert len(rows) == times
        for row in rows:
            assert row.detail == "wear diary, 2026-03"
            assert (row.subject_uuid, row.patient_uuid) == (stoma.uuid, stoma.patient.uuid)


def test_without_a_month_it_is_the_next(client: Client, stoma: Stoma) -> None:
    today = timezone.localdate()
    wanted = date(today.year + today.month // 12, today.month % 12 + 1, 1)
    text = paper.whole_text(get(client, stoma).content)
    assert f"Wear diary: {wanted:%B} {wanted.year}" in text


def test_large_print_is_the_patients_own(client: Client, stoma: Stoma) -> None:
    large = get(client, stoma, month="2026-03").content
    normal = get(client, stoma, month="2026-03", print="normal").content
    assert len(paper.page_texts(large)) == 2
    assert len(paper.page_texts(normal)) == 1


@pytest.mark.parametrize("month", ["2026-13", "March", "2026-3", "2026-03-01", "0001-01"])
def test_no_month_is_guessed(client: Client, stoma: Stoma, month: str) -> None:
    assert get(client, stoma, month=month).status_code == 404


def test_a_closed_stoma_has_none(client: Client, stoma: Stoma) -> None:
    Stoma.objects.filter(pk=stoma.pk).update(closed_on=timezone.localdate())
    assert get(client, stoma).status_code == 404

"""Bad cases on every paper: long and foreign names, missing fonts, missing programs."""

import logging
import os
import subprocess
import sys
import threading
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.documents.models import PrintedDocument
from clinic.documents.rendering import pdf as pdf_module
from clinic.documents.rendering.missing_glyphs import no_font_for
from clinic.documents.rendering.pdf import NOT_INSTALLED, pdf_of
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.visits.models import Assessment
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.made_plans import BARE
from tests.clinic.documents.made_visits import signed_as_planned
from tests.factories.accounts import UserFactory

MM = 72 / 25.4
#: Every paper about a visit, and the diary of its stoma.
PAPERS = ("care_sheet", "cutting_template", "supply_list", "visit_letter", "diary")
LONG = f"{'Wilhelmina' * 4} {'Thistledown' * 4}"[:81]
CYRILLIC = "\N{CYRILLIC CAPITAL LETTER A}\N{CYRILLIC SMALL LETTER EN}"
GREEK = "\N{GREEK CAPITAL LETTER ALPHA}\N{GREEK SMALL LETTER BETA}\N{GREEK SMALL LETTER MU}"
VIETNAMESE = "Nguy\N{LATIN SMALL LETTER E WITH CIRCUMFLEX AND TILDE}n"
COMBINING = "Zoe\N{COMBINING DIAERESIS}"
#: Of many letters, and of many scripts.
SCRIPTS = f"{CYRILLIC}-{GREEK} {VIETNAMESE}-{COMBINING}"


def address(name: str, made: Assessment) -> str:
    uuid = made.stoma.uuid if name == "diary" else made.uuid
    return reverse(f"documents:{name}", args=[uuid])


def called(made: Assessment, given: str, family: str) -> Assessment:
    people = type(made.visit.patient).objects.filter(pk=made.visit.patient.pk)
    people.update(given_name=given, family_name=family)
    return made_visits.fresh(made)


@pytest.fixture
def nurse(client: Client) -> Client:
    client.force_login(UserFactory.create(role=Role.NURSE))
    return client


@pytest.mark.django_db
def test_the_whole_name_is_on_every_page(nurse: Client, tmp_path: Path) -> None:
    """The longest on every paper; their fonts are the same, so other scripts on two of them."""
    made = signed_as_planned("leaking")
    for written, papers in ((LONG, PAPERS), (SCRIPTS, ("care_sheet", "diary"))):
        given, _, family = written.partition(" ")
        made = called(made, given, family)
        whole = made.visit.patient.full_name.replace(" ", "")
        for name in papers:
            answer = nurse.get(address(name, made))
            assert answer["Content-Type"] == "application/pdf", answer.content
            for box in paper.boxes(answer.content, tmp_path):
                assert -0.5 <= box.left <= box.right <= box.page_width + 0.5, (name, written)
                assert -0.5 <= box.top <= box.bottom <= box.page_height + 0.5, (name, written)
            for text in paper.page_texts(answer.content):
                assert whole in text.replace(" ", ""), (name, written)


@pytest.mark.django_db
@pytest.mark.parametrize("large", [False, True])
def test_twelve_findings_are_all_there(nurse: Client, tmp_path: Path, large: bool) -> None:
    made = made_visits.assessed()
    made_visits.everything_found(made)
    plan = made_visits.draft_plan(made_visits.fresh(made)).plan
    assert plan is not None
    made_visits.decide(made, plan)
    asked = {"print": "large" if large else "normal"}
    answer = nurse.get(address("care_sheet", made), asked)
    sheet = made_visits.sheet_of(made, large=large)
    text = "".join(paper.whole_text(answer.content).split())
    assert len(sheet.marks) >= 12
    for mark in sheet.marks:
        assert "".join(mark.words.split()) in text
    for box in paper.boxes(answer.content, tmp_path):
        assert 10 * MM <= box.left <= box.right <= box.page_width - 10 * MM
        assert box.bottom <= box.page_height - 4 * MM


@pytest.mark.django_db
def test_a_plan_with_no_supplies(nurse: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, BARE)
    made = made_visits.assessed()
    made_visits.decide(made, BARE)
    made_visits.sign(made)
    sheet = nurse.get(address("care_sheet", made))
    text = paper.whole_text(sheet.content)
    assert "When to call" in text
    assert "What to use" not in text
    listed = nurse.get(address("supply_list", made))
    assert listed.status_code == 409
    assert "This plan has no supplies to order." in listed.content.decode()
    template = nurse.get(address("cutting_template", made))
    assert template.status_code == 409
    assert nurse.get(reverse("documents:preview", args=[made.uuid])).status_code == 200


@pytest.mark.django_db
def test_without_weasyprint_or_pango_every_paper_says_so(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    missing: list[Exception] = [OSError("cannot load library 'libpango'"), ImportError()]

    def fail() -> None:
        raise missing[0]

    monkeypatch.setattr(pdf_module, "Press", fail)
    monkeypatch.setattr(pdf_module, "_kept", threading.local())
    made = signed_as_planned("leaking")
    for role in (Role.NURSE, Role.DESK):
        client.force_login(UserFactory.create(role=role))
        for name in PAPERS:
            missing.reverse()
            answer = client.get(address(name, made))
            if role == Role.DESK and name == "visit_letter":
                assert answer.status_code == 403
                continue
            assert answer.status_code == 503, (role, name)
            page = answer.content.decode()
            assert NOT_INSTALLED in page
            assert "Nothing is lost" in page
            assert made.visit.patient.record_number in page
    assert not PrintedDocument.objects.exists()
    assert not AccessLog.objects.filter(action="printed").exists()


@pytest.mark.django_db
def test_what_is_stored_opens_without_a_program_to_print(
    nurse: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    made = signed_as_planned("leaking")
    first = nurse.get(address("care_sheet", made)).content
    monkeypatch.setattr(pdf_module, "_kept", threading.local())
    monkeypatch.setattr(pdf_module, "Press", None)
    stored = PrintedDocument.objects.get()
    assert nurse.get(reverse("documents:printed", args=[stored.uuid])).content == first
    assert nurse.get(address("care_sheet", made)).content == first


#: Sets a sheet; a child of it tries the same where no font is.
PROGRAM = """
import os, sys
os.environ.update(CLINIC_MODE="test", DATABASE_URL="postgresql:///unused",
                  DJANGO_SETTINGS_MODULE="clinic.settings")
import django; django.setup()
from clinic.documents.rendering.pdf import pdf_of
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.documents.care_sheet.pages import html_of
from tests.clinic.documents.conftest import SHEET
child = os.fork()
if not child:
    os.environ["FONTCONFIG_FILE"] = sys.argv[1]
    try:
        pdf_of(html_of(SHEET, "a4"))
    except PrintingUnavailable as unavailable:
        print(unavailable, file=sys.stderr, flush=True)
    os._exit(0)
os.waitpid(child, 0)
sys.stdout.buffer.write(pdf_of(html_of(SHEET, "a4")))
"""


def test_another_process_gives_the_same_bytes_and_without_fonts_words(
    sheet: Any, tmp_path: Path
) -> None:
    """Not empty boxes. One program for both: starting it takes longer than the paper."""
    from clinic.documents.care_sheet.pages import html_of

    pdf_of('<html lang="en"><title>x</title><p>Something set before')
    here = pdf_of(html_of(sheet))
    bare = tmp_path / "fonts.conf"
    bare.write_text(f"<fontconfig><dir>{tmp_path}/none</dir></fontconfig>")
    other = str(1 + int(os.environ.get("PYTHONHASHSEED", "0").replace("random", "0")))
    done = subprocess.run(
        [sys.executable, "-W", "ignore", "-c", PROGRAM, str(bare)],
        cwd=settings.BASE_DIR,
        env={**os.environ, "PYTHONHASHSEED": other, "TZ": "Asia/Tokyo"},
        capture_output=True,
        check=True,
    )
    assert done.stdout == here
    assert done.stderr.decode().strip() == pdf_module.NO_FONTS


#: Of the last private plane: no font has it.
UNSET = chr(0x10FFFD)


def test_a_name_no_font_has_is_refused_in_words_and_stays_out_of_the_log(
    caplog: pytest.LogCaptureFixture,
) -> None:
    html = f'<html lang="en"><title>x</title><p>Anna {UNSET}'
    with caplog.at_level(logging.DEBUG), pytest.raises(PrintingUnavailable) as refusal:
        pdf_of(html)
    assert str(refusal.value) == no_font_for([UNSET])
    assert UNSET not in caplog.text
    assert "10FFFD" not in caplog.text


@pytest.mark.parametrize(
    ("letters", "words"),
    [
        ("\u738b\u5c0f\u738b", "Chinese characters"),
        ("\u30a2", "Katakana"),
        (UNSET, "unnamed characters"),
    ],
)
def test_scripts_are_named_in_words(letters: str, words: str) -> None:
    assert f"these letters: {words}. They" in no_font_for(list(letters))


def test_marks_of_direction_leave_no_box() -> None:
    html = '<html lang="en"><title>x</title><p>\u2066Anna\u2069\u200e\u00ad'
    assert "Anna" in paper.whole_text(pdf_of(html))

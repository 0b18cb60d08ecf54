"""The PDF as a PDF: text, pages, tags, title, fonts, sizes; no warnings (see conftest)."""

import logging
import threading
from dataclasses import replace
from pathlib import Path

import pytest
from pytest_django import Settings

from clinic.documents.care_sheet.pages import html_of
from clinic.documents.care_sheet.sheet import Sheet, Step
from clinic.documents.rendering import pdf as pdf_module
from clinic.documents.rendering.pdf import pdf_of
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.documents.shared import Contact
from tests.clinic.documents import paper
from tests.clinic.documents.set_once import set_once

MM = 72 / 25.4


def printed(sheet: Sheet) -> bytes:
    return set_once(html_of(sheet))


def test_title_language_and_tags(sheet: Sheet) -> None:
    pdf = printed(sheet)
    read = paper.reader(pdf)
    root = read.trailer["/Root"]
    assert read.metadata is not None
    assert read.metadata.title == "Care sheet"
    assert root["/Lang"] == "en"  # type: ignore[index]
    assert root["/MarkInfo"]["/Marked"] is not None  # type: ignore[index]
    assert {"H1", "H2", "H3", "L", "LI", "Table", "TH", "TD", "P"} <= set(paper.tags(pdf))
    assert b"pdfuaid" in pdf or b"pdfuaid" in root["/Metadata"].get_data()  # type: ignore[index]


@pytest.mark.parametrize("large", [False, True])
def test_lists_and_tables_hold_what_they_may(sheet: Sheet, large: bool) -> None:
    """ISO 32000-1, 14.8.4.3.3 and 14.8.4.3.4: a list holds items, a table rows or groups of them;
    boxes that only set things side by side leave no tags between."""
    found = paper.nested(printed(replace(sheet, large=large)))
    assert {("L", "LI"), ("Table", "TBody"), ("TBody", "TR"), ("TR", "TH")} <= found
    assert {inner for outer, inner in found if outer == "L"} == {"LI"}
    assert {inner for outer, inner in found if outer == "Table"} == {"TBody"}
    assert {outer for outer, inner in found if inner == "LI"} == {"L"}
    lines = sum(len(group.lines) for group in sheet.call)
    items = paper.tags(printed(replace(sheet, large=large))).count("LI")
    assert items == len(sheet.steps) + len(sheet.marks) * bool(sheet.face) + lines
    assert {outer for outer, inner in found if inner == "TR"} == {"TBody"}


def test_title_names_no_one(sheet: Sheet) -> None:
    """A browser shows and remembers it."""
    metadata = paper.reader(printed(sheet)).metadata
    assert metadata is not None
    assert "Thistledown" not in str(dict(metadata))


def test_fonts_are_sans_serif_upright_and_embedded(sheet: Sheet, long_sheet: Sheet) -> None:
    for one in (sheet, long_sheet):
        assert paper.fonts(printed(one)) == {"Liberation-Sans", "Liberation-Sans-Bold"}


@pytest.mark.parametrize(("large", "least"), [(False, 14), (True, 18)])
def test_no_print_is_smaller_than_said(
    sheet: Sheet, long_sheet: Sheet, large: bool, least: int
) -> None:
    """UK Association for Accessible Formats G003 (2019): 14 pt; RNIB: large print 18 pt."""
    for one in (sheet, long_sheet):
        for page in paper.reader(printed(replace(one, large=large, signed=False))).pages:
            sizes = [run.points for run in paper.runs(page)]
            assert sizes
            assert min(sizes) == pytest.approx(least, abs=0.01)


@pytest.mark.parametrize(("setting", "width_mm"), [("A4", 210), ("Letter", 215.9)])
@pytest.mark.parametrize("large", [False, True])
def test_paper_is_what_the_settings_say(
    settings: Settings, long_sheet: Sheet, setting: str, width_mm: float, large: bool
) -> None:
    settings.PAPER_SIZE = setting
    for page in paper.reader(printed(replace(long_sheet, large=large))).pages:
        assert float(page.mediabox.width) == pytest.approx(width_mm * MM, abs=0.5)


@pytest.mark.parametrize("large", [False, True])
def test_both_identifiers_and_the_number_are_on_every_page(
    sheet: Sheet, long_sheet: Sheet, large: bool
) -> None:
    for one in (sheet, replace(sheet, steps=long_sheet.steps)):
        texts = paper.page_texts(printed(replace(one, large=large)))
        for text in texts:
            for identifier in ("Imogen Thistledown", "5 April 1961", "T000001"):
                assert identifier in text
            assert f"of {len(texts)}" in text
    assert len(texts) >= 2


@pytest.mark.parametrize("size", ["A4", "Letter"])
@pytest.mark.parametrize("large", [False, True])
def test_nothing_is_cut_off(
    settings: Settings, long_sheet: Sheet, tmp_path: Path, size: str, large: bool
) -> None:
    """Not even a name of 80 letters, at the head of any page."""
    settings.PAPER_SIZE = size
    pdf = printed(replace(long_sheet, large=large))
    found = paper.boxes(pdf, tmp_path)
    assert len(found) > 300
    for box in found:
        assert box.left >= 10 * MM
        assert box.right <= box.page_width - 10 * MM
        assert box.top >= 4 * MM
        assert box.bottom <= box.page_height - 4 * MM
    squeezed = "".join(text.replace(" ", "") for text in paper.page_texts(pdf))
    pages = len(paper.reader(pdf).pages)
    assert squeezed.count(long_sheet.who.name.replace(" ", "")) == pages


def test_running_head_stays_clear_of_the_text(long_sheet: Sheet, tmp_path: Path) -> None:
    """Head and text are set apart; they would overlap before anything ran off the page."""
    for large in (False, True):
        found = paper.boxes(printed(replace(long_sheet, large=large)), tmp_path)
        heads = [box for box in found if box.word == long_sheet.who.record_number + "."]
        steps = [box for box in found if box.word == "Step"]
        assert heads
        assert min(step.top for step in steps) > max(head.bottom for head in heads)


def test_lines_hold_60_to_70_characters(long_sheet: Sheet) -> None:
    """Counted on steps of plain words; RNIB clear print names the measure."""
    words = "the skin round your stoma is red and a bit sore on one side so we will see "
    sheet = replace(long_sheet, steps=(), marks=(), skin=words * 20)
    page = paper.reader(printed(sheet)).pages[0]
    lengths = [len(run.words) for run in paper.runs(page) if len(run.words) > 45]
    assert lengths
    assert 58 <= sum(lengths) / len(lengths) <= 70


def test_what_is_not_configured_is_a_line_to_write_on(sheet: Sheet) -> None:
    bare = replace(sheet, contact=Contact("", "", "", ""))
    html = html_of(bare)
    assert html.count('class="blank"') == html_of(sheet).count('class="blank"') + 3
    text = paper.whole_text(printed(bare))
    assert "Your stoma clinic" in text
    assert "not recorded" not in text


def test_what_people_wrote_is_text_and_never_markup(sheet: Sheet) -> None:
    sly = replace(sheet, steps=(Step('<img src="http://example.com/x.png">'),))
    assert "<img src=" in paper.whole_text(printed(sly))


@pytest.mark.parametrize(
    "address",
    [
        "http://example.com/x.css",
        "https://example.com/x.css",
        "file:///etc/hostname",
        "../clinic/settings.py",
        "css/%2e%2e/%2e%2e/manage.py",
        "css/missing.css",
        "data:text/css,body{}",
        "//example.com/css/sheet.css",
    ],
)
def test_nothing_but_our_static_files_is_loaded(address: str) -> None:
    html = f'<html lang="en"><title>x</title><link rel="stylesheet" href="{address}"><p>x'
    with pytest.raises(PrintingUnavailable):
        pdf_of(html)


def test_not_even_a_style_sheet_from_elsewhere(tmp_path: Path) -> None:
    """It exists, it is of a kind we load, and it lies outside our folder."""
    path = tmp_path / "other.css"
    path.write_text("p { color: red }")
    html = f'<html lang="en"><title>x</title><link rel="stylesheet" href="{path.as_uri()}"><p>x'
    with pytest.raises(PrintingUnavailable):
        pdf_of(html)


def test_our_style_sheet_is_loaded(sheet: Sheet) -> None:
    bare = html_of(sheet).replace('<link rel="stylesheet" href="css/sheet.css"/>', "")
    assert paper.fonts(pdf_of(bare)) != paper.fonts(printed(sheet))


@pytest.mark.parametrize("missing", [OSError("cannot load library 'libpango'"), ImportError()])
def test_without_weasyprint_or_pango_there_are_words(
    monkeypatch: pytest.MonkeyPatch, sheet: Sheet, missing: Exception
) -> None:
    def fail() -> None:
        raise missing

    monkeypatch.setattr(pdf_module, "Press", fail)
    monkeypatch.setattr(pdf_module, "_kept", threading.local())
    with pytest.raises(PrintingUnavailable, match="Pango"):
        pdf_of(html_of(sheet))


def test_a_warning_would_be_noticed(caplog: pytest.LogCaptureFixture) -> None:
    """The guard of every test here hears WeasyPrint."""
    pdf_of('<html lang="en"><title>x</title><style>p { colour: red }</style><p>x')
    assert [one for one in caplog.records if one.levelno >= logging.WARNING]
    caplog.clear()

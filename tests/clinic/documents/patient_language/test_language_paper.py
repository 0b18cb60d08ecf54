"""Sheets of other languages as paper: fonts, direction, length, the face never mirrored."""

from collections.abc import Iterator
from dataclasses import replace
from math import inf
from pathlib import Path
from typing import Any

import pytest
from pypdf.generic import ContentStream
from pytest_django import Settings
from weasyprint.formatting_structure.boxes import LineBox

from clinic.documents.care_sheet.pages import html_of
from clinic.documents.care_sheet.sheet import Sheet
from clinic.documents.care_sheet.step_drawings import SHOWS
from clinic.documents.patient_language.english_marks import in_english
from clinic.documents.patient_language.translator import translator_for
from clinic.documents.rendering.clock_face_image import drawing_of
from clinic.documents.rendering.pdf import _set
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.documents.shared import Who
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.catalogues import LANGUAGES
from tests.clinic.documents.made_visits import printed

pytestmark = pytest.mark.django_db
MM = 72 / 25.4
FONTS = {
    "en": {"Liberation-Sans", "Liberation-Sans-Bold"},
    "es": {"Liberation-Sans", "Liberation-Sans-Bold"},
    "ar": {
        *("Liberation-Sans", "Liberation-Sans-Bold"),
        *("Noto-Sans-Arabic", "Noto-Sans-Arabic-Bold"),
    },
}
#: Signs of direction and of vowels, which may be anywhere in the file.
PLAIN = dict.fromkeys((*range(0x200B, 0x2070), *range(0x64B, 0x653)))
ARABIC_NAME = "سمير حسين"


@pytest.fixture(scope="module")
def kept() -> dict[str, Sheet]:
    """Sheets without a row of the database, so that they are made once."""
    return {}


@pytest.fixture
def leaking(settings: Settings, kept: dict[str, Sheet]) -> dict[str, Sheet]:
    """One signed visit in each language, the patient's name in Latin letters."""
    settings.EMERGENCY_NUMBER = "112"
    if not kept:
        made = made_visits.signed_as_planned("leaking")
        kept |= {code: in_language(made, code) for code in ("en", *LANGUAGES)}
    return dict(kept)


def in_language(made: Any, code: str, *, large: bool = False) -> Sheet:
    return made_visits.sheet_of(made, large=large, language=code)


def glyphs(pdf: bytes) -> Iterator[int]:
    """Every glyph drawn, by its number in its font: 0 is the empty box of a missing letter."""
    read = paper.reader(pdf)
    for page in read.pages:
        for operands, operator in ContentStream(page.get_contents(), read).operations:
            if operator == b"TJ":
                shown: list[Any] = [one for one in operands[0] if isinstance(one, str | bytes)]
                for part in shown:
                    raw: bytes = getattr(part, "original_bytes", part)
                    yield from (raw[at] * 256 + raw[at + 1] for at in range(0, len(raw) - 1, 2))


def embedded(pdf: bytes) -> dict[str, bool]:
    found: dict[str, bool] = {}
    for page in paper.reader(pdf).pages:
        resources: Any = page["/Resources"]
        for font in resources["/Font"].values():
            inner = font.get_object()["/DescendantFonts"][0].get_object()
            about = inner["/FontDescriptor"].get_object()
            found[str(about["/FontName"])] = bool({"/FontFile2", "/FontFile3"} & set(about))
    return found


def place(found: list[paper.Box], word: str) -> paper.Box:
    """The first box of a word; Arabic lies in the file as it is seen, from left to right."""
    seen = word[::-1] if any("\u0600" <= sign <= "\u06ff" for sign in word) else word
    return next(box for box in found if box.word.translate(PLAIN) == seen.translate(PLAIN))


@pytest.mark.parametrize("language", ["en", *LANGUAGES])
def test_language_tags_fonts_and_letters(leaking: dict[str, Sheet], language: str) -> None:
    pdf = printed(replace(leaking[language], face=None))
    assert paper.reader(pdf).trailer["/Root"]["/Lang"] == language  # type: ignore[index]
    assert {"H1", "H2", "L", "LI", "Table", "TH", "TD", "P", "Figure"} <= set(paper.tags(pdf))
    assert paper.fonts(pdf) == FONTS[language]
    assert all(embedded(pdf).values())
    drawn = list(glyphs(pdf))
    assert len(drawn) > 1000
    assert 0 not in drawn


def test_a_missing_letter_would_be_noticed(sheet: Sheet) -> None:
    odd = replace(sheet, who=replace(sheet.who, name="\U000e0fff\U00016fff"))
    with pytest.raises(PrintingUnavailable, match="letters"):
        printed(odd)


@pytest.mark.parametrize("language", LANGUAGES)
def test_drawings_are_told_in_the_language(leaking: dict[str, Sheet], language: str) -> None:
    pdf = printed(leaking[language])
    told = [str(one.get("/Alt")) for one in paper.structure(pdf) if one["/S"] == "/Figure"]
    assert translator_for(language).translate(SHOWS["peel"], "picture") in told
    assert not set(told) & set(SHOWS.values())


def test_arabic_runs_from_right_to_left(leaking: dict[str, Sheet], tmp_path: Path) -> None:
    """Head beside the contact box, marks before what is new, numbers before steps, footer."""
    found = paper.boxes(printed(leaking["ar"]), tmp_path)
    assert place(found, "العناية").left > place(found, "كيفية").right
    mark = place(found, "جديد")
    assert mark.right > mark.page_width - 25 * MM
    assert place(found, "اغسل").right < place(found, ".2").left
    page_number = place(found, "الصفحة")
    assert page_number.right < page_number.page_width / 2
    # A fraction is read from left to right inside it.
    part = place(found, "5/16")
    ones = [box for box in found if (box.word, box.top) == ("1", part.top)]
    assert [box for box in ones if 0 < part.left - box.right < 6]
    assert not [box for box in ones if 0 < box.left - part.right < 6]


@pytest.mark.parametrize(
    ("language", "left", "right"),
    [("en", "right", "left"), ("es", "derecha", "izquierda"), ("ar", "يمينك", "يسارك")],
)
def test_the_face_is_never_mirrored(
    leaking: dict[str, Sheet], language: str, left: str, right: str
) -> None:
    """The patient's left stays on the right, as the nurse sees it: words and drawing."""
    html = html_of(leaking[language])
    assert (
        f'class="edge left">{translator_for(language).translate("your right", "edge of the face")}<'
        in html
    )
    assert (
        f'class="edge right">{translator_for(language).translate("your left", "edge of the face")}<'
        in html
    )
    assert left in translator_for(language).translate("your right", "edge of the face")
    assert right in translator_for(language).translate("your left", "edge of the face")
    css = (Path(made_visits.__file__).parents[3] / "static" / "css" / "sheet.css").read_text()
    assert ".edge.left { top: 27.5mm; transform: rotate(-90deg) translateY(-27.5mm); }" in css
    here, english = leaking[language].face, leaking["en"].face
    assert here
    assert english
    assert drawing_of(here) == drawing_of(english)
    assert b"<path" in drawing_of(here)
    assert "scale(-1" not in html + css


@pytest.mark.parametrize("situation", ["well_fitting", "leaking", "retracted"])
def test_two_pages_as_in_english(situation: str) -> None:
    made = made_visits.signed_as_planned(situation)
    # The first sheet of somebody for whom everything is new keeps its drawings: a third side.
    # It is the longest in large print, too.
    longest = situation == "leaking"
    for language in LANGUAGES:
        pdf = printed(in_language(made, language))
        assert len(paper.reader(pdf).pages) <= (3 if longest else 2)
        for page in paper.page_texts(pdf):
            assert made.visit.patient.record_number in page
        if longest:
            large = printed(in_language(made, language, large=True))
            assert len(paper.reader(large).pages) <= 6


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(("size", "large"), [("A4", True), ("Letter", False)])
def test_nothing_is_cut_off(
    leaking: dict[str, Sheet],
    settings: Settings,
    tmp_path: Path,
    language: str,
    large: bool,
    size: str,
) -> None:
    """With the longest name and a run of English that must break."""
    settings.PAPER_SIZE = size
    sheet = leaking[language]
    long = in_english("Cut it round. " * 30 + "W" * 90)
    who = replace(sheet.who, name=f"{'Wilhelmina' * 4} {'Thistledown' * 4}"[:81])
    odd = replace(sheet, large=large, who=who, keep=long, signed=False)
    found = paper.boxes(printed(odd), tmp_path)
    assert len(found) > 300
    for box in found:
        assert box.left >= 10 * MM
        assert box.right <= box.page_width - 10 * MM
        # Lines of Arabic are reported with room for marks above and below that are not there.
        assert box.top >= 0
        assert box.bottom <= box.page_height


@pytest.mark.parametrize("language", ["en", *LANGUAGES])
@pytest.mark.parametrize("large", [False, True])
def test_lines_keep_to_their_room(leaking: dict[str, Sheet], language: str, *, large: bool) -> None:
    """Or a step's first line prints over its drawing. A number or bullet hangs at the start."""
    sheet = replace(leaking[language], large=large)
    long = tuple(replace(step, words=f"{step.words} {step.words}") for step in sheet.steps)
    pages = _set(html_of(replace(sheet, steps=long))).pages
    boxes = [box for page in pages for box in page._page_box.descendants()]
    rooms = [box for box in boxes if box.element_tag in {"p", "li"}]
    lines = [(room, line) for room in rooms for line in room.children if isinstance(line, LineBox)]
    assert len(lines) > 50
    for room, line in lines:
        words = [part for part in line.descendants() if getattr(part, "text", "").strip()]
        left = min((part.position_x for part in words), default=inf)
        right = max((part.position_x + part.width for part in words), default=0)
        start, end = room.content_box_x(), room.content_box_x() + room.width
        assert left > start - 0.1 if language == "ar" else right < end + 0.1


@pytest.mark.parametrize(("language", "least"), [("es", 14), ("ar", 14), ("ar", 18)])
def test_no_print_is_smaller_than_said(
    leaking: dict[str, Sheet], language: str, least: int
) -> None:
    sheet = replace(leaking[language], large=least == 18, face=None)
    for page in paper.reader(printed(sheet)).pages:
        assert min(run.points for run in paper.runs(page)) == pytest.approx(least, abs=0.01)


@pytest.mark.parametrize("language", ["en", *LANGUAGES])
def test_a_name_of_any_script(leaking: dict[str, Sheet], tmp_path: Path, language: str) -> None:
    """It is whole on every page and leaves the words beside it in their order."""
    sheet = leaking[language]
    named = replace(sheet, who=Who(ARABIC_NAME, sheet.who.born, sheet.who.record_number))
    pdf = printed(named)
    assert 0 not in list(glyphs(pdf))
    found = paper.boxes(pdf, tmp_path)
    first, last = (place(found, word) for word in ARABIC_NAME.split())
    assert first.left > last.right
    heads = [b for b in found if sheet.who.record_number in b.word and b.top < 30 * MM]
    assert heads
    running = heads[-1]
    names = [b for b in found if b.word == ARABIC_NAME.split()[0][::-1]]
    assert (names[-1].left > running.right) == (language == "ar")

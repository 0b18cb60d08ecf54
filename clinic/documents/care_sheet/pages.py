"""A care sheet as pages of HTML, and what is put on record of it."""

from __future__ import annotations

from django.template.loader import render_to_string

from clinic.documents.care_sheet.density import spacings
from clinic.documents.care_sheet.sheet import Sheet
from clinic.documents.care_sheet.sheet_edit import EditedSheet
from clinic.documents.models import Kind
from clinic.documents.patient_language.said import said
from clinic.documents.patient_language.unsaid import Joined, Phrase
from clinic.documents.printed.responses import Paper, own_size
from clinic.visits.models import Assessment

LARGE = "large print"
#: Identifiers longer than this take two lines at the head of a page (measured at 14 and 18 pt).
LONG_HEAD = 74


def sheet_paper(stored: Assessment, sheet: Sheet[str]) -> Paper:
    """The care sheet of one assessment, in the language it is written in."""
    return Paper(Kind.CARE_SHEET, stored, own_size(), language=sheet.language)


def detail_of(edited: EditedSheet[str]) -> str:
    """Which variant, without anything it says."""
    return LARGE if edited.sheet.large else ""


def html_of(sheet: Sheet[str], paper: str = "") -> str:
    """The sheet as a page for WeasyPrint, as open as it is likely to be printed."""
    return pages_of(sheet, paper)[0]


def pages_of(sheet: Sheet[str], paper: str = "") -> tuple[str, ...]:
    """The sheet as pages for WeasyPrint, on the clinic's own ``paper`` unless another is named:
    the first that keeps to ``most_pages`` is the one to print."""
    first, *closer = spacings(sheet)
    context = {
        "sheet": sheet,
        "paper": paper or own_size(),
        "spacing": first,
        "head": head_of(sheet),
    }
    page = render_to_string("documents/care_sheet/sheet.html", context)
    spaced = 'class="{}"'
    others = (page.replace(spaced.format(first), spaced.format(one), 1) for one in closer)
    return (page, *others)


def head_of(sheet: Sheet[str]) -> str:
    """How much room the identifiers need on top of every page after the first."""
    who = sheet.who
    born = Phrase.of("Born {day}", day=who.born)
    number = Phrase.of("Record {number}", number=who.record_number)
    told = said(Joined((who.name, born, number)), sheet.language)
    return ("low", "tall", "tallest")[sheet.large + (len(told) > LONG_HEAD)]

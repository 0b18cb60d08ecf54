"""A care sheet as pages of HTML, and what is put on record of it."""

from __future__ import annotations

from django.template.loader import render_to_string

from clinic.documents.care_sheet.density import spacings
from clinic.documents.care_sheet.sheet import Sheet
from clinic.documents.care_sheet.sheet_edit import EditedSheet
from clinic.documents.models import Kind
from clinic.documents.printed.responses import Paper, own_size
from clinic.visits.models import Assessment

LARGE = "large print"


def sheet_paper(stored: Assessment, sheet: Sheet) -> Paper:
    """The care sheet of one assessment, in the language it is written in."""
    return Paper(Kind.CARE_SHEET, stored, own_size(), language=sheet.language)


def detail_of(edited: EditedSheet) -> str:
    """Which variant, without anything it says."""
    return LARGE if edited.sheet.large else ""


def html_of(sheet: Sheet) -> str:
    """The sheet as a page for WeasyPrint, as open as it is likely to be printed."""
    return pages_of(sheet)[0]


def pages_of(sheet: Sheet) -> tuple[str, ...]:
    """The sheet as pages for WeasyPrint, on the paper the settings name: the first that keeps to
    ``most_pages`` is the one to print."""
    first, *closer = spacings(sheet)
    page = render_to_string(
        "documents/care_sheet/sheet.html", {"sheet": sheet, "paper": own_size(), "spacing": first}
    )
    spaced = 'class="{}"'
    others = (page.replace(spaced.format(first), spaced.format(one), 1) for one in closer)
    return (page, *others)

"""Print what a visit decided."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.documents.answers import Paper, own_size, printable, printed_answer
from clinic.documents.edited import EditedSheet, edit_of, edited_sheet
from clinic.documents.models import Kind
from clinic.documents.sheet import Sheet
from clinic.documents.spacing import most_pages, spacings
from clinic.patients.models import SheetLanguage
from clinic.plans.decided import Decided, DecidedPlan, decided_plan
from clinic.visits.models import Assessment

#: What ``?print=`` may ask for; anything else is as the sheet or its patient has it.
SIZES = {"large": True, "normal": False}
LARGE = "large print"


@require_GET
@needs(Right.PRINT)
def care_sheet(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """The take-home sheet as PDF, as edited; ``?print=large`` or ``normal`` overrules its size,
    ``?language=`` with a code its language.

    Where part of an edit no longer fits the plan, whoever may mend it is shown that first.
    """
    stored = printable(request, assessment)
    decided = decided_plan(stored)
    if decided is None or decided.open_items:
        return decide_first(request, stored, decided)
    large = SIZES.get(request.GET.get("print", ""))
    asked = asked_language(request)
    edited = edited_sheet(decided, edit_of(stored), large=large, language=asked)
    if edited.notices and may(request.user, Right.CHART):
        return redirect("documents:preview", stored.uuid)
    sheet = edited.sheet
    paper = sheet_paper(stored, sheet)
    pages, most = pages_of(sheet), most_pages(sheet)
    return printed_answer(request, paper, pages, detail_of(edited), at_most=most)


def asked_language(request: HttpRequest) -> str:
    """For this once; "", or anything that is no language of sheets, is the patient's own."""
    asked = request.GET.get("language", "")
    return asked if asked in SheetLanguage.values else ""


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
        "documents/care_sheet.html", {"sheet": sheet, "paper": own_size(), "spacing": first}
    )
    spaced = 'class="{}"'
    others = (page.replace(spaced.format(first), spaced.format(one), 1) for one in closer)
    return (page, *others)


def decide_first(
    request: HttpRequest, stored: Assessment, decided: DecidedPlan | None
) -> HttpResponse:
    """What stands in the way of any sheet: it, too, shows whose visit it is."""
    undecided: tuple[Decided, ...] = decided.open_items if decided else ()
    record(
        request_or_actor=request,
        action="opened to print",
        subject=stored,
        patient=stored.visit.patient,
        detail="decide first",
    )
    context = {"assessment": stored, "patient": stored.visit.patient, "undecided": undecided}
    return render(request, "documents/decide_first.html", context, status=409)

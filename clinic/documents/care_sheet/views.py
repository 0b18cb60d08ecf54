"""Print what a visit decided."""

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.documents.care_sheet.density import most_pages
from clinic.documents.care_sheet.pages import detail_of, pages_of, sheet_paper
from clinic.documents.care_sheet.sheet_edit import EditedSheet, edit_of, edited_sheet
from clinic.documents.patient_language.said import said
from clinic.documents.printed.responses import language_of, printable, printed_answer
from clinic.plans.decided_item import Decided
from clinic.plans.plan_with_decisions import DecidedPlan, decided_plan
from clinic.visits.models import Assessment

#: What ``?print=`` may ask for; anything else is as the sheet or its patient has it.
SIZES = {"large": True, "normal": False}


@require_GET
@needs(Right.PRINT)
def care_sheet(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """The take-home sheet as PDF, as edited; ``?print=large`` or ``normal`` overrules its size,
    ``?language=`` with a code its language.

    Where part of an edit no longer fits the plan, users who may fix it are shown that first.
    """
    stored = printable(request, assessment)
    decided = decided_plan(stored)
    if decided is None or decided.open_items:
        return decide_first(request, stored, decided)
    large = SIZES.get(request.GET.get("print", ""))
    built = edited_sheet(decided, edit_of(stored), large=large)
    edited: EditedSheet[str] = said(built, language_of(request, stored.visit.patient))
    if edited.notices and may(request.user, Right.CHART):
        return redirect("documents:preview", stored.uuid)
    sheet = edited.sheet
    paper = sheet_paper(stored, sheet)
    pages, most = pages_of(sheet), most_pages(sheet)
    return printed_answer(request, paper, pages, detail_of(edited), at_most=most)


def decide_first(
    request: HttpRequest, stored: Assessment, decided: DecidedPlan | None
) -> HttpResponse:
    """Why no sheet can be made; this page, too, shows whose visit it is."""
    undecided: tuple[Decided, ...] = decided.open_items if decided else ()
    record(
        request_or_actor=request,
        action="opened to print",
        subject=stored,
        patient=stored.visit.patient,
        detail="decide first",
    )
    context = {"assessment": stored, "patient": stored.visit.patient, "undecided": undecided}
    return render(request, "documents/care_sheet/decide_first.html", context, status=409)

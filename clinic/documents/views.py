"""Print what a visit decided."""

from uuid import UUID

from django.conf import settings
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.template.loader import render_to_string
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.documents.care_sheet import care_sheet as sheet_of
from clinic.documents.pdf import PrintingUnavailable, pdf_of
from clinic.documents.policies import may_print
from clinic.documents.sheet import Sheet
from clinic.plans.decided import Decided, decided_plan
from clinic.visits.choices import VisitState
from clinic.visits.history import with_parts
from clinic.visits.models import Assessment


@require_GET
@needs(Right.PRINT)
def care_sheet(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """The take-home sheet as PDF; ``?print=large`` or ``normal`` overrules the patient's own."""
    stored = get_object_or_404(
        with_parts().exclude(visit__state=VisitState.DISCARDED), uuid=assessment
    )
    if not may_print(request.user, stored.visit):  # type: ignore[arg-type]
        raise PermissionDenied
    decided = decided_plan(stored)
    if decided is None or decided.open_items:
        return _decide_first(request, stored, decided.open_items if decided else ())
    sheet = sheet_of(decided, large=_large(request, stored))
    try:
        pdf = pdf_of(html_of(sheet))
    except PrintingUnavailable as unavailable:
        return _unavailable(request, stored, str(unavailable))
    record(
        request_or_actor=request,
        action="printed",
        subject=stored,
        patient=stored.visit.patient,
        detail="care sheet, large print" if sheet.large else "care sheet",
    )
    return HttpResponse(
        pdf,
        content_type="application/pdf",
        headers={"Content-Disposition": 'inline; filename="care-sheet.pdf"'},
    )


def _large(request: HttpRequest, stored: Assessment) -> bool:
    asked = request.GET.get("print", "")
    return asked == "large" or (asked != "normal" and stored.visit.patient.large_print)


def html_of(sheet: Sheet) -> str:
    """The sheet as a page for WeasyPrint, on the paper the settings name."""
    context = {"sheet": sheet, "paper": settings.PAPER_SIZE.lower()}
    return render_to_string("documents/care_sheet.html", context)


def _decide_first(
    request: HttpRequest, stored: Assessment, undecided: tuple[Decided, ...]
) -> HttpResponse:
    _opened(request, stored, "decide first")
    context = {"assessment": stored, "patient": stored.visit.patient, "undecided": undecided}
    return render(request, "documents/decide_first.html", context, status=409)


def _unavailable(request: HttpRequest, stored: Assessment, why: str) -> HttpResponse:
    _opened(request, stored, "printing unavailable")
    context = {"assessment": stored, "patient": stored.visit.patient, "why": why}
    return render(request, "documents/unavailable.html", context, status=503)


def _opened(request: HttpRequest, stored: Assessment, instead: str) -> None:
    """Put on record a page shown in place of the sheet: it, too, shows whose visit it is."""
    record(
        request_or_actor=request,
        action="opened to print",
        subject=stored,
        patient=stored.visit.patient,
        detail=instead,
    )

"""Print a month of the wear diary."""

from datetime import date
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.utils import timezone
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.documents.models import Kind
from clinic.documents.patient_language.said import said
from clinic.documents.printed.responses import (
    Paper,
    asked_large,
    language_of,
    paper_size,
    pdf_answer,
)
from clinic.documents.wear_diary.build import Diary, month_of, next_month
from clinic.documents.wear_diary.build import diary as diary_of
from clinic.patients.models import Stoma


@require_GET
@needs(Right.PRINT)
def diary(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """``?month=2026-03`` (else the month after today), ``?print=large`` or ``normal`` (else as
    the patient needs it), ``?paper=a4`` or ``letter``, ``?language=`` with a code (else that of the
    patient's sheets). A closed stoma has no diary."""
    found = get_object_or_404(
        Stoma.objects.filter(closed_on__isnull=True).select_related("patient"), uuid=stoma
    )
    month = _month(request)
    large = asked_large(request, found.patient)
    size = paper_size(request)
    built = diary_of(found, month=month, paper=size, large=large)
    made: Diary[str] = said(built, language_of(request, found.patient))
    paper = Paper(Kind.DIARY, found, size, language=made.language)
    detail = f"{month:%Y-%m}{', large print' if large else ''}"
    return pdf_answer(request, paper, "documents/wear_diary/diary.html", {"d": made}, detail)


def _month(request: HttpRequest) -> date:
    """404 for what is no month: a diary of a guessed month would be filled in wrongly."""
    asked = request.GET.get("month", "")
    if not asked:
        return next_month(timezone.localdate())
    month = month_of(asked)
    if month is None:
        raise Http404("No such month.")
    return month

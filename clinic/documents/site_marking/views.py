"""Print a marking before surgery. A marking never changes, so no copy of the paper is kept."""

from __future__ import annotations

from uuid import UUID

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.template.loader import render_to_string
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.documents.patient_language.said import english
from clinic.documents.printed.responses import cannot_print, file_answer, paper_size
from clinic.documents.rendering.pdf import pdf_of
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.documents.shared import contact, who
from clinic.site_marking.queries import stored_markings
from clinic.site_marking.shown import shown

NAME = "site marking"


@require_GET
@needs(Right.SEE_CLINICAL)
def site_marking(request: HttpRequest, marking: UUID) -> HttpResponse:
    """``?paper=a4`` or ``letter``; else as the clinic has it. In English, for colleagues."""
    found = get_object_or_404(stored_markings(), uuid=marking)
    if found.withdrawn_why:
        raise PermissionDenied  # no one may operate by it
    context = {
        "shown": shown(found),
        "marking": found,
        "who": english(who(found.patient)),
        "contact": english(contact()),
        "paper": paper_size(request),
    }
    try:
        made = pdf_of(render_to_string("documents/site_marking/marking.html", context))
    except PrintingUnavailable as unavailable:
        return cannot_print(request, unavailable, NAME, found.patient)
    record(request_or_actor=request, action="printed", subject=found)
    return file_answer(made, "site-marking.pdf")

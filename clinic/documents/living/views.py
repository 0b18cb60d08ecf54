"""Print the leaf about living with the stoma."""

from __future__ import annotations

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.documents.kinds import Kind
from clinic.documents.living.build import Leaf, content_of, leaf
from clinic.documents.living.due import CARE_SHEET, EMERGENCY, why_none
from clinic.documents.living.pages import detail_of, html_of
from clinic.documents.patient_language.said import said
from clinic.documents.printed.responses import (
    Paper,
    asked_large,
    decided_or_page,
    language_of,
    no_paper,
    paper_size,
    printable,
    printed_answer,
)


@require_GET
@needs(Right.PRINT)
def living(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """``?print=large`` or ``normal``, ``?paper=a4`` or ``letter``, ``?language=`` with a code; else
    as the patient and the clinic have it."""
    stored = printable(request, assessment)
    paper = Paper(Kind.LIVING, stored, paper_size(request))
    decided = decided_or_page(request, paper)
    if isinstance(decided, HttpResponse):
        return decided
    if why := why_none(decided):
        return no_paper(request, paper, why, instead=CARE_SHEET if why == EMERGENCY else "")
    built = leaf(decided, paper=paper.size, large=asked_large(request, paper.patient))
    made: Leaf[str] = said(built, language_of(request, paper.patient))
    content = content_of(decided)
    paper = Paper(paper.kind, stored, paper.size, language=made.language, content=content)
    return printed_answer(request, paper, [html_of(made)], detail_of(made))

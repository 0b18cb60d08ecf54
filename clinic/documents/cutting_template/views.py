"""Print the cutting template of a visit."""

from dataclasses import replace
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.documents.cutting_template.build import NoTemplate, Template
from clinic.documents.cutting_template.build import cutting_template as template_of
from clinic.documents.cutting_template.template_drawing import Side
from clinic.documents.models import Kind
from clinic.documents.patient_language.said import said
from clinic.documents.printed.responses import (
    Paper,
    decided_or_page,
    language_of,
    no_paper,
    one_of,
    paper_size,
    pdf_answer,
    printable,
)


@require_GET
@needs(Right.PRINT)
def cutting_template(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """At true scale; ``?side=front`` or ``back`` (mirrored), ``?paper=a4`` or ``letter``,
    ``?language=`` with a code (else that of the patient's sheets)."""
    side = Side(one_of(request.GET.get("side") or Side.FRONT, list(Side)))
    size = paper_size(request)
    stored = printable(request, assessment)
    paper = Paper(Kind.CUTTING_TEMPLATE, stored, size)
    decided = decided_or_page(request, paper)
    if isinstance(decided, HttpResponse):
        return decided
    built = template_of(decided, side=side, paper=size)
    if isinstance(built, NoTemplate):
        return no_paper(request, paper, built.why, instead=built.instead)
    template: Template[str] = said(built, language_of(request, paper.patient))
    paper = replace(paper, language=template.language)
    detail = f"{side} of the barrier, {size}"
    return pdf_answer(
        request, paper, "documents/cutting_template/template.html", {"t": template}, detail
    )

"""What a request to print gets: a PDF put on record, or a page that says why there is none."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.conf import settings
from django.core.exceptions import PermissionDenied
from django.db.models import Model
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.template.loader import render_to_string

from clinic.audit.record import record
from clinic.documents import pdf
from clinic.documents.policies import may_print
from clinic.patients.models import Patient
from clinic.plans.decided import DecidedPlan, decided_plan
from clinic.visits.choices import VisitState
from clinic.visits.history import with_parts
from clinic.visits.models import Assessment

PAPERS = ("a4", "letter")


@dataclass(frozen=True)
class Paper:
    """One kind of paper about one record. ``name`` for the audit trail and the page's words."""

    name: str
    subject: Model
    patient: Patient

    @property
    def file_name(self) -> str:
        """Names nobody."""
        return f"{self.name.replace(' ', '-')}.pdf"


def paper_size(request: HttpRequest) -> str:
    """a4 or letter: as asked with ``?paper=``, else the clinic's own. Anything else: 404."""
    return one_of(request.GET.get("paper") or settings.PAPER_SIZE.lower(), PAPERS)


def one_of(asked: str, known: Iterable[str]) -> str:
    """``asked`` where it is known; a page printed from a guess would be the wrong one."""
    if asked not in known:
        raise Http404("No such paper.")
    return asked


def printable(request: HttpRequest, uuid: Any) -> Assessment:
    """The assessment, for whoever may print its papers: 404 or 403 otherwise."""
    stored = get_object_or_404(
        with_parts()
        .exclude(visit__state=VisitState.DISCARDED)
        .prefetch_related("decisions", "codes__chosen_by"),
        uuid=uuid,
    )
    if not may_print(request.user, stored.visit):  # type: ignore[arg-type]
        raise PermissionDenied
    return stored


def decided_or_page(
    request: HttpRequest, paper: Paper, stored: Assessment
) -> DecidedPlan | HttpResponse:
    """The plan once everything is decided; else the page that says what to decide first."""
    decided = decided_plan(stored)
    if decided is None:
        return no_paper(
            request,
            paper,
            "Some entries of this visit contradict each other, so there is no plan to print yet. "
            "The visit page says which.",
        )
    if decided.open_items:
        open_texts = [item.text for item in decided.open_items]
        return no_paper(
            request, paper, "Decide first: these items of the plan are still open.", open_texts
        )
    return decided.taken_as_said()


def pdf_answer(
    request: HttpRequest, paper: Paper, template: str, context: dict[str, Any], detail: str = ""
) -> HttpResponse:
    """The PDF, put on record as printed."""
    try:
        made = pdf.pdf_of(render_to_string(template, context))
    except pdf.PrintingUnavailable as unavailable:
        return no_paper(request, paper, str(unavailable), status=503)
    _record(request, paper, "printed", ", ".join(filter(None, (paper.name, detail))))
    return HttpResponse(
        made,
        content_type="application/pdf",
        headers={"Content-Disposition": f'inline; filename="{paper.file_name}"'},
    )


def csv_answer(request: HttpRequest, paper: Paper, made: bytes) -> HttpResponse:
    """A table to save, put on record as exported."""
    _record(request, paper, "exported", f"{paper.name}, CSV")
    name = paper.file_name.replace(".pdf", ".csv")
    return HttpResponse(
        made,
        content_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )


def no_paper(
    request: HttpRequest,
    paper: Paper,
    why: str,
    lines: Iterable[str] = (),
    *,
    instead: str = "",
    status: int = 409,
) -> HttpResponse:
    """A page in place of the paper: it, too, shows whose record it is."""
    _record(request, paper, "opened to print", f"no {paper.name}")
    visit = getattr(paper.subject, "visit", None)
    context = {
        "patient": paper.patient,
        "visit": visit,
        "assessment": paper.subject if visit else None,
        "name": paper.name,
        "why": why,
        "lines": tuple(lines),
        "instead": instead,
        # Without a program to print there is nothing to hide.
        "clinical": status == 409,
    }
    return render(request, "documents/no_paper.html", context, status=status)


def _record(request: HttpRequest, paper: Paper, action: str, detail: str) -> None:
    record(
        request_or_actor=request,
        action=action,
        subject=paper.subject,
        patient=paper.patient,
        detail=detail,
    )

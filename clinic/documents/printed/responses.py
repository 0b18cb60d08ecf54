"""What a request to print gets: a PDF put on record, or a page that says why there is none."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.template.loader import render_to_string

from clinic.audit.record import record
from clinic.clinic_details.current import current
from clinic.documents.models import Kind
from clinic.documents.printed.actions import Printing, put_on_record
from clinic.documents.printed.policies import may_print
from clinic.documents.rendering.cache import stored_file
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.patients.models import Patient, SheetLanguage, Stoma
from clinic.plans.plan_with_decisions import DecidedPlan, decided_plan
from clinic.referrals.models import Referral
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts

PAPERS = ("a4", "letter")
#: Seconds; a full sheet takes one or two.
ASK_AGAIN = 5


@dataclass(frozen=True)
class Paper:
    """One kind of paper about one visit, or for a diary about one stoma. ``content`` as of a
    ``Printing``."""

    kind: Kind
    subject: Assessment | Stoma
    #: a4 or letter.
    size: str
    referral: Referral | None = None
    language: str = "en"
    content: str = ""

    @property
    def name(self) -> str:
        """For the audit trail and the page's words."""
        return self.kind.label.lower()

    @property
    def stoma(self) -> Stoma:
        return self.subject if isinstance(self.subject, Stoma) else self.subject.stoma

    @property
    def assessment(self) -> Assessment | None:
        return None if isinstance(self.subject, Stoma) else self.subject

    @property
    def patient(self) -> Patient:
        return self.stoma.patient

    @property
    def file_name(self) -> str:
        """Names no one."""
        return f"{self.name.replace(' ', '-')}.pdf"


def paper_size(request: HttpRequest) -> str:
    """a4 or letter: as asked with ``?paper=``, else the clinic's own. Anything else: 404."""
    return one_of(request.GET.get("paper") or own_size(), PAPERS)


def own_size() -> str:
    """The clinic's own paper."""
    return current().paper_size.lower()


def one_of(asked: str, known: Iterable[str]) -> str:
    """``asked`` where it is known; a page printed from a guess would be the wrong one."""
    if asked not in known:
        raise Http404("No such paper.")
    return asked


def printable(request: HttpRequest, uuid: Any) -> Assessment:
    """The assessment, for anyone who may print its papers: 404 or 403 otherwise."""
    stored = get_object_or_404(
        with_parts()
        .with_rows("decisions")
        .exclude(visit__state=VisitState.DISCARDED)
        .prefetch_related("codes__chosen_by"),
        uuid=uuid,
    )
    if not may_print(request.user, stored.visit):  # type: ignore[arg-type]
        raise PermissionDenied
    return stored


def decided_or_page(request: HttpRequest, paper: Paper) -> DecidedPlan | HttpResponse:
    """The plan once everything is decided; else the page that says what to decide first."""
    if paper.assessment is None:
        raise ValueError("This document does not belong to a visit.")
    decided = decided_plan(paper.assessment)
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
    return decided.accepted_by_default()


def pdf_answer(
    request: HttpRequest, paper: Paper, template: str, context: dict[str, Any], detail: str = ""
) -> HttpResponse:
    """The PDF of one page of HTML, put on record and stored as printed."""
    return printed_answer(request, paper, [render_to_string(template, context)], detail)


def printed_answer(
    request: HttpRequest,
    paper: Paper,
    pages: Sequence[str],
    detail: str = "",
    *,
    at_most: int = 1,
) -> HttpResponse:
    """The PDF of ``pages`` (of several: the first that takes ``at_most`` so many), put on record
    and stored as printed."""
    try:
        file = stored_file(pages, at_most=at_most)
    except PrintingUnavailable as unavailable:
        return unavailable_answer(request, paper, unavailable)
    printing = Printing(
        kind=paper.kind,
        stoma=paper.stoma,
        assessment=paper.assessment,
        referral=paper.referral,
        language=paper.language,
        paper=paper.size,
        detail=detail,
        content=paper.content,
    )
    put_on_record(printing, file.pk, by=request.user, request=request)  # type: ignore[arg-type]
    return file_answer(bytes(file.pdf), paper.file_name)


def file_answer(made: bytes, file_name: str) -> HttpResponse:
    """A PDF to be looked at."""
    return HttpResponse(
        made,
        content_type="application/pdf",
        headers={"Content-Disposition": f'inline; filename="{file_name}"'},
    )


def unavailable_answer(
    request: HttpRequest, paper: Paper, why: PrintingUnavailable
) -> HttpResponse:
    """A page in place of any paper, while nothing can be set here."""
    _record(request, paper, "opened to print", "printing unavailable")
    return cannot_print(request, why, paper.name, paper.patient, paper.assessment)


def cannot_print(
    request: HttpRequest,
    why: PrintingUnavailable,
    name: str,
    patient: Patient,
    assessment: Assessment | None = None,
) -> HttpResponse:
    """What was to be printed, and whether it helps to ask again."""
    context = {"assessment": assessment, "patient": patient, "name": name, "why": why}
    page = render(request, "documents/printed/unavailable.html", context, status=503)
    if why.passing:
        page.headers["Retry-After"] = str(ASK_AGAIN)
    return page


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
) -> HttpResponse:
    """A page in place of the paper: it, too, shows whose record it is."""
    _record(request, paper, "opened to print", f"no {paper.name}")
    assessment = paper.assessment
    context = {
        "patient": paper.patient,
        "visit": assessment.visit if assessment else None,
        "assessment": assessment,
        "name": paper.name,
        "why": why,
        "lines": tuple(lines),
        "instead": instead,
    }
    return render(request, "documents/printed/no_paper.html", context, status=409)


def _record(request: HttpRequest, paper: Paper, action: str, detail: str) -> None:
    record(
        request_or_actor=request,
        action=action,
        subject=paper.subject,
        patient=paper.patient,
        detail=detail,
    )


def asked_large(request: HttpRequest, patient: Patient) -> bool:
    """``?print=large`` or ``normal`` for this once; anything else is as the patient needs it."""
    asked = request.GET.get("print", "")
    return asked == "large" or (asked != "normal" and patient.large_print)


def asked_language(request: HttpRequest) -> str:
    """For this once; "", or anything that is no language of sheets, is the patient's own."""
    asked = request.GET.get("language", "")
    return asked if asked in SheetLanguage.values else ""


def language_of(request: HttpRequest, patient: Patient) -> str:
    """What to print in: as asked for this once, else the patient's own."""
    return asked_language(request) or patient.sheet_language

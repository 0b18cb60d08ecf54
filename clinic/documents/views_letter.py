"""Print a letter to a colleague: about a referral, or about a visit."""

from __future__ import annotations

from uuid import UUID

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.template.loader import render_to_string
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.documents.fitting import Fitted, versions
from clinic.documents.letter import Letter, referral_letter, visit_letter
from clinic.documents.pdf import PrintingUnavailable, one_page
from clinic.plans.decided import decided_plan
from clinic.plans.models import Referral
from clinic.visits.choices import VisitState
from clinic.visits.history import with_parts
from clinic.visits.models import Assessment

TO_DOCTOR = "The family doctor"


@require_GET
@needs(Right.SEE_CLINICAL)
def letter(request: HttpRequest, referral: UUID) -> HttpResponse:
    """With the question of a referral. Not for the front desk: it is between clinicians."""
    asked = get_object_or_404(Referral.objects.select_related("made_by"), uuid=referral)
    about = with_parts().prefetch_related("decisions").get(pk=asked.assessment_id)
    asked.assessment = about
    return _printed(request, about, referral_letter(asked, decided_plan(about)))


@require_GET
@needs(Right.SEE_CLINICAL)
def letter_of_visit(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """About a visit, to the surgeon, or with ``?to=doctor`` to the family doctor."""
    visits = with_parts().prefetch_related("decisions")
    about = get_object_or_404(visits.exclude(visit__state=VisitState.DISCARDED), uuid=assessment)
    surgeon = f"The surgeon, {about.stoma.surgeon}" if about.stoma.surgeon else "The surgeon"
    to = TO_DOCTOR if request.GET.get("to") == "doctor" else surgeon
    return _printed(request, about, visit_letter(about, decided_plan(about), to=to))


def pdf_of_letter(letter: Letter) -> bytes:
    """One page, whatever was written."""
    return one_page([html_of(version) for version in versions(letter)])


def html_of(version: Fitted) -> str:
    """The letter as a page for WeasyPrint, on the paper the settings name."""
    context = {
        "fit": version,
        "letter": version.letter,
        "paper": settings.PAPER_SIZE.lower(),
        # CSS has no arithmetic on these: one class a size, in css/letter.css.
        "size": f"{version.points:g}".replace(".", "-"),
    }
    return render_to_string("documents/letter.html", context)


def _printed(request: HttpRequest, about: Assessment, written: Letter) -> HttpResponse:
    patient = about.visit.patient
    try:
        pdf = pdf_of_letter(written)
    except PrintingUnavailable as unavailable:
        record(
            request_or_actor=request,
            action="opened to print",
            subject=about,
            patient=patient,
            detail="printing unavailable",
        )
        page = {"assessment": about, "patient": patient, "why": str(unavailable)}
        return render(request, "documents/unavailable.html", page, status=503)
    record(
        request_or_actor=request,
        action="printed",
        subject=about,
        patient=patient,
        detail=written.title.lower(),
    )
    return HttpResponse(
        pdf,
        content_type="application/pdf",
        headers={"Content-Disposition": 'inline; filename="letter.pdf"'},
    )

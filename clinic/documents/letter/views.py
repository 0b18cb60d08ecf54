"""Print a letter to a colleague: about a referral, or about a visit."""

from __future__ import annotations

from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.template.loader import render_to_string
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.documents.letter.build import Letter, referral_letter, visit_letter
from clinic.documents.letter.fit_to_page import Fitted, versions
from clinic.documents.models import Kind
from clinic.documents.printed.responses import Paper, own_size, printed_answer
from clinic.documents.rendering.pdf import fitting
from clinic.patients.models import Contacts, Patient
from clinic.plans.plan_with_decisions import decided_plan
from clinic.referrals.models import Referral
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts

TO_DOCTOR = "The family doctor"


@require_GET
@needs(Right.SEE_CLINICAL)
def letter(request: HttpRequest, referral: UUID) -> HttpResponse:
    """With the question of a referral. Not for the front desk: it is between clinicians."""
    asked = get_object_or_404(Referral.objects.select_related("made_by"), uuid=referral)
    about = with_parts().with_rows("decisions").get(pk=asked.assessment_id)
    asked.assessment = about
    return _printed(request, about, referral_letter(asked, decided_plan(about)), asked)


@require_GET
@needs(Right.SEE_CLINICAL)
def letter_of_visit(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """About a visit, to the surgeon, or with ``?to=doctor`` to the family doctor."""
    visits = with_parts().with_rows("decisions")
    about = get_object_or_404(visits.exclude(visit__state=VisitState.DISCARDED), uuid=assessment)
    surgeon = f"The surgeon, {about.stoma.surgeon}" if about.stoma.surgeon else "The surgeon"
    to = family_doctor(about.visit.patient) if request.GET.get("to") == "doctor" else surgeon
    return _printed(request, about, visit_letter(about, decided_plan(about), to=to))


def family_doctor(patient: Patient) -> str:
    """The words a letter to the family doctor begins with, with the name where it is recorded."""
    found = Contacts.objects.filter(patient=patient).first()
    names = (found.doctor_name, found.doctor_practice) if found else ()
    return ", ".join((TO_DOCTOR, *filter(None, names)))


def pdf_of_letter(letter: Letter) -> bytes:
    """One page, whatever was written."""
    return fitting(pages_of(letter))


def pages_of(letter: Letter) -> list[str]:
    """Its versions as pages, the fullest first."""
    return [html_of(version) for version in versions(letter)]


def html_of(version: Fitted) -> str:
    """The letter as a page for WeasyPrint, on the paper the settings name."""
    context = {
        "fit": version,
        "letter": version.letter,
        "paper": own_size(),
        # CSS has no arithmetic on these: one class a size, in css/letter.css.
        "size": f"{version.points:g}".replace(".", "-"),
    }
    return render_to_string("documents/letter/letter.html", context)


def _printed(
    request: HttpRequest, about: Assessment, written: Letter, asked: Referral | None = None
) -> HttpResponse:
    paper = Paper(Kind.LETTER, about, own_size(), referral=asked)
    detail = "about a referral" if asked else f"to {_reader(written.to)}"
    return printed_answer(request, paper, pages_of(written), detail)


def _reader(to: str) -> str:
    """Whom it is for, without their name."""
    return to.partition(",")[0].lower()

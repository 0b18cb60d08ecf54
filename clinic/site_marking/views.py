"""Mark a site, look at it, print it, withdraw it, say where the stoma was made."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_safe

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.once.sending import once, once_key
from clinic.patients.models import Patient, Stoma
from clinic.patients.views.record_form import Question, ask
from clinic.requests import posted
from clinic.site_marking import actions
from clinic.site_marking.choices import Used, Withdrawn
from clinic.site_marking.forms import MarkingForm, UsedForm, WithdrawForm
from clinic.site_marking.models import SiteMarking, SiteUsed
from clinic.site_marking.queries import stored_markings
from clinic.site_marking.shown import shown
from clinic.visits.views.photos import ALONE

form_page = require_http_methods(["GET", "HEAD", "POST"])


def _marking(uuid: UUID) -> SiteMarking:
    return get_object_or_404(stored_markings(), uuid=uuid)


@form_page
@needs(Right.CHART)
@once
def add(request: HttpRequest, patient: UUID) -> HttpResponse:
    """Mark one or two sites with the person."""
    person = get_object_or_404(Patient, uuid=patient)
    form = MarkingForm(posted(request), request.FILES or None, patient=person)
    if request.method == "POST" and form.is_valid():
        marking = actions.mark(
            patient=person,
            key=once_key(request),
            values=form.values(),
            sites=form.marked(),
            by=request.user,  # type: ignore[arg-type]
            photo=form.picture,
            request=request,
        )
        messages.success(request, "Site marking recorded.")
        return redirect("site_marking:show", marking.uuid)
    record(request_or_actor=request, action="opened site marking", subject=person)
    page = {"form": form, "patient": person}
    return render(request, "site_marking/add.html", page, status=422 if form.errors else 200)


@require_safe
@needs(Right.SEE_CLINICAL)
def show(request: HttpRequest, marking: UUID) -> HttpResponse:
    """The marking on one page."""
    found = _marking(marking)
    record(request_or_actor=request, action="viewed", subject=found)
    page = {
        "marking": found,
        "patient": found.patient,
        "shown": shown(found),
        "has_photo": hasattr(found, "photo"),
    }
    return render(request, "site_marking/show.html", page)


@require_safe
@needs(Right.SEE_CLINICAL)
def photo(request: HttpRequest, marking: UUID) -> HttpResponse:
    found = _marking(marking)
    if not hasattr(found, "photo"):
        raise Http404
    record(request_or_actor=request, action="viewed photo", subject=found)
    return HttpResponse(bytes(found.photo.image), content_type="image/jpeg", headers=ALONE)


@form_page
@needs(Right.CHART)
@once
def withdraw(request: HttpRequest, marking: UUID) -> HttpResponse:
    """A marking that no longer counts; it stays on record."""
    found = _marking(marking)
    if found.withdrawn_why:
        raise Http404
    form = WithdrawForm(posted(request))

    def save() -> None:
        why = Withdrawn(form.cleaned_data["why"])
        actions.withdraw(marking=found, why=why, by=request.user, request=request)  # type: ignore[arg-type]

    words = Question(
        "Withdraw a site marking", "Withdraw", "Withdrawn. It stays on record and no longer counts."
    )
    back = reverse("site_marking:show", args=[found.uuid])
    return ask(request, found.patient, form, words, save, about=found, back=back)


@form_page
@needs(Right.CHART)
@once
def used(request: HttpRequest, marking: UUID, stoma: UUID) -> HttpResponse:
    """Which of the marked sites ``stoma`` was made at."""
    found = _marking(marking)
    one = get_object_or_404(Stoma.objects.select_related("patient"), uuid=stoma)
    if one.patient_id != found.patient_id:
        raise Http404
    known = SiteUsed.objects.filter(stoma=one).first()
    before = {"used": known.used, "why": known.why} if known else None
    form = UsedForm(posted(request), marking=found, initial=before)

    def save() -> None:
        given = form.cleaned_data
        actions.record_used(
            stoma=one,
            marking=found,
            used=Used(given["used"]),
            why=given["why"].strip(),
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )

    lead = "; ".join(f"{s.get_rank_display()}: {s.place_words}" for s in found.sites.all())
    heading = f"Made at: {one.short_name}"
    words = Question("Which site was used", "Record", "Recorded.", heading, lead)
    return ask(request, one.patient, form, words, save, about=one)

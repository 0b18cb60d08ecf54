"""Measure the stoma on a photo, by marks of the nurse or by what the computer proposed and she
confirmed; fill the visit's measurement when that is confirmed."""

from __future__ import annotations

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import (
    HttpRequest,
    HttpResponse,
    HttpResponseBadRequest,
    HttpResponseRedirect,
    JsonResponse,
)
from django.shortcuts import get_object_or_404, render
from django.template.loader import render_to_string
from django.urls import reverse
from django.views.decorators.http import require_http_methods, require_POST

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.charting.actions.fill_from_photo import (
    ChangedMeanwhile,
    current_values,
    fill_from_photo,
    seen,
)
from clinic.plans.photo_measurement import (
    CARD,
    MeasureForm,
    error_words,
    initial_of,
    sources_of,
    to_fill,
)
from clinic.plans.photo_proposals import ProposeForm, propose, signed
from clinic.visits.actions.save import ConflictError
from clinic.visits.models import Photo
from clinic.visits.policies import can_edit
from clinic.visits.queries import with_parts

CHANGED = (
    "Someone changed this visit's measurement after you opened this page. The current values "
    "are in the table: check them, then fill in again if you still want to. Your marks are kept."
)


@require_http_methods(["GET", "POST"])
@needs(Right.CHART)
def measure_photo(request: HttpRequest, photo: UUID) -> HttpResponse:
    """The page; posted with ``X-Measure`` the figures alone, for the page's script."""
    found = _photo(photo)
    if request.method == "GET":
        return _opened(request, found)
    form = MeasureForm(request.POST, size=(found.width, found.height), photo=found.pk)
    sound = form.is_valid()
    if "X-Measure" in request.headers:
        return _figures(request, found, form)
    press = request.POST.get("press", "")
    if press not in {"axes", "radii"} or not can_edit(found.assessment.visit):
        return _page(request, found, form)
    if sound and not form.cleaned_data["head_sure"]:
        form.add_error("head_sure", "Check which way the head is, then tick this.")
    if form.errors:
        return _page(request, found, form, status=422)
    return _fill(request, found, form, radii=press == "radii")


@require_POST
@needs(Right.CHART)
def propose_marks(request: HttpRequest, photo: UUID) -> HttpResponse:
    """What the computer sees on the photo, for the page's script to draw; stored nowhere yet."""
    found = _photo(photo)
    form = ProposeForm(request.POST)
    if not form.is_valid():
        return HttpResponseBadRequest()
    record(
        request_or_actor=request,
        action="had marks proposed on photo",
        subject=found.assessment,
        patient=found.assessment.visit.patient,
    )
    what = form.cleaned_data["what"]
    got = propose(bytes(found.image), what, form.near)
    token = signed(found.pk, what, got.points) if got.points else ""
    return JsonResponse({"points": got.points, "words": got.words, "token": token})


def _photo(pk: UUID) -> Photo:
    return get_object_or_404(
        Photo.objects.exclude(assessment__visit__state="discarded").select_related(
            "assessment__visit__patient", "assessment__stoma"
        ),
        pk=pk,
    )


def _opened(request: HttpRequest, found: Photo) -> HttpResponse:
    record(
        request_or_actor=request,
        action="opened photo to measure",
        subject=found.assessment,
        patient=found.assessment.visit.patient,
    )
    measured = getattr(found, "measured", None)
    kept = measured.marks if measured else None
    size = (found.width, found.height)
    form = MeasureForm(initial=initial_of(kept, found.pk), size=size, photo=found.pk)
    return _page(request, found, form)


def _fill(request: HttpRequest, found: Photo, form: MeasureForm, *, radii: bool) -> HttpResponse:
    try:
        page = fill_from_photo(
            photo=found,
            form=form,
            radii=radii,
            seen_before=request.POST.get("seen", ""),
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
    except (ChangedMeanwhile, ConflictError):
        messages.error(request, CHANGED)
        return _page(request, found, form, status=409)
    messages.success(request, "Filled in from the photo. Please check the values again.")
    chart = reverse("charting:chart", args=[page.assessment.uuid])
    return HttpResponseRedirect(f"{chart}#stoma")


def _figures(request: HttpRequest, found: Photo, form: MeasureForm) -> HttpResponse:
    errors = {name: [str(e) for e in errors] for name, errors in form.errors.items()}
    html = ""
    if form.measured is not None:
        html = render_to_string("charting/_photo_figures.html", _figures_of(found, form), request)
    return JsonResponse({"errors": errors, "html": html})


def _figures_of(found: Photo, form: MeasureForm) -> dict[str, Any]:
    measured = form.measured
    if measured is None:
        return {}
    now = current_values(with_parts().get(pk=found.assessment_id))
    card = form.cleaned_data["kind"] == CARD
    return {
        "measured": measured,
        "fields": to_fill(measured, now),
        "area": f"{measured.area.value / 100:.1f}",
        "area_error": error_words(type(measured.area)(0, measured.area.error / 100)),
        "sources": sources_of(measured, form.cleaned_data),
        "card": card,
        "radii_stand": any(now[f"stoma-radii_mm_{i}"] for i in range(1, 13)),
        "can_fill": can_edit(found.assessment.visit),
    }


def _page(
    request: HttpRequest, found: Photo, form: MeasureForm, *, status: int = 200
) -> HttpResponse:
    stored = with_parts().get(pk=found.assessment_id)
    context = {
        "photo": found,
        "form": form,
        "assessment": stored,
        "visit": stored.visit,
        "patient": stored.visit.patient,
        "stoma": stored.stoma,
        "seen": seen(current_values(stored)),
        "can_fill": can_edit(stored.visit),
        **_figures_of(found, form),
    }
    return render(request, "charting/photo_measure.html", context, status=status)

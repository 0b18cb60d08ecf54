"""Chart a draft: the page, saving it with and without scripts, signing it."""

from typing import Any
from uuid import UUID

from django.contrib import messages
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse, HttpResponseRedirect, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.template.loader import render_to_string
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods

from clinic import formatting
from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.charting.one_press import ONE_PRESS, RECORDED_IS_RIGHT, fill_in, photo_in, place_of
from clinic.charting.page import ChartPage, open_page, save_page
from clinic.charting.plan_panel import panel_context
from clinic.charting.unfinished import unfinished
from clinic.charting.views.after_signing import draft_is_over
from clinic.charting.views.posted import number
from clinic.one_reading import one_reading
from clinic.plans.actions.sign import NotReadyError, Problem, sign_visit
from clinic.plans.draft_plan import draft_plan
from clinic.plans.photo_or_ruler import disputed, recorded_size
from clinic.plans.presenters.last_plan import anew_of, is_new, last_plan
from clinic.teaching.missing import teaching_of
from clinic.visits.actions.photo import keep_recorded_size
from clinic.visits.actions.save import ConflictError, Turn
from clinic.visits.models import Assessment
from clinic.visits.policies import NotAllowedNow, can_edit
from clinic.visits.presenters.chart_sections import chart_context, said_by_question
from clinic.visits.presenters.unsent_entries import sealing
from clinic.visits.queries import previous_assessment, with_parts

#: Buttons that save and go on to another page.
LEADS_TO = {"preview": "documents:preview", "photos": "visits:photo_add"}


def _assessment(uuid: UUID, among: QuerySet[Assessment] | None = None) -> Assessment:
    found = with_parts().with_rows("decisions") if among is None else among
    return get_object_or_404(found, uuid=uuid)


@require_GET
@needs(Right.CHART)
def chart(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """The page of a draft; one that was signed or discarded shows itself instead."""
    stored = _assessment(assessment)
    if stored.visit.is_signed:
        return redirect("charting:visit", stored.visit.uuid)
    if not can_edit(stored.visit):
        return redirect("charting:conflict", stored.uuid)
    record(request_or_actor=request, action="opened draft", subject=stored.visit)
    return _render(request, open_page(stored))


@require_http_methods(["GET", "POST"])
@needs(Right.CHART)
def save(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """Save as posted. With ``X-Autosave`` the answer is data for the page's script."""
    # Saving reads the rows itself, behind its lock.
    stored = _assessment(assessment, with_parts().without_rows())
    if request.method == "GET":  # led here by signing in again
        return redirect("charting:chart", stored.uuid)
    quiet = "X-Autosave" in request.headers
    try:
        if can_edit(stored.visit):
            return _save(request, stored, quiet)
    except ConflictError:
        return _conflict(request, stored, quiet)
    except NotAllowedNow:
        # Signed or discarded by another press while this one was on its way.
        stored = _assessment(assessment)
    return draft_is_over(request, stored, request.POST, _turn(request), quiet=quiet)


def _save(request: HttpRequest, stored: Assessment, quiet: bool) -> HttpResponse:
    press = request.POST.get("press", "save")
    data = request.POST.copy()
    confirmed = fill_in(press, data, stored, lambda: _anew(stored))
    page = save_page(
        stored,
        data=data,
        confirmed=confirmed,
        turn=_turn(request),
        by=request.user,  # type: ignore[arg-type]
        accept_rest=press == "accept-rest",
        request=request,
    )
    if press.startswith(RECORDED_IS_RIGHT):
        keep_recorded_size(
            assessment=page.assessment,
            photo=photo_in(press),
            recorded=recorded_size(page.assessment),
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
    if quiet:
        with one_reading():  # all is stored by now
            return JsonResponse(_reply(request, page))
    if press == "sign":
        return _sign(request, page)
    if press in LEADS_TO and not page.all_errors:
        return redirect(LEADS_TO[press], page.assessment.uuid)
    if press.startswith("add-"):
        return _with_spare_row(request, page, press.removeprefix("add-"))
    return _after_save(request, page)


def _anew(stored: Assessment) -> dict[str, str]:
    """What is measured at this visit, though all looks as it did -> why."""
    found = last_plan(previous_assessment(stored), stored, draft_plan(stored).findings)
    return anew_of(found, stored)


def _turn(request: HttpRequest) -> Turn:
    page = request.POST.get("page", "")
    try:
        sent_by = UUID(page) if page else None
    except ValueError:
        sent_by = None
    return Turn(number(request, "version"), sent_by, number(request, "turn"))


def _after_save(request: HttpRequest, page: ChartPage) -> HttpResponse:
    if page.all_errors:
        return _render(request, open_page(page.assessment), status=422)
    press = request.POST.get("press", "")
    if not press.startswith(ONE_PRESS):
        messages.success(request, "Saved.")
    return HttpResponseRedirect(
        reverse("charting:chart", args=[page.assessment.uuid]) + place_of(press)
    )


def _with_spare_row(request: HttpRequest, page: ChartPage, rows: str) -> HttpResponse:
    return _render(request, open_page(page.assessment, spare={rows: 1}), focus=rows)


def _sign(request: HttpRequest, page: ChartPage) -> HttpResponse:
    visit = page.assessment.visit
    try:
        if page.unseen:
            raise NotReadyError(_to_look_at(page))
        sign_visit(visit=visit, by=request.user, at=timezone.now(), request=request)  # type: ignore[arg-type]
    except NotReadyError as not_ready:
        fresh = open_page(with_parts().with_rows("decisions").get(pk=page.assessment.pk))
        lines = unfinished(fresh, not_ready.problems)
        return _render(request, fresh, status=422, not_signed=True, unfinished=lines)
    messages.success(request, "Signed. This visit can no longer be changed.")
    return redirect("charting:visit", visit.uuid)


def _to_look_at(page: ChartPage) -> list[Problem]:
    """What the signature would accept together without its words having been on the page."""
    return [
        Problem(page.assessment, f"Look at what is kept: {item.text}", f"decision-{item.key}")
        for item in page.unseen
    ]


def _conflict(request: HttpRequest, stored: Assessment, quiet: bool) -> HttpResponse:
    url = reverse("charting:conflict", args=[stored.uuid])
    if not quiet:
        return redirect(url)
    visit = stored.visit
    by = visit.saved_by.display_name if visit.saved_by else "Someone"
    text = f"{by} saved this visit at {formatting.moment(visit.saved_at)}, after you opened it."
    return JsonResponse({"conflict": url, "message": text}, status=409)


def _reply(request: HttpRequest, page: ChartPage) -> dict[str, Any]:
    context = panel_context(page)
    return {
        "version": page.assessment.visit.version,
        "urgency": page.live.plan.urgency.value if page.live.plan else "",
        "headline": page.live.plan.headline if page.live.plan else "",
        "saved": formatting.moment(timezone.now())[-5:],
        "errors": page.all_errors,
        "labels": {e["field"]: e["label"] for e in page.error_list},
        "said": said_by_question(page.chart),
        "changed": page.plan_changed,
        "panel": render_to_string("plans/_panel.html", context, request=request),
    }


def _render(
    request: HttpRequest, page: ChartPage, *, status: int = 200, **extra: Any
) -> HttpResponse:
    last = last_plan(page.previous, page.assessment, page.live.findings)
    context = {
        **chart_context(
            page.assessment,
            page.chart,
            page.previous,
            had_plan=last is not None,
            anew=anew_of(last, page.assessment),
        ),
        **panel_context(page),
        "page": page,
        "teaching": teaching_of(page.assessment.stoma),
        "last_plan": last,
        "disputed": disputed(page.assessment),
        "may_be_on_ward": is_new(page.assessment),
        "errors_by_field": page.all_errors,
        "error_list": page.error_list,
        "sealing": sealing(request.user, page.assessment),
        "copy_waiting": page.assessment.conflict_copies.filter(by_id=request.user.pk).exists(),
        **extra,
    }
    return render(request, "charting/chart.html", context, status=status)

"""Two people saved one draft: both versions side by side, nothing lost."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.plans.decisions import DecisionForm
from clinic.plans.page import decision_forms, save_page
from clinic.visits.actions.save import ConflictError, Turn
from clinic.visits.chart import Chart
from clinic.visits.history import with_parts
from clinic.visits.merging import Difference, differences, merged
from clinic.visits.models import ConflictCopy


@require_http_methods(["GET", "POST"])
@needs(Right.CHART)
def conflict(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """Choose, field by field, between one's own copy and what is stored now."""
    stored = get_object_or_404(with_parts(), uuid=assessment, visit__state="draft")
    copy = ConflictCopy.objects.filter(assessment=stored, by_id=request.user.pk).first()
    if copy is None:
        return redirect("plans:chart", stored.uuid)
    record(request_or_actor=request, action="compared versions", subject=stored.visit)
    chart, decisions = Chart(stored), decision_forms(stored)
    chart.check()
    _drop_what_is_no_more_asked(copy, decisions)
    found = [(d, _choice(request, d)) for d in differences(copy.data, chart, decisions)]
    posted = request.method == "POST"
    unchosen = {d.name for d, chosen in found if not chosen} if posted else set()
    if posted and not unchosen:
        chosen = {d.name: choice for d, choice in found}
        return _resolve(request, copy, chart, decisions, chosen)
    context = {
        "assessment": stored,
        "visit": stored.visit,
        "patient": stored.visit.patient,
        "copy": copy,
        "differences": found,
        "unchosen": unchosen,
    }
    return render(request, "plans/conflict.html", context, status=422 if posted else 200)


def _drop_what_is_no_more_asked(copy: ConflictCopy, decisions: list[DecisionForm]) -> None:
    """Decisions in the copy about something that the plan no longer says."""
    asked = {
        form.add_prefix(name)
        for form in decisions
        for name in form.fields
        if copy.data.get(form.add_prefix("about")) == [form.decidable.about]
    }
    copy.data = {n: v for n, v in copy.data.items() if n in asked or n[:9] != "decision-"}


def _choice(request: HttpRequest, difference: Difference) -> str:
    """What was chosen, or before that what suggests itself; empty while neither."""
    if request.method != "POST":
        return difference.suggested
    chosen = request.POST.get(f"choose-{difference.name}", "")
    return chosen if chosen in {"mine", "theirs"} else ""


def _resolve(
    request: HttpRequest,
    copy: ConflictCopy,
    chart: Chart,
    decisions: list[DecisionForm],
    chosen: dict[str, str],
) -> HttpResponse:
    stored = chart.assessment
    try:
        save_page(
            stored,
            data=merged(copy, chart, chosen, decisions),
            turn=Turn(stored.visit.version),
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
    except ConflictError:
        messages.error(request, "The visit was saved again meanwhile: please look once more.")
        return redirect("plans:conflict", stored.uuid)
    copy.delete()
    messages.success(request, "Both versions are now one.")
    # Another page's copy may wait; without one this leads on to the chart.
    return redirect("plans:conflict", stored.uuid)

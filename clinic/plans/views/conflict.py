"""Two people saved one draft: both versions side by side, nothing lost."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.plans.page import save_page
from clinic.visits.actions.save import ConflictError
from clinic.visits.chart import Chart
from clinic.visits.history import with_parts
from clinic.visits.merging import differences, merged
from clinic.visits.models import ConflictCopy


@require_http_methods(["GET", "POST"])
@needs(Right.CHART)
def conflict(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """Choose, field by field, between one's own copy and what is stored now."""
    stored = get_object_or_404(with_parts(), uuid=assessment, visit__state="draft")
    copy = ConflictCopy.objects.filter(assessment=stored, by_id=request.user.pk).first()
    if copy is None:
        return redirect("plans:chart", stored.uuid)
    chart = Chart(stored)
    chart.check()
    found = differences(copy, chart)
    open_names = [d for d in found if _choice(request, d.name) not in {"mine", "theirs"}]
    if request.method == "POST" and not open_names:
        return _resolve(request, copy, chart)
    return render(
        request,
        "plans/conflict.html",
        {
            "assessment": stored,
            "visit": stored.visit,
            "patient": stored.visit.patient,
            "copy": copy,
            "differences": found,
            "unchosen": {d.name for d in open_names} if request.method == "POST" else set(),
        },
        status=422 if request.method == "POST" else 200,
    )


def _choice(request: HttpRequest, name: str) -> str:
    return str(request.POST.get(f"choose-{name}", ""))


def _resolve(request: HttpRequest, copy: ConflictCopy, chart: Chart) -> HttpResponse:
    stored = chart.assessment
    chosen = {d.name: _choice(request, d.name) for d in differences(copy, chart)}
    data = merged(copy, chart, chosen)
    try:
        save_page(
            stored,
            data=data,
            version=stored.visit.version,
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
    except ConflictError:
        messages.error(request, "The visit was saved again meanwhile: please look once more.")
        return redirect("plans:conflict", stored.uuid)
    copy.delete()
    messages.success(request, "Both versions are now one.")
    return redirect("plans:chart", stored.uuid)

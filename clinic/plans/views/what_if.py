"""What would change one recommendation of a draft."""

from __future__ import annotations

from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.plans.draft_plan import draft_plan
from clinic.visits.queries import with_parts
from planning import counterfactuals


@require_GET
@needs(Right.CHART)
def what_if(request: HttpRequest, assessment: UUID, key: str) -> HttpResponse:
    """The smallest changes of a finding that would change one recommendation of a draft."""
    stored = get_object_or_404(with_parts(), uuid=assessment, visit__state="draft")
    live = draft_plan(stored)
    texts = {item.key: item.text for item in live.plan.recommendations} if live.plan else {}
    if key not in texts:
        raise Http404
    context = {
        "assessment": stored,
        "patient": stored.visit.patient,
        "text": texts[key],
        "changes": counterfactuals(live.findings, live.history, key),
    }
    fragment = "plans/_what_if.html" if request.headers.get("HX-Request") else "plans/what_if.html"
    return render(request, fragment, context)

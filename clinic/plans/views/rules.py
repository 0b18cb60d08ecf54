"""Every rule of the planner, generated from its code; and what would change one answer."""

from itertools import groupby
from uuid import UUID

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.plans.live import live_plan
from clinic.plans.presenters.sources import citations
from clinic.visits.history import with_parts
from planning import RULE_SET, all_rules, counterfactuals


@require_GET
@needs(Right.SEE_CLINICAL)
def rules(request: HttpRequest) -> HttpResponse:
    """What the planner does, on whose word, and where each rule is tested."""
    groups = [
        (name, [(rule, citations(rule.sources)) for rule in found])
        for name, found in groupby(all_rules(), key=lambda rule: rule.group)
    ]
    return render(request, "plans/rules.html", {"groups": groups, "rule_set": RULE_SET})


@require_GET
@needs(Right.CHART)
def what_if(request: HttpRequest, assessment: UUID, key: str) -> HttpResponse:
    """The smallest changes of a finding that would change one recommendation of a draft."""
    stored = get_object_or_404(with_parts(), uuid=assessment, visit__state="draft")
    live = live_plan(stored)
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

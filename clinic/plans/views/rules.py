"""Every rule of the planner, generated from its code."""

from itertools import groupby

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.plans.presenters.sources import citations
from planning import RULE_SET, all_rules


@require_GET
@needs(Right.SEE_CLINICAL)
def rules(request: HttpRequest) -> HttpResponse:
    """What the planner does, its sources, and where each rule is tested."""
    groups = [
        (name, [(rule, citations(rule.sources)) for rule in found])
        for name, found in groupby(all_rules(), key=lambda rule: rule.group)
    ]
    return render(request, "plans/rules.html", {"groups": groups, "rule_set": RULE_SET})

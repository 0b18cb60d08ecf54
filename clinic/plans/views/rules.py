"""Every rule of the planner, generated from its code."""

from itertools import groupby

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.plans.presenters.sources import linked, statements
from planning import RULE_SET, all_rules


@require_GET
@needs(Right.SEE_CLINICAL)
def rules(request: HttpRequest) -> HttpResponse:
    """What the planner does, which statements it rests on, what was read for each, and where it is
    tested."""
    groups = [
        (name, [(rule, linked(rule.sources)) for rule in found])
        for name, found in groupby(all_rules(), key=lambda rule: rule.group)
    ]
    context = {"groups": groups, "statements": statements(), "rule_set": RULE_SET}
    return render(request, "plans/rules.html", context)

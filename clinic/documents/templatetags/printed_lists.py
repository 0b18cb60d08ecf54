"""Lists of what was printed, for pages of apps that this one builds on."""

from typing import Any

from django import template
from django.template import Context

from clinic.accounts.permissions import Right, may
from clinic.documents.kinds import in_patients_language
from clinic.documents.living.due import why_due
from clinic.documents.printed.paper_links import PaperLink, paper_links
from clinic.documents.printed.printed_lists import SHOWN, printed_of
from clinic.documents.printed.superseded import measured_again
from clinic.plans.plan_with_decisions import decided_plan
from clinic.visits.models import Assessment

register = template.Library()


@register.simple_tag(takes_context=True)
def links_to_print(context: Context, assessment: Assessment) -> list[PaperLink]:
    """The papers of ``assessment`` for the person who looks at the page."""
    clinical = may(context["request"].user, Right.SEE_CLINICAL)
    language = context.get("asked_language") or ""
    return list(paper_links(assessment, clinical=clinical, language=language))


@register.simple_tag
def papers_in_patients_language() -> str:
    """Which kinds of paper follow the language of the patient's sheets."""
    return in_patients_language()


@register.simple_tag
def leaf_due(assessment: Assessment) -> str:
    """Why the leaf about living with the stoma is to be printed, too; "" where it is not."""
    decided = decided_plan(assessment)
    return why_due(decided) if decided else ""


@register.inclusion_tag("documents/printed/_printed.html", takes_context=True)
def printed_papers(context: Context, assessment: Assessment) -> dict[str, Any]:
    """What was printed of ``assessment``, for anyone who looks at the page."""
    found = printed_of(context["request"].user, assessment)
    return {
        "documents": found[:SHOWN],
        "more": max(0, len(found) - SHOWN),
        "again": measured_again([assessment]).get(assessment.pk),
    }

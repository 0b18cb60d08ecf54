"""Lists of what was printed, for pages of apps that this one builds on."""

from typing import Any

from django import template
from django.template import Context

from clinic.documents.printed.printed_lists import SHOWN, printed_of
from clinic.documents.printed.superseded import measured_again
from clinic.visits.models import Assessment

register = template.Library()


@register.inclusion_tag("documents/printed/_printed.html", takes_context=True)
def printed_papers(context: Context, assessment: Assessment) -> dict[str, Any]:
    """What was printed of ``assessment``, for anyone who looks at the page."""
    found = printed_of(context["request"].user, assessment)
    return {
        "documents": found[:SHOWN],
        "more": max(0, len(found) - SHOWN),
        "again": measured_again([assessment]).get(assessment.pk),
    }

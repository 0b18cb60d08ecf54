"""For lists that name people."""

from typing import Any

from django import template
from django.template import Context

from clinic.patients.models import Patient
from clinic.patients.restricted.reasons import has_said_why
from clinic.patients.restricted.reasons import restricted as restricted_now

register = template.Library()


@register.simple_tag
def restricted_records() -> frozenset[int]:
    """Whose lists say the name alone, by primary key. One query for each list."""
    return restricted_now()


@register.simple_tag(takes_context=True)
def restriction_of(context: Context, patient: Any) -> str:
    """ "" of an open record, *open* where a reason was given, else *closed*."""
    if not isinstance(patient, Patient) or patient.pk not in restricted_now():
        return ""
    return "open" if has_said_why(context["request"], patient) else "closed"

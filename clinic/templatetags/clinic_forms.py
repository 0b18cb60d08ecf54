"""What the ``clinic`` form templates ask of a field."""

from collections.abc import Iterable
from typing import Any

from django import forms, template
from django.forms.boundfield import BoundField
from django.utils.safestring import SafeString

from clinic import field_drawing

register = template.Library()
register.filter(field_drawing.unit)
register.simple_tag(field_drawing.control)
register.simple_tag(field_drawing.beside)


@register.simple_tag(takes_context=True)
def drawn_field(context: Any) -> SafeString:
    """The context's ``field``, whole: crispy's own way of handing it over."""
    return field_drawing.drawn(
        context["field"], errors=context.get("form_show_errors", True) is not False
    )


@register.filter
def any_errors(several: Iterable[forms.BaseForm]) -> bool:
    """Whether any of several forms of one page has something to correct."""
    return any(form.errors for form in several)


@register.filter
def first_control(field: BoundField) -> str:
    """The id an error in the summary leads to: the first input of a group, else the input."""
    if field_drawing.has_choices(field):
        return f"{field.auto_id}_0"
    return field.id_for_label or field.auto_id

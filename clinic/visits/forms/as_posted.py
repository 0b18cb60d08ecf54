"""What a browser would post for a form on which nothing was touched."""

from typing import Any

from django.forms import BaseForm


def form_as_posted(form: BaseForm) -> dict[str, list[str]]:
    """HTML name -> values, for every field of ``form``; an empty list where nothing is entered."""
    posted: dict[str, list[str]] = {}
    for bound in form:
        posted |= _field_as_posted(bound)
    return posted


def _field_as_posted(bound: Any) -> dict[str, list[str]]:
    value, widget = bound.value(), bound.field.widget
    if hasattr(widget, "decompress"):
        parts = value if isinstance(value, list) else widget.decompress(value)
        return {
            f"{bound.html_name}_{i + 1}": [] if part in (None, "") else [str(part)]
            for i, part in enumerate(parts)
        }
    if isinstance(value, (list, tuple)):
        return {bound.html_name: [str(v) for v in value]}
    shown = widget.format_value(value) if hasattr(widget, "format_value") else value
    if isinstance(shown, list):
        shown = shown[0] if shown else ""
    return {bound.html_name: [] if shown in (None, "", False) else [str(shown)]}

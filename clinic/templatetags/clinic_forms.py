"""What the ``clinic`` form templates ask of a field: its control, unit and last value."""

from collections.abc import Iterable

from django import forms, template
from django.forms.boundfield import BoundField, BoundWidget
from django.forms.utils import flatatt
from django.utils.html import format_html
from django.utils.safestring import SafeString

register = template.Library()

# Controls that render as several inputs, and so need a fieldset and a legend.
GROUPS = (forms.RadioSelect, forms.CheckboxSelectMultiple, forms.MultiWidget)


@register.filter
def is_group(field: BoundField) -> bool:
    """Whether the field is several inputs under one question."""
    widget = field.field.widget
    return isinstance(widget, GROUPS) or field.use_fieldset


@register.filter
def any_errors(several: Iterable[forms.BaseForm]) -> bool:
    """Whether any of several forms of one page has something to correct."""
    return any(form.errors for form in several)


@register.filter
def has_choices(field: BoundField) -> bool:
    """Radio buttons or checkboxes, drawn one by one."""
    return isinstance(field.field.widget, (forms.RadioSelect, forms.CheckboxSelectMultiple))


@register.filter
def unit(field: BoundField) -> str:
    """The unit shown after the control: the field's ``unit`` or the widget's ``data-unit``."""
    return str(getattr(field.field, "unit", "") or field.field.widget.attrs.get("data-unit", ""))


@register.filter
def last_value(field: BoundField) -> str:
    """Last visit's value in words, shown beside the control and never put into it."""
    return getattr(field, "last_value", None) or getattr(field.field, "last_value", None) or ""


@register.filter
def described_by(field: BoundField) -> str:
    """Ids of everything that explains the control, in the order it is read out."""
    parts = [
        ("helptext", field.help_text),
        ("last", last_value(field)),
        ("error", field.errors),
    ]
    own = field.field.widget.attrs.get("aria-describedby", "").split()
    return " ".join([*own, *(f"{field.auto_id}_{name}" for name, shown in parts if shown)])


@register.filter
def first_control(field: BoundField) -> str:
    """The id an error in the summary leads to: the first input of a group, else the input."""
    if has_choices(field):
        return f"{field.auto_id}_0"
    return field.id_for_label or field.auto_id


@register.filter
def input_tag(choice: BoundWidget) -> SafeString:
    """One radio button or checkbox, as the widget's own template draws it: a visit page has four
    hundred, and a template each would be a third of its time."""
    shown = choice.data
    return format_html(
        '<input type="{}" name="{}" value="{}"{}>',
        shown["type"],
        shown["name"],
        shown["value"],
        flatatt(shown["attrs"]),
    )


@register.simple_tag
def control(field: BoundField) -> SafeString:
    """The field's widget, tied to its help, last value and errors."""
    attrs: dict[str, str | bool] = {"dir": "auto"} if takes_words(field.field.widget) else {}
    if described := described_by(field):
        attrs["aria-describedby"] = described
    return field.as_widget(attrs=attrs)


def takes_words(widget: forms.Widget) -> bool:
    """Words and names, which may be in a language written from the right; no number or day."""
    if isinstance(widget, forms.Textarea):
        return True
    plain = type(widget) is forms.TextInput and "inputmode" not in widget.attrs
    return plain and not {"number", "day"} & set(widget.attrs.get("class", "").split())

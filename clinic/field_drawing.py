"""The HTML of one form field: label, help, control, unit, last value and errors, tied together.

Written out here rather than in templates: a visit page has three hundred fields, and half a dozen
small templates for each were half of its time.
"""

from __future__ import annotations

from django import forms
from django.forms.boundfield import BoundField, BoundWidget
from django.forms.utils import flatatt
from django.utils.html import escape, format_html, format_html_join
from django.utils.safestring import SafeString, mark_safe

# Controls that render as several inputs, and so need a fieldset and a legend.
GROUPS = (forms.RadioSelect, forms.CheckboxSelectMultiple, forms.MultiWidget)
NOTHING = SafeString("")


def drawn(field: BoundField, *, errors: bool = True) -> SafeString:
    """The whole field; with ``errors``, what is wrong with it too."""
    if field.is_hidden:
        return mark_safe(str(field))  # noqa: S308 - a widget's own
    if is_group(field):
        return _group(field, errors=errors)
    if isinstance(field.field.widget, forms.CheckboxInput):
        return _checkbox(field, errors=errors)
    label = NOTHING
    if field.label:
        label = format_html('<label for="{}">{}</label>', field.id_for_label, _name(field))
    return format_html(
        '<div id="div_{}" class="field{}">\n  {}\n  {}\n  <div class="control">\n    {}\n    {}'
        "\n    {}\n  </div>\n  {}\n</div>\n",
        field.auto_id,
        _amiss(field),
        label,
        help_of(field),
        control(field),
        _unit(field),
        last_value_of(field),
        errors_of(field) if errors else NOTHING,
    )


def _checkbox(field: BoundField, *, errors: bool) -> SafeString:
    return format_html(
        '<div id="div_{}" class="field field-checkbox{}">\n'
        '  <label class="choice" for="{}">{}<span>{}</span></label>\n  {}\n</div>\n',
        field.auto_id,
        _amiss(field),
        field.id_for_label,
        control(field),
        field.label,
        beside(field, errors=errors),
    )


def _group(field: BoundField, *, errors: bool) -> SafeString:
    widget = field.field.widget
    # Django's checkboxes are radio buttons of a kind.
    radio = isinstance(widget, forms.RadioSelect) and not isinstance(
        widget, forms.CheckboxSelectMultiple
    )
    attributes: dict[str, str | bool] = {}
    if described := described_by(field):
        attributes["aria-describedby"] = described
    if radio:
        attributes["role"] = "radiogroup"
        if field.errors:
            attributes["aria-invalid"] = "true"
        if field.field.required:
            attributes["aria-required"] = "true"
    if has_choices(field):
        inside = format_html(
            '<div class="choices{}">\n    {}\n  </div>',
            " segmented" if radio else "",
            format_html_join(
                "\n    ",
                '<label class="choice" for="{}">{}<span>{}</span></label>',
                ((one.id_for_label, input_tag(one), one.choice_label) for one in field),
            ),
        )
    else:
        inside = format_html('<div class="control">{}{}</div>', field, _unit(field))
    return format_html(
        '<fieldset id="div_{}" class="field field-group{}"{}>\n  <legend>{}</legend>\n  {}\n  {}'
        "\n  {}\n  {}\n</fieldset>\n",
        field.auto_id,
        _amiss(field),
        flatatt(attributes),
        _name(field),
        help_of(field),
        last_value_of(field),
        inside,
        errors_of(field) if errors else NOTHING,
    )


def _amiss(field: BoundField) -> str:
    return " has-error" if field.errors else ""


def _name(field: BoundField) -> SafeString:
    """The label's words; the unit for those who do not see it after the control."""
    shown = escape(field.label)
    if of := unit(field):
        shown += format_html(' <span class="visually-hidden">({})</span>', of)
    return shown


def _unit(field: BoundField) -> SafeString:
    of = unit(field)
    return format_html('<span class="unit" aria-hidden="true">{}</span>', of) if of else NOTHING


def beside(field: BoundField, *, errors: bool = True) -> SafeString:
    """Help, last value and errors, for a control that has its label elsewhere."""
    return help_of(field) + last_value_of(field) + (errors_of(field) if errors else NOTHING)


def help_of(field: BoundField) -> SafeString:
    """What explains the control."""
    if not field.help_text:
        return NOTHING
    return format_html(
        '<div class="help" id="{}_helptext">{}</div>', field.auto_id, field.help_text
    )


def last_value_of(field: BoundField) -> SafeString:
    """Last visit's value in words, shown beside the control and never put into it."""
    said = last_value(field)
    if not said:
        return NOTHING
    return format_html(
        '<span class="last-value" id="{}_last">Last visit: {}</span>', field.auto_id, said
    )


def errors_of(field: BoundField) -> SafeString:
    """What is wrong with what was typed."""
    if not field.errors:
        return NOTHING
    said = format_html_join("", '<p class="field-error">{}</p>', ((e,) for e in field.errors))
    return format_html('<div class="field-errors" id="{}_error">{}</div>', field.auto_id, said)


def control(field: BoundField) -> SafeString:
    """The field's widget, tied to its help, last value and errors."""
    attrs: dict[str, str | bool] = {"dir": "auto"} if takes_words(field.field.widget) else {}
    if described := described_by(field):
        attrs["aria-describedby"] = described
    return field.as_widget(attrs=attrs)


def input_tag(choice: BoundWidget) -> SafeString:
    """One radio button or checkbox, as the widget's own template draws it."""
    shown = choice.data
    return format_html(
        '<input type="{}" name="{}" value="{}"{}>',
        shown["type"],
        shown["name"],
        shown["value"],
        flatatt(shown["attrs"]),
    )


def described_by(field: BoundField) -> str:
    """Ids of everything that explains the control, in the order it is read out."""
    parts = [
        ("helptext", field.help_text),
        ("last", last_value(field)),
        ("error", field.errors),
    ]
    own = field.field.widget.attrs.get("aria-describedby", "").split()
    return " ".join([*own, *(f"{field.auto_id}_{name}" for name, shown in parts if shown)])


def is_group(field: BoundField) -> bool:
    """Whether the field is several inputs under one question."""
    return isinstance(field.field.widget, GROUPS) or field.use_fieldset


def has_choices(field: BoundField) -> bool:
    """Radio buttons or checkboxes, drawn one by one."""
    return isinstance(field.field.widget, (forms.RadioSelect, forms.CheckboxSelectMultiple))


def unit(field: BoundField) -> str:
    """The unit shown after the control: the field's ``unit`` or the widget's ``data-unit``."""
    return str(getattr(field.field, "unit", "") or field.field.widget.attrs.get("data-unit", ""))


def last_value(field: BoundField) -> str:
    """Last visit's value in words."""
    return getattr(field, "last_value", None) or getattr(field.field, "last_value", None) or ""


def takes_words(widget: forms.Widget) -> bool:
    """Words and names, which may be in a language written from the right; no number or day."""
    if isinstance(widget, forms.Textarea):
        return True
    plain = type(widget) is forms.TextInput and "inputmode" not in widget.attrs
    return plain and not {"number", "day"} & set(widget.attrs.get("class", "").split())

"""Form fields every app shares: a typed day, a time of day, a question with "not known"."""

import copy
import re
from datetime import date, time
from typing import Any

from django import forms
from django.core.exceptions import ValidationError

from clinic import formatting
from clinic.dates import partial_reading, readings


class DayInput(forms.TextInput):
    """A plain text box that shows a day as "5 Apr 1961"; what was typed comes back as typed."""

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__({"class": "day", "autocomplete": "off", **(attrs or {})})

    def format_value(self, value: Any) -> str | None:
        return formatting.day(value) if isinstance(value, date) else super().format_value(value)


class DayPicker(forms.DateInput):
    """The browser's own calendar, which takes and gives days like 2024-05-31."""

    input_type = "date"

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__(attrs, format="%Y-%m-%d")


class DayField(forms.Field):
    """A day typed in any clear form; one that could be read two ways is asked about.

    With ``widget=DayPicker`` it may be picked too. Where a browser shows no calendar, the same
    forms are read.
    """

    widget = DayInput
    default_error_messages = {
        "required": "Give the date.",
        "invalid": "This is not a date. Write it like 5 Apr 1961.",
    }

    def __init__(self, **options: Any) -> None:
        if options.get("widget") is not DayPicker:
            options.setdefault("help_text", "For example 5 Apr 1961")
        super().__init__(**options)

    def to_python(self, value: Any) -> date | None:
        if value in self.empty_values:
            return None
        if isinstance(value, date):
            return value
        found = readings(str(value))
        if not found:
            raise ValidationError(self.error_messages["invalid"], code="invalid")
        if len(found) > 1:
            either = " or ".join(formatting.day(one) for one in found)
            raise ValidationError(
                f"Is that {either}? Write the month in letters.", code="ambiguous"
            )
        return found[0]

    def has_changed(self, initial: Any, data: Any) -> bool:
        try:
            return self.to_python(initial) != self.to_python(data)
        except ValidationError:
            return True


class PartialDayField(forms.CharField):
    """A year, a month or a day, as far as it is known; kept as ``2021-03``, shown as "Mar 2021"."""

    default_error_messages = {
        "invalid": "Write a year (2021), a month (Mar 2021) or a day (14 Mar 2021). "
        "Leave it empty if it is not known.",
    }

    def __init__(self, **options: Any) -> None:
        options.setdefault("widget", forms.TextInput({"class": "day", "autocomplete": "off"}))
        options.setdefault("help_text", "As far as known: 2021, Mar 2021 or 14 Mar 2021")
        super().__init__(required=False, max_length=30, **options)

    def clean(self, value: Any) -> str:
        typed = str(super().clean(value))
        if typed and not (found := partial_reading(typed)):
            raise ValidationError(self.error_messages["invalid"], code="invalid")
        return found if typed else ""

    def prepare_value(self, value: Any) -> Any:
        stored = isinstance(value, str) and partial_reading(value) == value
        return formatting.partial_day(value) if stored and value else value


class ClockPicker(forms.TimeInput):
    """The browser's own box for a time, which takes and gives times like 14:30."""

    input_type = "time"

    def __init__(self, attrs: dict[str, Any] | None = None) -> None:
        super().__init__(attrs, format="%H:%M")


class ClockField(forms.Field):
    """A time of day on the 24-hour clock, to the minute; None where none is given.

    Read as 14:30, 14.30, 1430 or 9:05; a bare hour could be morning or evening and is asked about.
    """

    widget = ClockPicker
    default_error_messages = {
        "required": "Give the time.",
        "invalid": "This is not a time. Write it like 09:30 or 14:30.",
    }

    def to_python(self, value: Any) -> time | None:
        if value in self.empty_values:
            return None
        if isinstance(value, time):
            return value
        found = re.fullmatch(r"(\d{1,2})[:.](\d{2})(?::00)?|(\d{2})(\d{2})", str(value).strip())
        if found is None:
            raise ValidationError(self.error_messages["invalid"], code="invalid")
        hour, minute = (int(part) for part in found.groups() if part is not None)
        if hour > 23 or minute > 59:
            raise ValidationError(self.error_messages["invalid"], code="invalid")
        return time(hour, minute)

    def has_changed(self, initial: Any, data: Any) -> bool:
        try:
            return self.to_python(initial) != self.to_python(data)
        except ValidationError:
            return True


class OneList:
    """A field of choices whose copies share its list. Every form has a copy of each of its fields,
    and Django copies and reads every pair again of every list for it."""

    def __deepcopy__(self, memo: dict[int, Any]) -> Any:
        field: Any = self
        widget = copy.copy(field.widget)
        widget.attrs = dict(widget.attrs)
        # A copy that is known already is not made.
        memo[id(field.widget)] = widget
        memo[id(field.choices)] = field.choices
        return super().__deepcopy__(memo)  # type: ignore[misc]  # the field's own, beside this


class WordField(OneList, forms.ChoiceField):
    """One word of a list."""


class ThreeWayField(OneList, forms.TypedChoiceField):
    """Yes, no or not known (None): never a yes or no that no one chose.

    ``unknown`` is what stands for None on the page, and its words; nothing chosen is None too.
    """

    def __init__(
        self,
        *,
        yes: str = "Yes",
        no: str = "No",
        unknown: tuple[str, str] = ("unknown", "Not known"),
        required: bool = False,
        **options: Any,
    ) -> None:
        options.setdefault("widget", forms.RadioSelect)
        self.unknown, _ = unknown
        super().__init__(
            choices=[("yes", yes), ("no", no), unknown],
            coerce={"yes": True, "no": False, self.unknown: None}.__getitem__,
            empty_value=None,
            required=required,
            **options,
        )

    def prepare_value(self, value: Any) -> Any:
        return {True: "yes", False: "no", None: self.unknown}.get(value, value)

    def has_changed(self, initial: Any, data: Any) -> bool:
        return bool(self.prepare_value(initial) != (data or self.unknown))

"""Which months to count, and which stomas."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date
from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.core.exceptions import ValidationError

from clinic.dates import readings
from clinic.measures.group import Age, Group
from clinic.measures.period import Period, month
from clinic.patients.models.stoma import Construction, Permanence, StomaKind

_NUMBERS = re.compile(r"(?P<year>\d{4})-(?P<month>\d{1,2})|(?P<month_>\d{1,2})/(?P<year_>\d{4})")


class MonthField(forms.Field):
    """A month typed as ``Nov 2025``, ``2025-11`` or ``11/2025``: the first day of it."""

    default_error_messages = {
        "required": "Give the month.",
        "invalid": "This is not a month. Write it like Nov 2025.",
        "day": "Only whole months are counted. Write %(month)s.",
    }

    def __init__(self, **options: Any) -> None:
        super().__init__(help_text="For example Nov 2025", **options)

    def prepare_value(self, value: Any) -> Any:
        return month(value) if isinstance(value, date) else value

    def to_python(self, value: Any) -> date | None:
        words = str(value or "").strip()
        if not words:
            return None
        if len(typed := readings(words)) == 1:
            raise ValidationError(
                self.error_messages["day"], code="day", params={"month": month(typed[0])}
            )
        if found := _NUMBERS.fullmatch(words):
            year, number = found["year"] or found["year_"], found["month"] or found["month_"]
            words = f"{year}-{number}-1"
        else:
            words = f"1 {words}"
        days = readings(words)
        if len(days) != 1:
            raise ValidationError(self.error_messages["invalid"], code="invalid")
        return days[0]


def _any_of(label: str, choices: Iterable[tuple[Any, Any]]) -> forms.ChoiceField:
    field = forms.ChoiceField(label=label, choices=[("", "Any"), *choices], required=False)
    field.error_messages["invalid_choice"] = "Choose one of the list."
    return field


class AskedForm(forms.Form):
    """Which months, and which stomas. ``today`` is in the last month that may be asked for;
    ``surgeons``: the names to choose from, none where figures are not told apart by surgeon."""

    since = MonthField(label="From month")
    until = MonthField(label="Until month")
    stoma = _any_of("Stoma", StomaKind.choices)
    made = _any_of("Construction", Construction.choices)
    lasting = _any_of("Meant as", Permanence.choices)
    age = _any_of("Age", Age.choices)

    def __init__(
        self, *args: Any, today: date, surgeons: Iterable[str] = (), **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        #: The months were not typed but are the usual ones.
        self.usual = False
        if names := list(surgeons):
            self.fields["surgeon"] = _any_of("Surgeon", [(name, name) for name in names])
        self.helper = FormHelper()
        self.helper.form_tag = False
        self.helper.form_error_title = "Nothing counted yet: please check the months"

    def clean_since(self) -> date:
        return self._not_later(self.cleaned_data["since"])

    def clean_until(self) -> date:
        return self._not_later(self.cleaned_data["until"])

    def clean(self) -> dict[str, Any]:
        since, until = self.cleaned_data.get("since"), self.cleaned_data.get("until")
        if since and until and since > until:
            self.add_error("since", "This is after the other month.")
        return self.cleaned_data

    def _not_later(self, first: date) -> date:
        if first > self.today:
            raise ValidationError("This month is in the future.")
        return first

    @property
    def period(self) -> Period:
        """What was asked for; only of a valid form."""
        return Period.of_months(self.cleaned_data["since"], self.cleaned_data["until"], self.today)

    @property
    def group(self) -> Group:
        """The stomas asked about; only of a valid form."""
        return Group(**{n: self.cleaned_data.get(n, "") for n in Group.NAMES})

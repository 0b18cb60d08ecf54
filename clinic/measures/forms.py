"""Which days to count."""

from __future__ import annotations

from datetime import date
from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.core.exceptions import ValidationError

from clinic.fields import DayField
from clinic.measures.period import Period


class PeriodForm(forms.Form):
    """``today`` is the last day that may be asked for."""

    since = DayField(label="From")
    until = DayField(label="Until")

    def __init__(self, *args: Any, today: date, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.today = today
        self.helper = FormHelper()
        self.helper.form_tag = False
        self.helper.form_error_title = "Nothing counted yet: please check the dates"

    def clean_since(self) -> date:
        return self._not_later(self.cleaned_data["since"])

    def clean_until(self) -> date:
        return self._not_later(self.cleaned_data["until"])

    def clean(self) -> dict[str, Any]:
        since, until = self.cleaned_data.get("since"), self.cleaned_data.get("until")
        if since and until and since > until:
            self.add_error("since", "This is after the other date.")
        return self.cleaned_data

    def _not_later(self, day: date) -> date:
        if day > self.today:
            raise ValidationError("This date is in the future.")
        return day

    @property
    def period(self) -> Period:
        """What was asked for; only of a valid form."""
        return Period(self.cleaned_data["since"], self.cleaned_data["until"])

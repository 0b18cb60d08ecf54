"""Narrowing the log: whose record, who did it, when."""

from typing import Any

from crispy_forms.helper import FormHelper
from django import forms

from clinic.fields import DayField


class LogFilterForm(forms.Form):
    """Every field may stay empty."""

    record_number = forms.CharField(label="Patient's record number", required=False, max_length=20)
    person = forms.CharField(label="Who (part of the name)", required=False, max_length=60)
    since = DayField(label="From", required=False, help_text="")
    until = DayField(label="Until", required=False, help_text="")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = FormHelper()
        self.helper.form_tag = False

    def clean_record_number(self) -> str:
        return str(self.cleaned_data["record_number"]).strip().upper()

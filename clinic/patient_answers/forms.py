"""The clinic's own questions as a form; each may be left empty."""

from decimal import Decimal
from typing import Any

from django import forms

from clinic.patient_answers.actions import NOTHING
from clinic.patient_answers.choices import How, Withdrawn
from clinic.patient_answers.models import LEAST, MOST
from clinic.patient_answers.questions import EACH, QUESTIONS, Question
from clinic.patients.forms import plain_helper, why_field
from clinic.visits.forms.fields import NumberField


def _field(one: Question) -> NumberField:
    return NumberField(
        min_value=Decimal(LEAST),
        max_value=Decimal(MOST),
        decimals=0,
        label=one.asks,
        help_text=EACH.format(none=one.none, most=one.most),
        required=False,
    )


class AnswersForm(forms.Form):
    """``pain_charted``: pain is on the visit already and is not asked twice."""

    how = forms.ChoiceField(
        label="How it was answered",
        choices=How.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose how it was answered."},
    )

    def __init__(self, *args: Any, pain_charted: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.asked = [one for one in QUESTIONS if not (pain_charted and one.key == "pain")]
        for one in self.asked:
            self.fields[one.key] = _field(one)
        self.helper = plain_helper()

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = self.cleaned_data
        if not self.errors and all(given.get(one.key) is None for one in self.asked):
            self.add_error(self.asked[0].key, NOTHING)
        return given

    def ratings(self) -> dict[str, int | None]:
        """What goes to the action; None was not answered."""
        given = {one.key: self.cleaned_data[one.key] for one in self.asked}
        return {key: None if rating is None else int(rating) for key, rating in given.items()}


class WithdrawForm(forms.Form):
    why = why_field(Withdrawn)
    helper = plain_helper()

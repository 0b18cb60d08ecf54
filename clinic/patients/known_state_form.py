"""What is asked of something known and accepted in one stoma."""

from datetime import date
from typing import Any

from django import forms
from django.utils import timezone

from clinic.fields import DayField, ThreeWayField
from clinic.patients.forms import RecordForm, plain_helper
from clinic.patients.models import KnownState
from clinic.patients.models.known_state import FIGURES, GO_BACK, KnownKind

UNITS = "; ".join(
    f"{kind.label.lower()}, {q.label.lower()} in {q.unit}" for kind, q in FIGURES.items()
)


class KnownStateForm(RecordForm):
    """What, how much, by whom, since when, to be looked at again when."""

    reducible = ThreeWayField(label="Reducible", help_text="Of a prolapse or a bulge.")
    agreed_on = DayField(label="Agreed on")
    since = DayField(label="There since", required=False)
    review_by = DayField(label="To be reviewed by", required=False)

    class Meta:
        model = KnownState
        fields = ("kind", "value", "reducible", "agreed_by", "agreed_on", "since", "review_by")
        help_texts = {
            "value": f"Where there is one: {UNITS}.",
            "agreed_by": "Name and role of the nurse or surgeon.",
        }
        error_messages = {
            "kind": {"required": "Choose what is known."},
            "agreed_by": {"required": "Say who agreed to it."},
            "value": {"invalid": "Write a number, such as 25 or 25.5."},
        }
        widgets = {"value": forms.TextInput({"inputmode": "decimal", "class": "number"})}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = plain_helper()

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        self._figure(given)
        if given.get("reducible") is not None and given.get("kind") not in GO_BACK:
            self.add_error("reducible", "Only a prolapse or a bulge is reducible: clear this.")
        agreed: date | None = given.get("agreed_on")
        if agreed and agreed > timezone.localdate():
            self.add_error("agreed_on", "This date is in the future.")
        if agreed and given.get("since") and given["since"] > agreed:
            self.add_error("since", "This is after the day it was agreed.")
        if agreed and given.get("review_by") and given["review_by"] < agreed:
            self.add_error("review_by", "This is before the day it was agreed.")
        return given

    def _figure(self, given: dict[str, Any]) -> None:
        value, kind = given.get("value"), given.get("kind")
        if value is None or not kind:
            return
        quantity = FIGURES.get(KnownKind(kind))
        if quantity is None:
            self.add_error("value", "There is no figure to agree of this: clear it.")
        elif not quantity.holds(float(value)):
            self.add_error("value", f"It must be {quantity.range_words}; please check.")

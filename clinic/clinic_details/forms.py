"""What the lead says of the clinic."""

from typing import Any

from crispy_forms.helper import FormHelper
from django import forms
from django.conf import settings
from django.utils.translation import get_language_info

from clinic.clinic_details.models import ClinicDetails, Holiday
from clinic.edit_conflict import EditConflictGuard
from clinic.fields import DayField, DayPicker

WEEKDAYS = tuple(
    enumerate(("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"))
)


def _helper() -> FormHelper:
    helper = FormHelper()
    helper.form_tag = False
    return helper


class DetailsForm(EditConflictGuard):
    """Name, telephone, hours in every language of the sheets, paper, closed weekdays."""

    helper = _helper()
    closed_weekdays = forms.TypedMultipleChoiceField(
        label="Closed every week on",
        choices=WEEKDAYS,
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )

    class Meta:
        model = ClinicDetails
        fields = ("name", "phone", "hours", "paper_size", "closed_weekdays", "figures_by_surgeon")
        labels = {
            "name": "Name of the clinic",
            "phone": "Telephone",
            "hours": "Opening hours",
            "paper_size": "Paper",
            "figures_by_surgeon": "Measures may be told apart by surgeon",
        }
        help_texts = {
            "name": "On every page and paper",
            "phone": "The number patients are asked to call",
            "hours": "As printed, for example Monday to Friday, 9 am to 4 pm",
            "figures_by_surgeon": "Ticked, the measures can be filtered by the surgeon who made "
            "the stoma. Few operations make figures that say more of chance than of skill",
        }
        widgets: dict[str, Any] = {"paper_size": forms.RadioSelect}
        error_messages = {
            "name": {"required": "Give the clinic's name."},
            "phone": {"required": "Give the number that patients call."},
            "paper_size": {"required": "Choose the paper."},
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        paper: Any = self.fields["paper_size"]
        paper.choices = [choice for choice in paper.choices if choice[0]]
        #: Language's code -> the name of its field.
        self.hours_fields = {code: f"hours_{code}" for code in settings.CLINIC_HOURS_TRANSLATED}
        for code, name in self.hours_fields.items():
            language = get_language_info(code)
            self.fields[name] = forms.CharField(
                label=f"Opening hours in {language['name']}",
                help_text="Left empty, the English ones are printed, in a frame",
                max_length=120,
                required=False,
                widget=forms.TextInput({"dir": "auto", "lang": code}),
            )
            self.initial[name] = self.instance.hours_translated.get(code, "")
        # Before the paper, beside the hours in English.
        self.order_fields(
            ["seen", "name", "phone", "hours", *self.hours_fields.values(), "paper_size"]
        )

    def values(self) -> dict[str, Any]:
        """What goes to the action."""
        own = {name: self.cleaned_data[name] for name in self._meta.fields or ()}
        typed = {code: self.cleaned_data[name] for code, name in self.hours_fields.items()}
        return {**own, "hours_translated": {code: words for code, words in typed.items() if words}}


class HolidayForm(forms.ModelForm):
    """One day on which the clinic is closed."""

    helper = _helper()
    day = DayField(label="Day", widget=DayPicker)

    class Meta:
        model = Holiday
        fields = ("day", "name")
        labels = {"name": "What it is called"}
        error_messages = {"name": {"required": "Say what the day is called."}}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        # The clinic's name is on the same page.
        kwargs.setdefault("auto_id", "id_holiday_%s")
        super().__init__(*args, **kwargs)

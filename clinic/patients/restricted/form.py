"""What is asked of somebody who opens, marks or frees a restricted record."""

from typing import Any

from django import forms
from django.utils.http import url_has_allowed_host_and_scheme

from clinic.patients.forms import plain_helper, without_blank
from clinic.patients.models import Restriction
from clinic.patients.restricted.reasons import Reason


class ReasonForm(forms.Form):
    """One chosen reason and a few words; ``leads_to``: the page that was closed."""

    reason = forms.ChoiceField(
        label="Why do you open it?",
        choices=Reason.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose a reason."},
    )
    words = forms.CharField(
        label="In a few words",
        help_text="The clinic lead reads this. Nothing of the record itself.",
        max_length=150,
        widget=forms.TextInput({"autocomplete": "off"}),
        error_messages={"required": "Say it in a few words."},
    )
    leads_to = forms.CharField(required=False, max_length=500, widget=forms.HiddenInput)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = plain_helper()

    def clean_words(self) -> str:
        return " ".join(str(self.cleaned_data["words"]).split())

    def clean_leads_to(self) -> str:
        """A page of this site, or none."""
        path = str(self.cleaned_data["leads_to"])
        here = path.startswith("/") and url_has_allowed_host_and_scheme(path, allowed_hosts=None)
        return path if here else ""

    def in_words(self) -> str:
        """For the trail: *An emergency: called to the ward*."""
        return f"{Reason(self.cleaned_data['reason']).label}: {self.cleaned_data['words']}"


class RestrictForm(forms.ModelForm):
    """Why the record is restricted from now on."""

    class Meta:
        model = Restriction
        fields = ("why", "words")
        labels = {"why": "Why", "words": "In a few words"}
        help_texts = {"words": "Needed for another reason. Nothing clinical."}
        widgets = {"why": forms.RadioSelect, "words": forms.TextInput({"autocomplete": "off"})}
        error_messages = {"why": {"required": "Say why."}}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        without_blank(self, "why")
        self.helper = plain_helper()


class LiftForm(forms.Form):
    """Nothing but the button."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = plain_helper()

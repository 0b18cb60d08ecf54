"""The form of a new task."""

from __future__ import annotations

from typing import Any

from django import forms

from clinic.accounts.models import User
from clinic.fields import DayField, DayPicker
from clinic.patients.forms import plain_helper
from clinic.patients.models import Patient
from clinic.tasks.models import OTHER_NEEDS_WORDS, TaskKind

ME, ALL = "me", "all"


class TaskForm(forms.Form):
    """What, when and for whom."""

    kind = forms.ChoiceField(
        label="What",
        choices=TaskKind.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose what it is about."},
    )
    words = forms.CharField(
        label="Details",
        help_text="For example: 2 boxes of rings, should come on Friday",
        max_length=300,
        required=False,
        widget=forms.Textarea({"rows": 2}),
    )
    day = DayField(label="Day", widget=DayPicker)
    for_whom = forms.ChoiceField(
        label="For",
        choices=[(ME, "Me"), (ALL, "All")],
        widget=forms.RadioSelect,
        error_messages={"required": "Choose who is reminded."},
    )
    stoma = forms.ChoiceField(label="About which stoma", required=False)

    def __init__(self, *args: Any, patient: Patient, user: User, **options: Any) -> None:
        super().__init__(*args, **options)
        self.user = user
        self.stomas = {str(stoma.uuid): stoma for stoma in patient.stomas.all()}
        if self.stomas:
            named = [(key, stoma.short_name) for key, stoma in self.stomas.items()]
            stomas: Any = self.fields["stoma"]
            stomas.choices = [("", "None: about the person"), *named]
        else:
            del self.fields["stoma"]
        self.helper = plain_helper()

    def clean(self) -> dict[str, Any]:
        given = self.cleaned_data
        if given.get("kind") == TaskKind.OTHER and not given.get("words"):
            self.add_error("words", OTHER_NEEDS_WORDS)
        return given

    def values(self) -> dict[str, Any]:
        """What goes to the action."""
        given = self.cleaned_data
        return {
            "kind": given["kind"],
            "words": given["words"],
            "day": given["day"],
            "for_whom": self.user if given["for_whom"] == ME else None,
            "stoma": self.stomas.get(given.get("stoma", "")),
        }

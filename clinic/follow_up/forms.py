"""The form that moves the day of a next visit."""

from __future__ import annotations

from datetime import date
from typing import Any

from django import forms

from clinic import formatting
from clinic.fields import ClockField, DayField, DayPicker
from clinic.follow_up.actions import (
    ALREADY_SET,
    NURSE_AGREES,
    NewDay,
    already_set,
    later_than_asked,
    why_not,
)
from clinic.follow_up.models import FollowUp, MoveReason


class MoveForm(forms.Form):
    """A new day and why; later than the visit asked for only once that is confirmed.

    ``not_later``: a later day needs a nurse's agreement, and the user is not one.
    """

    was = forms.CharField(widget=forms.HiddenInput, required=False)
    was_at = forms.CharField(widget=forms.HiddenInput, required=False)
    day = DayField(label="New day", widget=DayPicker)
    at = ClockField(label="Time", required=False)
    reason = forms.ChoiceField(
        label="Why",
        choices=MoveReason.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose why."},
    )
    words = forms.CharField(label="Details", max_length=300, required=False)
    late_confirmed = forms.BooleanField(required=False)

    def __init__(
        self,
        *args: Any,
        follow_up: FollowUp,
        today: date,
        clinical: bool,
        not_later: bool = False,
        **options: Any,
    ) -> None:
        self.follow_up, self.today, self.not_later = follow_up, today, not_later
        options["initial"] = {
            "was": follow_up.due.isoformat(),
            "was_at": formatting.clock(follow_up.at),
        }
        super().__init__(*args, **options)
        #: Days beyond what the visit asked for; above 0 the page asks to confirm.
        self.later = 0
        asked = formatting.day(follow_up.asked_for)
        passed = ", which has passed" if follow_up.asked_for < today else ", or sooner"
        nurse = f" {NURSE_AGREES}" if not_later else ""
        self.fields["day"].help_text = f"The last visit asked for {asked}{passed}.{nurse}"
        self.fields["at"].help_text = (
            f"Now at {formatting.clock(follow_up.at)}. Give it again if it is to stay."
            if follow_up.at
            else "Where one is agreed."
        )
        self.fields["late_confirmed"].label = f"Yes, later than {asked}"
        if not clinical:  # words may be clinical: the front desk neither writes nor sees them
            del self.fields["words"]

    def clean_day(self) -> date:
        day: date = self.cleaned_data["day"]
        if impossible := why_not(day, today=self.today):
            raise forms.ValidationError(impossible)
        if self.not_later and day > self.follow_up.due:
            raise forms.ValidationError(NURSE_AGREES)
        return day

    def clean(self) -> dict[str, Any]:
        given = self.cleaned_data
        shown = (given.get("was"), given.get("was_at"))
        if shown != (self.initial["was"], self.initial["was_at"]):
            now = formatting.day_and_time(self.follow_up.due, self.follow_up.at)
            raise forms.ValidationError(
                f"Someone else has moved this visit to {now}. Choose again if needed."
            )
        if {"day", "at"} <= given.keys() and already_set(self.follow_up, given["day"], given["at"]):
            self.add_error("day", ALREADY_SET)
        elif "day" in given:
            self.later = later_than_asked(self.follow_up, given["day"])
        if self.later and not given.get("late_confirmed"):
            days = f"{self.later} day{'s' * (self.later != 1)}"
            asked = formatting.day(self.follow_up.asked_for)
            self.add_error(
                "late_confirmed",
                f"That is {days} later than the last visit asked for ({asked}). "
                "Choose a sooner day, or tick to confirm the later day.",
            )
        return given

    def new_day(self) -> NewDay:
        """What was asked for, once the form holds together."""
        given = self.cleaned_data
        return NewDay(
            was=self.follow_up.due,
            day=given["day"],
            reason=MoveReason(given["reason"]),
            words=given.get("words", ""),
            late_confirmed=bool(self.later),
            at=given["at"],
        )

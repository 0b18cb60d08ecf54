"""Forms of a referral: refer, answer, record an answer received."""

from __future__ import annotations

from django import forms

from clinic.referrals.models import CameBy, Urgency


class AnswerForm(forms.Form):
    answer = forms.CharField(
        label="Answer",
        widget=forms.Textarea(attrs={"rows": 5}),
        max_length=4000,
        error_messages={"required": "Write the answer."},
    )


class ReceivedForm(forms.Form):
    """An answer that somebody gave outside the record."""

    answer_from = forms.CharField(
        label="From whom",
        max_length=200,
        help_text="Name and role of the person who answered",
        error_messages={"required": "Write who answered."},
    )
    came_by = forms.ChoiceField(
        label="How it came",
        choices=CameBy.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose how it came."},
    )
    received = forms.CharField(
        label="The answer, in their words",
        widget=forms.Textarea(attrs={"rows": 5}),
        max_length=4000,
        error_messages={"required": "Write the answer."},
    )


class ReferForm(forms.Form):
    """A question of the clinician's own. No urgency is chosen for them."""

    to = forms.CharField(
        label="To whom",
        max_length=200,
        help_text="A role or a name, such as: colorectal surgeon, dermatologist, family doctor",
        error_messages={"required": "Name the recipient."},
    )
    urgency = forms.ChoiceField(
        label="How soon",
        choices=Urgency.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose how urgent it is."},
    )
    question = forms.CharField(
        label="Question",
        help_text="The findings below come from the visit: change or shorten them as you need.",
        widget=forms.Textarea(attrs={"rows": 12}),
        max_length=4000,
        error_messages={"required": "Write the question."},
    )

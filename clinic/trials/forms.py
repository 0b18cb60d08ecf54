"""What is asked about a trial from before this record."""

from typing import Any

from crispy_forms.layout import Fieldset, Row
from django import forms
from django.utils import timezone

from clinic import formatting
from clinic.fields import PartialDayField
from clinic.patients.forms import RecordForm, may_stay_open, plain_helper, without_blank
from clinic.trials.choices import Outcome, Profile, Removal, Supply
from clinic.trials.models import EarlierTrial, first_day
from clinic.visits.models import Assessment

BARRIER = ("profile", "feel", "depth")
FIELDS = (
    *BARRIER,
    *("supplies", "size", "technique", "began", "ended"),
    *("outcome", "ended_because", "known_from"),
)
ONE_THAT_HURT = (
    "More than one thing is ticked. Record what hurt the skin in a row of its own, so that the "
    "others stay open to this person."
)


class EarlierTrialForm(RecordForm):
    """What, when, the outcome."""

    began = PartialDayField(label="From")
    ended = PartialDayField(label="To")
    supplies = forms.MultipleChoiceField(
        label="What else was tried",
        choices=Supply.choices,
        required=False,
        widget=forms.CheckboxSelectMultiple,
    )

    class Meta:
        model = EarlierTrial
        fields = FIELDS
        labels = {"profile": "Barrier", "feel": "Feel of the barrier"}
        help_texts = {
            "size": "For example: opening 35 mm, oval",
            "technique": "For example: warmed before use; put on lying down",
            "ended_because": "For example: leaked within a day; itching; too hard to close",
        }
        widgets = {
            **dict.fromkeys((*BARRIER, "outcome", "known_from"), forms.RadioSelect),
            **dict.fromkeys(("technique", "ended_because"), forms.Textarea({"rows": 2})),
        }
        error_messages = {
            "outcome": {"required": "Choose the outcome; not known is an answer."},
            "known_from": {"required": "Choose the source."},
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        may_stay_open(self, *BARRIER)
        profile: Any = self.fields["profile"]
        profile.choices = [*Profile.choices, ("", "No barrier, or not known")]
        without_blank(self, "outcome", "known_from")
        self.helper = plain_helper(
            Fieldset("What was tried", *BARRIER, "supplies", "size", "technique"),
            Fieldset(
                "When, and outcome", Row("began", "ended"), "outcome", "ended_because",
                "known_from",
            ),
        )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        self._of_something(given)
        self._barrier(given)
        self._dates(given)
        if given.get("outcome") == Outcome.HARMED and _parts(given) > 1:
            self.add_error("outcome", ONE_THAT_HURT)
        return given

    def _of_something(self, given: dict[str, Any]) -> None:
        if not any(given.get(name) for name in ("profile", "supplies", "size", "technique")):
            self.add_error("supplies", "Say what was tried: barrier, supply, size or technique.")

    def _barrier(self, given: dict[str, Any]) -> None:
        if given.get("depth") and given.get("profile") != Profile.CONVEX:
            self.add_error("depth", "Only a convex barrier has a dome: choose Convex, or clear it.")
        if given.get("feel") and not given.get("profile"):
            self.add_error("feel", "Choose the barrier first, or clear this.")

    def _dates(self, given: dict[str, Any]) -> None:
        for name in ("began", "ended"):
            if given.get(name) and (wrong := self._impossible(given[name])):
                self.add_error(name, wrong)
        began, ended = given.get("began"), given.get("ended")
        if began and ended and ended < began[: len(ended)]:
            self.add_error("ended", "This is before it began.")

    def _impossible(self, text: str) -> str:
        stoma = self.instance.stoma
        if first_day(text) > timezone.localdate():
            return "This is in the future."
        made = stoma.surgery_date
        if made and text < made.isoformat()[: len(text)]:
            return f"The stoma was made on {formatting.day(made)}, after this."
        first = (
            Assessment.objects.filter(stoma=stoma, visit__state="signed")
            .order_by("visit__happened_at")
            .values_list("visit__happened_at", flat=True)
            .first()
        )
        if first is None:
            return ""
        day = timezone.localdate(first)
        if text > day.isoformat()[: len(text)]:
            return (
                f"This is after the first visit on record ({formatting.day(day)}): what was tried "
                "since then comes from the visits."
            )
        return ""


def _parts(given: dict[str, Any]) -> int:
    return len(given.get("supplies") or ()) + bool(given.get("profile"))


class RemoveTrialForm(forms.Form):
    why = forms.ChoiceField(
        label="Why it comes off the list",
        choices=Removal.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Say why you remove it."},
    )
    helper = plain_helper()

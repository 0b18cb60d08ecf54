"""What is asked about a complication."""

from typing import Any

from crispy_forms.layout import Fieldset, Row
from django import forms
from django.utils import timezone

from clinic import formatting
from clinic.complications.choices import FROM_VISITS, Grade, Kind
from clinic.complications.models import DEFECT_CM, Complication
from clinic.fields import PartialDayField
from clinic.patients.forms import RecordForm, may_stay_open, plain_helper, without_blank
from clinic.trials.choices import Removal
from clinic.trials.models import first_day

HERNIA = ("defect_cm", "measured_by", "incisional", "recurrent")
OF_A_HERNIA = "This is of a hernia: choose Parastomal hernia, or clear it."
ANSWERS = ((True, "Yes"), (False, "No"))


def _yes_no(label: str) -> forms.TypedChoiceField:
    return forms.TypedChoiceField(
        label=label,
        choices=[*ANSWERS, ("", "Not recorded")],
        coerce=lambda value: value == "True",
        empty_value=None,
        required=False,
        widget=forms.RadioSelect,
    )


class ComplicationForm(RecordForm):
    """What, when, the grade; of a hernia also what was measured."""

    found_on = PartialDayField(label="When it was found")
    disability = _yes_no("Disability when discharged")
    incisional = _yes_no("Incisional hernia too")
    recurrent = _yes_no("Came back after a repair")

    class Meta:
        model = Complication
        fields = ("kind", "found_on", "grade", "disability", "done", *HERNIA)
        help_texts = {
            "kind": "Grade only: visits record the finding itself",
            "grade": "By what had to be done for it",
            "done": "For example: widened in the clinic; operated again",
            "defect_cm": "In cm, measured on CT or at operation. The bulge on the skin is no gap: "
            "leave this empty",
        }
        widgets = {
            **dict.fromkeys(("kind", "grade", "measured_by"), forms.RadioSelect),
            "done": forms.Textarea({"rows": 2}),
        }
        error_messages = {
            "kind": {"required": "Choose what happened."},
            "defect_cm": {"invalid": "Write the centimetres as a number, such as 4.5."},
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        without_blank(self, "kind")
        kind: Any = self.fields["kind"]
        visits = {str(one.value) for one in FROM_VISITS}
        kind.choices = [
            (value, f"{label} (grade only)" if value in visits
             else label)
            for value, label in kind.choices
        ]  # fmt: skip
        may_stay_open(self, "measured_by", "grade")
        grade: Any = self.fields["grade"]
        grade.choices = [*grade.choices[:-1], ("", "Not graded")]
        self.helper = plain_helper(
            Fieldset("What happened", "kind", "found_on"),
            Fieldset("How severe", "grade", "disability", "done"),
            Fieldset(
                "Only for a hernia: what was measured", Row("defect_cm", "measured_by"),
                "incisional", "recurrent",
            ),
        )  # fmt: skip

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        self._hernia(given)
        self._disability(given)
        if given.get("found_on") and (wrong := self._impossible(given["found_on"])):
            self.add_error("found_on", wrong)
        return given

    def _hernia(self, given: dict[str, Any]) -> None:
        if given.get("kind") and given["kind"] != Kind.HERNIA:
            for name in HERNIA:
                if given.get(name) not in ("", None):
                    self.add_error(name, OF_A_HERNIA)
            return
        size, by = given.get("defect_cm"), given.get("measured_by")
        low, high = DEFECT_CM
        if size is not None and not low <= size <= high:
            self.add_error("defect_cm", f"Give {low:g} to {high:g} cm, or leave it empty.")
        if size is not None and not by:
            self.add_error("measured_by", "Say how the gap was measured.")
        if by and size is None and "defect_cm" not in self.errors:
            self.add_error("defect_cm", "Give the centimetres, or clear how it was measured.")

    def _disability(self, given: dict[str, Any]) -> None:
        if given.get("disability") is None:
            return
        if not given.get("grade"):
            self.add_error("disability", "It goes with a grade: choose the grade, or clear it.")
        elif given["grade"] == Grade.V:
            self.add_error("disability", "Grade V is death: clear this.")

    def _impossible(self, text: str) -> str:
        if first_day(text) > timezone.localdate():
            return "This is in the future."
        made = self.instance.stoma.surgery_date
        if made and text < made.isoformat()[: len(text)]:
            return f"The stoma was made on {formatting.day(made)}, after this."
        return ""


class RemoveForm(forms.Form):
    why = forms.ChoiceField(
        label="Why it comes off the register",
        choices=Removal.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Say why you remove it."},
    )
    helper = plain_helper()

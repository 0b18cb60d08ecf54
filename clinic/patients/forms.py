"""What is asked about a patient, a sensitivity and a stoma, in words."""

from collections.abc import Mapping
from typing import Any

from crispy_forms.helper import FormHelper
from crispy_forms.layout import Fieldset, Layout, Row
from django import forms
from django.core.exceptions import ValidationError
from django.db.models import TextChoices

from clinic.edit_conflict import EditConflictGuard
from clinic.fields import DayField, ThreeWayField
from clinic.patients.models import Patient, Removal, Sensitivity, Stoma
from clinic.patients.models.none_known import BESIDE_ROWS

IDENTITY: tuple[str, ...] = (
    *("record_number", "family_name", "given_name", "date_of_birth", "sex"),
    *("sheet_language", "large_print"),
)
ABILITIES = ("hand_dexterity", "eyesight", "pouch_changed_by")


def plain_helper(*layout: Any) -> FormHelper:
    """A helper that leaves the form tag and the buttons to the page."""
    helper = FormHelper()
    helper.form_tag = False
    if layout:
        helper.layout = Layout(*layout)
        helper.render_hidden_fields = True
    return helper


def why_field(reasons: type[TextChoices]) -> forms.ChoiceField:
    """Why something on record no longer counts."""
    return forms.ChoiceField(
        label="Why it no longer counts",
        choices=reasons.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Say why."},
    )


class RecordForm(EditConflictGuard):
    """A form whose ``values`` go to an action."""

    def values(self) -> dict[str, Any]:
        """The validated values of the model's own fields, of those that were asked."""
        asked = [name for name in self._meta.fields or () if name in self.fields]
        return {name: self.cleaned_data[name] for name in asked}


class IdentityForm(RecordForm):
    """What the desk may ask: who the person is, and how their sheets are printed."""

    date_of_birth = DayField(label="Date of birth")

    class Meta:
        model = Patient
        fields = IDENTITY
        labels = {
            "large_print": "Print sheets in large type",
            "sheet_language": "Language of printed sheets",
        }
        help_texts = {
            "record_number": "As on the referral or wristband",
            "sheet_language": "Of what the patient takes home to read",
        }
        error_messages = {
            "record_number": {"required": "Give the record number."},
            "family_name": {"required": "Give the family name."},
            "given_name": {"required": "Give the given name."},
        }
        widgets: dict[str, Any] = {"sex": forms.RadioSelect}

    identity_layout = Fieldset(
        "Who",
        Row("record_number"),
        Row("given_name", "family_name"),
        Row("date_of_birth", "sex"),
        Row("sheet_language", "large_print"),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        may_stay_open(self, "sex")
        for name in ("record_number", "family_name", "given_name"):
            self.fields[name].widget.attrs["autocomplete"] = "off"
        self.helper = plain_helper(*self.parts())

    def parts(self) -> list[Any]:
        return [self.identity_layout]

    def clean_record_number(self) -> str:
        return str(self.cleaned_data["record_number"]).upper()


class PatientForm(IdentityForm):
    """The whole: identity, how they manage, and the conditions a plan depends on."""

    liver_disease = ThreeWayField(label="Liver disease")
    inflammatory_bowel_disease = ThreeWayField(label="Inflammatory bowel disease")
    diabetes = ThreeWayField(label="Diabetes")
    immunosuppressed = ThreeWayField(label="Immune system suppressed")
    anticoagulant = ThreeWayField(label="Takes an anticoagulant")
    radiotherapy_abdomen = ThreeWayField(label="Radiotherapy to the abdomen, ever")
    psoriasis_or_eczema = ThreeWayField(label="Psoriasis or eczema")
    transplant = ThreeWayField(label="Has had a transplant")
    kidney_disease = ThreeWayField(label="Kidney disease")
    heart_failure = ThreeWayField(label="Heart failure")
    cancer = ThreeWayField(label="Cancer")
    short_bowel = ThreeWayField(label="Short bowel")
    central_line = ThreeWayField(label="Central line")
    cirrhosis = ThreeWayField(label="Cirrhosis")
    portal_hypertension = ThreeWayField(label="Portal hypertension")
    frail = ThreeWayField(label="Frail")
    dementia = ThreeWayField(label="Dementia")
    last_weeks_of_life = ThreeWayField(label="In the last weeks of life")

    class Meta(IdentityForm.Meta):
        fields = (*IDENTITY, *ABILITIES, *Patient.STANDING_CONDITIONS, "notes")
        labels = {
            **IdentityForm.Meta.labels,
            "hand_dexterity": "Use of the hands",
            "pouch_changed_by": "Who changes the pouch",
            "notes": "Anything else to know",
        }
        widgets = {
            **IdentityForm.Meta.widgets,
            **dict.fromkeys(ABILITIES, forms.RadioSelect),
            "notes": forms.Textarea({"rows": 3}),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        may_stay_open(self, *ABILITIES)

    def parts(self) -> list[Any]:
        return [
            *super().parts(),
            Fieldset("How they manage", *ABILITIES),
            Fieldset("Conditions", *Patient.STANDING_CONDITIONS, css_class="compact"),
            Fieldset("Notes", "notes"),
        ]


class AskedForm(RecordForm):
    """Whether the skin has reacted to anything; what it was is a sensitivity of its own."""

    no_known_sensitivities = ThreeWayField(
        label="Has the skin ever reacted to a product or a material?",
        help_text="If it has, the next page asks to what.",
        yes="No, none known",
        no="Yes",
        unknown=("unknown", "Not asked, or not known"),
    )

    class Meta:
        model = Patient
        fields = ("no_known_sensitivities",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = plain_helper()

    def clean_no_known_sensitivities(self) -> bool | None:
        none_known: bool | None = self.cleaned_data["no_known_sensitivities"]
        if none_known and self.instance.sensitivities.exists():
            raise ValidationError(BESIDE_ROWS)
        return none_known


class SensitivityForm(RecordForm):
    """One material the skin has reacted to."""

    confirmed_by_patch_test = ThreeWayField(label="Confirmed by a patch test")

    class Meta:
        model = Sensitivity
        fields = ("material", "other_material", "reaction", "since", "confirmed_by_patch_test")
        labels = {"other_material": "Which other material", "reaction": "What happened"}
        help_texts = {
            "since": "As precise as known: 2021, 2021-03 or 2021-03-14. Leave empty if unknown.",
            "other_material": "Only if you chose Other. Name the material, not a brand.",
            "reaction": "For example: itching and redness within a day",
        }
        widgets = {"material": forms.RadioSelect, "since": forms.TextInput({"class": "day"})}
        error_messages = {
            "material": {"required": "Choose the material."},
            "reaction": {"required": "Say what happened."},
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        without_blank(self, "material")
        self.helper = plain_helper()


class StomaForm(RecordForm):
    """What was made, where and when."""

    beside = {"closed_on": "surgery_date"}
    surgery_date = DayField(label="Date of surgery", required=False)

    class Meta:
        model = Stoma
        fields = (
            *("kind", "construction", "site", "surgery_date", "surgery_date_unknown"),
            *("permanence", "indication", "surgeon"),
        )
        labels = {
            "surgery_date_unknown": "The date of surgery is not known",
            "site": "Where on the abdomen",
        }
        help_texts = {
            "site": "The patient's own right and left",
            "indication": "Why it was made",
        }
        widgets = dict.fromkeys(("kind", "construction", "site", "permanence"), forms.RadioSelect)
        error_messages = {
            "kind": {"required": "Choose the kind of stoma."},
            "construction": {"required": "Choose how it was made."},
            "site": {"required": "Choose the place."},
            "permanence": {"required": "Choose one; not known is an answer."},
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        without_blank(self, "kind", "construction", "site", "permanence")
        self.helper = plain_helper()


class CloseStomaForm(RecordForm):
    """The day a stoma was reversed or removed."""

    closed_on = DayField(label="Reversed or removed on")

    class Meta:
        model = Stoma
        fields = ("closed_on",)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.helper = plain_helper()


class RemoveSensitivityForm(forms.Form):
    """Why a sensitivity comes off the record."""

    why = forms.ChoiceField(
        choices=Removal.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Say why you remove it."},
    )
    helper = plain_helper()


def without_blank(form: forms.BaseForm, *names: str) -> None:
    """Required radio buttons without Django's empty choice: nothing chosen is an error."""
    for name in names:
        field: Any = form.fields[name]
        field.choices = [choice for choice in field.choices if choice[0] not in ("", None)]


def may_stay_open(form: forms.BaseForm, *names: str) -> None:
    """Optional radio buttons: the empty choice says what it means, and undoes a slip."""
    for name in names:
        field: Any = form.fields[name]
        answers = [choice for choice in field.choices if choice[0] not in ("", None)]
        field.choices = [*answers, ("", "Not recorded")]


def conditions_of(patient: Patient) -> Mapping[str, bool | None]:
    """Each standing condition's label with yes, no or not known."""
    labels = PatientForm.base_fields
    return {str(labels[name].label): getattr(patient, name) for name in Patient.STANDING_CONDITIONS}

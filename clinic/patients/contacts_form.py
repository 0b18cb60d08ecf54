"""How to reach a person: their contacts, and one row for each telephone."""

from collections.abc import Iterable, Iterator, Sequence
from typing import Any
from uuid import UUID, uuid4

from django import forms
from django.http import QueryDict

from clinic.fields import ThreeWayField
from clinic.patients.actions import Number
from clinic.patients.forms import RecordForm, plain_helper
from clinic.patients.models import Contacts, PhoneKind, Telephone, Whose
from clinic.patients.models.telephone import NUMBER_CHECKS

#: Offered while typing; any other may be written.
LANGUAGES = (
    *("Albanian", "Amharic", "Arabic", "Bengali", "Cantonese", "Dari", "English", "Farsi"),
    *("French", "German", "Gujarati", "Hindi", "Italian", "Kurdish", "Mandarin", "Pashto"),
    *("Polish", "Portuguese", "Punjabi", "Romanian", "Russian", "Sign language", "Somali"),
    *("Spanish", "Tamil", "Tigrinya", "Turkish", "Ukrainian", "Urdu", "Vietnamese"),
)
LANGUAGE_LIST = "languages"
ROW = "telephone-row"
AT_MOST = 12
NO_NUMBER = "Give the number, or empty the whole row to take it off the record."
QUIET = {"autocomplete": "off", "spellcheck": "false"}


class ContactsForm(RecordForm):
    """Language, carer, family doctor and address. What a carer does for the stoma is clinical:
    ``clinical`` says whether it is asked."""

    prefix = "contacts"
    interpreter_needed = ThreeWayField(
        label="Interpreter needed", unknown=("unknown", "Not recorded")
    )
    carer_changes = ThreeWayField(
        label="Does the carer change the pouch?", unknown=("unknown", "Not recorded")
    )
    carer_may_be_told = ThreeWayField(
        label="May the carer be spoken with about the patient?",
        help_text="Only as the patient has agreed.",
        unknown=("unknown", "Not recorded"),
    )

    class Meta:
        model = Contacts
        fields = (
            *("language_spoken", "interpreter_needed"),
            *("carer_name", "carer_relation", "carer_phone", "carer_changes", "carer_may_be_told"),
            *("doctor_name", "doctor_practice", "doctor_phone", "address"),
        )
        labels = {
            "language_spoken": "Language spoken",
            "carer_name": "Carer's name",
            "carer_relation": "How related",
            "carer_phone": "Carer's telephone",
            "doctor_name": "Doctor's name",
            "doctor_practice": "Practice",
            "doctor_phone": "Practice's telephone",
            "address": "Address",
        }
        help_texts = {"language_spoken": "With the patient, at a visit or by telephone"}
        widgets = {
            "language_spoken": forms.TextInput({**QUIET, "list": LANGUAGE_LIST}),
            **dict.fromkeys(
                ("carer_name", "carer_relation", "doctor_name", "doctor_practice"),
                forms.TextInput(QUIET),
            ),
            **dict.fromkeys(
                ("carer_phone", "doctor_phone"), forms.TextInput({**QUIET, "type": "tel"})
            ),
            "address": forms.Textarea({"rows": 3, **QUIET}),
        }

    def __init__(self, *args: Any, clinical: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not clinical:
            del self.fields["carer_changes"]
        self.helper = plain_helper()

    @property
    def languages(self) -> tuple[str, ...]:
        return LANGUAGES

    @property
    def is_filled(self) -> bool:
        """Whether anything at all was typed or chosen."""
        return any(given not in ("", None) for given in self.values().values())


class TelephoneForm(forms.Form):
    """One number as it was typed, whose it is and what kind."""

    number = forms.CharField(
        label="Telephone",
        max_length=40,
        required=False,
        validators=NUMBER_CHECKS,
        widget=forms.TextInput({**QUIET, "type": "tel"}),
    )
    whose = forms.ChoiceField(
        label="Whose", choices=[("", "Not recorded"), *Whose.choices], required=False
    )
    kind = forms.ChoiceField(
        label="Kind", choices=[("", "Not recorded"), *PhoneKind.choices], required=False
    )
    name = forms.CharField(
        label="Name or remark", max_length=80, required=False, widget=forms.TextInput(QUIET)
    )

    def __init__(self, data: QueryDict | None = None, *, key: UUID, **kwargs: Any) -> None:
        self.key = key
        super().__init__(data, prefix=f"telephone-{key}", **kwargs)

    def clean(self) -> dict[str, Any]:
        given = self.cleaned_data
        if "number" in given and not given["number"] and any(given.values()):
            self.add_error("number", NO_NUMBER)
        if given.get("whose") == Whose.OTHER and not given.get("name"):
            self.add_error("name", "Say whose number it is.")
        return given


class TelephoneRows:
    """Every row of a page; an emptied row is taken off the record.

    Each row carries a key made where it is typed, so that a page sent twice never doubles one.
    """

    def __init__(
        self, data: QueryDict | None, kept: Iterable[Telephone] = (), *, blank: int
    ) -> None:
        self.forms = list(_stored(kept, blank) if data is None else _posted(data, blank))

    def __iter__(self) -> Iterator[TelephoneForm]:
        return iter(self.forms)

    def is_valid(self) -> bool:
        # Every row says what is wrong, not only the first.
        valid = [form.is_valid() for form in self.forms]
        return all(valid)

    @property
    def numbers(self) -> Sequence[Number]:
        """What was typed, once every row holds together."""
        rows = [(form.key, form.cleaned_data) for form in self.forms]
        return [Number(key, values) for key, values in rows if values["number"]]


def _stored(kept: Iterable[Telephone], blank: int) -> Iterator[TelephoneForm]:
    for one in kept:
        shown = {name: getattr(one, name) for name in TelephoneForm.base_fields}
        yield TelephoneForm(key=one.uuid, initial=shown)
    for _ in range(blank):
        yield TelephoneForm(key=uuid4())


def _posted(data: QueryDict, at_least: int) -> Iterator[TelephoneForm]:
    """The rows as they were posted; where some are missing the page still has its empty ones."""
    keys = []
    for typed in dict.fromkeys(data.getlist(ROW)[:AT_MOST]):
        try:
            keys.append(UUID(typed))
        except ValueError:
            continue
    keys += [uuid4() for _ in range(at_least - len(keys))]
    return (TelephoneForm(data, key=key) for key in keys)

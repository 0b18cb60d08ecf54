"""Everything the page that registers somebody asks, as one form."""

from collections.abc import Iterator
from typing import Any

from django import forms
from django.forms.boundfield import BoundField
from django.http import QueryDict

from clinic.patients.contacts_form import ContactsForm, TelephoneForm, TelephoneRows
from clinic.patients.duplicates import Alike, alike
from clinic.patients.forms import ABILITIES, IdentityForm, PatientForm
from clinic.patients.models import Contacts, Patient

#: Rows for a telephone: the first is seen at once, the others are under More.
TELEPHONES = 3


class Registration:
    """Identity, contacts and telephones; with abilities and conditions where ``clinical``."""

    def __init__(self, data: QueryDict | None, *, clinical: bool) -> None:
        self.data = data
        self.identity: IdentityForm = (PatientForm if clinical else IdentityForm)(data)
        self.contacts = ContactsForm(data, instance=Contacts(), clinical=clinical)
        self.telephones = TelephoneRows(data, blank=TELEPHONES)
        self.clinical = clinical

    @property
    def forms(self) -> tuple[forms.BaseForm, ...]:
        return (self.identity, *self.telephones, self.contacts)

    @property
    def first_telephone(self) -> TelephoneForm:
        return self.telephones.forms[0]

    @property
    def more_telephones(self) -> list[TelephoneForm]:
        return self.telephones.forms[1:]

    @property
    def abilities(self) -> Iterator[BoundField]:
        return (self.identity[name] for name in ABILITIES)

    @property
    def conditions(self) -> Iterator[BoundField]:
        return (self.identity[name] for name in Patient.STANDING_CONDITIONS)

    @property
    def more_is_open(self) -> bool:
        """Whether something under More was typed, or is wrong."""
        rows = self.more_telephones
        return bool(
            self.contacts.errors
            or any(row.errors or row.has_changed() for row in rows)
            or set(self.contacts.changed_data) - {"seen", "language_spoken"}
        )

    @property
    def clinical_is_open(self) -> bool:
        """Whether one of the abilities, conditions or notes was answered, or is wrong."""
        asked = {*ABILITIES, *Patient.STANDING_CONDITIONS, "notes"}
        return bool(asked & {*self.identity.errors, *self.identity.changed_data})

    def is_valid(self) -> bool:
        # Every part says what is wrong, not only the first.
        valid = [part.is_valid() for part in (self.identity, self.telephones, self.contacts)]
        return all(valid)

    def values(self) -> dict[str, Any]:
        return self.identity.values()

    def alike(self) -> list[Alike]:
        """Who on record may be this person, as far as what was typed can be read."""
        typed = self.identity.cleaned_data
        number = typed.get("record_number") or self.identity["record_number"].value() or ""
        return alike(
            given_name=typed.get("given_name", ""),
            family_name=typed.get("family_name", ""),
            born=typed.get("date_of_birth"),
            numbers=[
                row.cleaned_data.get("number", "")
                for row in self.telephones
                if row.cleaned_data.get("whose") != "care home"
            ],
            record_number=str(number).strip().upper(),
        )

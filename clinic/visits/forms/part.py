"""The form of one part of a visit: model columns as the fields above, last visit beside each."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, ClassVar

from django import forms
from django.contrib.postgres.fields import ArrayField
from django.core.exceptions import NON_FIELD_ERRORS
from django.db import models
from django.forms.utils import ErrorDict

from clinic.fields import ThreeWayField, WordField
from clinic.visits.choices import Hour
from clinic.visits.forms.fields import (
    NOT_RECORDED,
    HourField,
    HoursField,
    NumberField,
    RadiiField,
    WordsField,
)
from clinic.visits.models.fields import quantity_of
from clinic.visits.value_words import value_words

#: Up to this many choices are buttons side by side; more become a list to choose from.
MOST_BUTTONS = 5
#: Buttons whatever their number: asked at every visit.
ALWAYS_BUTTONS = {"reason", "consistency"}


def form_field(column: models.Field[Any, Any], **kwargs: Any) -> forms.Field | None:
    """The form field for a model column (``Meta.formfield_callback``)."""
    common: dict[str, Any] = {
        "label": column.verbose_name,
        "help_text": column.help_text,
        "required": False,
    }
    if "error_messages" in kwargs:
        common["error_messages"] = kwargs["error_messages"]
    if isinstance(column, ArrayField):
        return _list_field(column, common)
    if isinstance(column, models.BooleanField) and column.null:
        return ThreeWayField(unknown=NOT_RECORDED, **common)
    if column.name.endswith("_hour"):
        listed = [("", "Not recorded"), *((h, f"{h} o'clock") for h in Hour.values)]
        return HourField(choices=listed, coerce=int, empty_value=None, **common)
    if quantity := quantity_of(column):
        return NumberField.of(quantity, **common)
    if isinstance(column, models.CharField) and column.choices:
        return _word_field(column, {**common, "required": not column.blank})
    return column.formfield(**kwargs)


def _list_field(column: ArrayField[Any, Any], common: dict[str, Any]) -> forms.Field:
    if quantity_of(column.base_field):
        return RadiiField(**common)
    if column.base_field.choices:
        return WordsField(choices=column.base_field.choices, **common)
    return HoursField(**common)


def _word_field(column: models.Field[Any, Any], common: dict[str, Any]) -> forms.Field:
    choices = list(column.choices or [])
    if common["required"]:
        return WordField(choices=[("", "Choose"), *choices], **common)
    if len(choices) <= MOST_BUTTONS or column.name in ALWAYS_BUTTONS:
        return WordField(choices=[*choices, NOT_RECORDED], widget=forms.RadioSelect, **common)
    return WordField(choices=[NOT_RECORDED, *choices], **common)


@dataclass(frozen=True)
class Details:
    """Fields that only make sense while ``of`` is one of ``when``; ``hint`` is shown otherwise."""

    of: str
    when: tuple[str | bool, ...]
    names: tuple[str, ...]
    hint: str


class PartForm(forms.ModelForm):
    """One part. ``previous`` is the same part at the last signed visit; shown, never copied."""

    details: ClassVar[tuple[Details, ...]] = ()
    #: What it is called where fields of several forms are together: "Stoma", "Finding 2".
    topic = ""

    def __init__(self, *args: Any, previous: models.Model | None = None, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field: Any
        for name, field in self.fields.items():
            if previous is not None:
                field.last_value = value_words(previous, name)

    @property
    def filled(self) -> bool:
        """Whether anything at all was entered."""
        return any(value is not None and value != "" for value in self.cleaned_data.values())

    def show(self, name: str, messages: list[str]) -> None:
        """Add errors found elsewhere; an unbound form has no list of them of its own yet."""
        form: Any = self
        if form._errors is None and not self.is_bound:
            form._errors = ErrorDict()
        self.errors.setdefault(name, self.error_class()).extend(messages)

    def clean(self) -> dict[str, Any]:
        """Details without what they belong to are asked about, never dropped."""
        for details in self.details:
            if self.cleaned_data.get(details.of) not in details.when:
                for name in details.names:
                    if self.cleaned_data.get(name) not in (None, "", []):
                        self.add_error(name, details.hint)
        return self.cleaned_data

    def _post_clean(self) -> None:
        """The row's own rules, asked only where the form differs from what is stored.

        Each rule of the database costs a query, and at every save most of a page is as it was.
        """
        if self.has_changed() or self.is_new_row:
            super()._post_clean()  # type: ignore[misc]  # Django's own hook, left out of its types

    def storable(self) -> frozenset[str]:
        """Fields that can be stored though another is wrong: a danger counts at once.

        Leaves out whole groups in which one is wrong, so that what is stored holds together.
        """
        wrong = set(self.errors)
        if NON_FIELD_ERRORS in wrong:
            return frozenset()
        for details in self.details:
            group = {details.of, *details.names}
            if group & wrong:
                wrong |= group
        return frozenset(self.fields) - wrong

    def row_to_store(self) -> models.Model | None:
        """The row with what can be stored; None where that is nothing new."""
        good = self.storable()
        self.put_back(set(self.fields) - good)
        if not good.intersection(self.changed_data) and not (good and self.is_new_row):
            return None
        return self.instance

    def put_back(self, names: Iterable[str]) -> None:
        """Let the row say again what is stored, which checking has written over."""
        for name in names:
            if name in self.initial:
                setattr(self.instance, name, self.initial[name])

    @property
    def is_new_row(self) -> bool:
        """Whether storing it makes a row of several; a part is made by its first entry."""
        return False

    @classmethod
    def applies(cls, row: models.Model, name: str) -> bool:
        """Whether column ``name`` makes sense for what ``row`` says elsewhere."""
        return all(
            name not in details.names or getattr(row, details.of) in details.when
            for details in cls.details
        )

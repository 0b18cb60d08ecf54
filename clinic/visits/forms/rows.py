"""Parts that come several times: skin findings, creases, barriers worn.

A row carries its own id, made where it is typed: sending a page twice never doubles a row.
"""

from __future__ import annotations

import uuid
from collections.abc import Iterable
from typing import Any, ClassVar

from django import forms
from django.db import models as db
from django.http import QueryDict
from django.utils import timezone
from django.utils.functional import cached_property

from clinic.fields import DayField, DayPicker
from clinic.visits import models
from clinic.visits.forms.fields import HoursField
from clinic.visits.forms.part import PartForm, form_field

#: Empty rows offered where the page works without scripts.
SPARE_ROWS = 1


class RowForm(PartForm):
    """One row; ``remove`` takes it away with the next save."""

    remove = forms.BooleanField(label="Remove", required=False)
    #: Values a fresh row carries that are no entry by themselves.
    unfilled: tuple[Any, ...] = (None, "", [])
    #: What one row is called on the page; ``topic`` says which of them.
    called = ""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for field in self.fields.values():
            if type(field.widget) is forms.RadioSelect:
                # Yes / no side by side would make a row a page long.
                field.widget = forms.Select(choices=_short(field.widget.choices))

    #: Without these right, nothing of the row can be stored.
    needed: ClassVar[frozenset[str]] = frozenset()
    #: These are right together or not at all.
    together: ClassVar[frozenset[str]] = frozenset()

    def storable(self) -> frozenset[str]:
        good = super().storable()
        if not self.needed <= good:
            return frozenset()
        return good if self.together <= good else good - self.together

    @property
    def is_new_row(self) -> bool:
        return bool(self.instance._state.adding)

    @property
    def untouched(self) -> bool:
        """A spare row in which nothing was entered."""
        if not self.is_bound:
            return bool(self.instance._state.adding)
        names = [n for n in self.fields if n != "remove"]
        raw = (self[n].data for n in names)
        return all(value in self.unfilled for value in raw)


def _short(choices: Iterable[tuple[Any, Any]]) -> list[tuple[Any, Any]]:
    rest = [(value, label) for value, label in choices if value != ""]
    return [("", "\u2013"), *rest]


class HoursRowForm(RowForm):
    """A row that lies at some hours round the stoma."""

    needed = frozenset({"hours"})
    hours = HoursField(
        label="Hours", required=True, error_messages={"required": "Tick at least one hour."}
    )


class SkinRowForm(HoursRowForm):
    needed = frozenset({"kind", "hours"})
    together = frozenset({"inner_mm", "outer_mm"})
    called = "Finding"

    #: Folded away until something in it is charted or wrong.
    more_names = (
        *("outline_of", "days", "changing", "hours_to_spread", "fades_min", "stays_min"),
        *("minutes_after_contact", "across_mm", "numb_or_crackling", "flat_edge"),
        "pain_0_10",
    )

    @property
    def more(self) -> list[forms.BoundField]:
        """What is asked of a finding only where it matters."""
        return [self[name] for name in self.more_names]

    @property
    def more_is_open(self) -> bool:
        """Whether something in it is charted or wrong."""
        return any(field.errors or field.value() not in (None, "") for field in self.more)

    class Meta:
        model = models.SkinFinding
        exclude = ["id", "assessment", "position"]
        formfield_callback = form_field
        error_messages = {"kind": {"required": "What kind of finding is it?"}}

    def clean(self) -> dict[str, Any]:
        inner, outer = self.cleaned_data.get("inner_mm"), self.cleaned_data.get("outer_mm")
        if inner is not None and outer is not None and outer <= inner:
            self.add_error("outer_mm", "This must be further out than where it begins.")
        return self.cleaned_data


class CreaseRowForm(HoursRowForm):
    called = "Crease"

    class Meta:
        model = models.Crease
        exclude = ["id", "assessment", "position"]
        formfield_callback = form_field


class ColourRowForm(HoursRowForm):
    needed = frozenset({"colour", "hours"})
    called = "Part of the stoma"

    class Meta:
        model = models.ColourPart
        exclude = ["id", "assessment", "position"]
        formfield_callback = form_field
        error_messages = {"colour": {"required": "Which colour is this part?"}}


class BegunRowForm(RowForm):
    needed = frozenset({"product"})
    called = "Product"

    class Meta:
        model = models.BegunProduct
        exclude = ["id", "assessment", "position"]
        formfield_callback = form_field
        error_messages = {"product": {"required": "Which product was started?"}}


class WoundRowForm(HoursRowForm):
    called = "Wound"

    class Meta:
        model = models.Wound
        exclude = ["id", "assessment", "position"]
        formfield_callback = form_field


class OtherStomaRowForm(HoursRowForm):
    called = "Other stoma"

    class Meta:
        model = models.OtherStoma
        exclude = ["id", "assessment", "position"]
        formfield_callback = form_field


class WearRowForm(RowForm):
    needed = frozenset({"on", "off", "reason"})
    called = "Barrier"
    on = DayField(
        label="Put on", widget=DayPicker, error_messages={"required": "When was it put on?"}
    )
    off = DayField(label="Came off", required=False, widget=DayPicker, help_text="Empty: still on.")

    class Meta:
        model = models.WearEpisode
        exclude = ["id", "assessment", "position"]
        formfield_callback = form_field

    def clean(self) -> dict[str, Any]:
        on, off = self.cleaned_data.get("on"), self.cleaned_data.get("off")
        reason = self.cleaned_data.get("reason")
        if on and off and off < on:
            self.add_error("off", "It came off before it was put on.")
        if off and not reason:
            self.add_error("reason", "Why did it come off?")
        ended = reason or self.cleaned_data.get("circumstance")
        if ended and not off and "off" not in self.errors:
            self.add_error("off", "When did it come off?")
        visit_day = timezone.localdate(self.instance.assessment.visit.happened_at)
        for name, day in (("on", on), ("off", off)):
            if day and day > visit_day:
                self.add_error(name, "This is after the visit.")
        return self.cleaned_data


class RowSet:
    """The rows of one kind on the page, in their order there."""

    def __init__(
        self,
        *,
        prefix: str,
        form: type[RowForm],
        assessment: models.Assessment,
        stored: Iterable[db.Model],
        data: QueryDict | None = None,
        spare: int = 0,
    ) -> None:
        self.prefix, self.form_class, self.assessment = prefix, form, assessment
        self.stored = {str(row.pk): row for row in stored}
        self.forms = self._bound(data) if data is not None else self._unbound()
        self.forms += [self._new() for _ in range(spare)]
        for number, row in enumerate(self.forms, start=1):
            row.topic = f"{self.form_class.called} {number}"

    @cached_property
    def blank(self) -> RowForm:
        """What the page's script copies for a fresh row."""
        return self._new(key="KEY")

    def _bound(self, data: QueryDict) -> list[RowForm]:
        keys = [key for key in data.getlist(f"{self.prefix}-row") if _is_uuid(key)]
        new = [key for key in keys if key not in self.stored]
        # An id that is another visit's row is no row of this one.
        model = self.form_class._meta.model
        elsewhere = {
            str(pk) for pk in model.objects.filter(pk__in=new).values_list("pk", flat=True)
        }
        return [self._form(key, data) for key in dict.fromkeys(keys) if key not in elsewhere]

    def _unbound(self) -> list[RowForm]:
        return [self._form(key, None) for key in self.stored]

    def _form(self, key: str, data: QueryDict | None) -> RowForm:
        row = self.stored.get(key)
        if row is None:
            row = self.form_class._meta.model(pk=uuid.UUID(key), assessment=self.assessment)
        form = self.form_class(data, instance=row, prefix=f"{self.prefix}-{key}")
        form.key = key  # type: ignore[attr-defined]
        return form

    def _new(self, key: str | None = None) -> RowForm:
        made = str(uuid.uuid4())
        row = self.form_class._meta.model(pk=uuid.UUID(made), assessment=self.assessment)
        form = self.form_class(instance=row, prefix=f"{self.prefix}-{key or made}")
        form.key = key or made  # type: ignore[attr-defined]
        return form

    def kept(self) -> list[RowForm]:
        """Rows with something in them that are not being removed."""
        return [form for form in self.forms if not form.untouched and not self.is_removed(form)]

    def is_removed(self, form: RowForm) -> bool:
        return bool(form["remove"].data)

    def gone(self) -> list[str]:
        """Ids of stored rows that the page no longer holds."""
        kept = {form.key for form in self.kept()}  # type: ignore[attr-defined]
        return [key for key in self.stored if key not in kept]


def _is_uuid(text: str) -> bool:
    try:
        return str(uuid.UUID(text)) == text
    except ValueError:
        return False

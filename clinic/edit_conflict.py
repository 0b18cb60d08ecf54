"""Two people with the same form open: the second is warned, and nothing of either is lost."""

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.db.models import Model

from clinic import formatting
from clinic.requests import whole_number


class EditConflictGuard(forms.ModelForm):
    """A form that knows which version of the row it was opened on.

    The version is the newest history row; every tracked model has ``events``. Bound, it holds the
    row until the transaction ends: of two saved at one moment, the second sees the first.
    """

    #: Fields of the row that are not asked here, each with the field whose answer they limit.
    beside: Mapping[str, str] = {}

    seen = forms.CharField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["seen"].initial = self._newest()[0]
        #: The version that the page was opened on, where a newer one is on record.
        self._overtaken = ""

    def full_clean(self) -> None:
        """Beside each field that the other person changed, what is on record now."""
        super().full_clean()
        if self._overtaken:
            for name, words in list(self._changed_by_another(self._overtaken)):
                self.add_error(name, f"On record now: {words}. Yours is still in the field.")

    def clean_seen(self) -> str:
        newest, when = self._newest(hold=True)
        typed = str(self.cleaned_data["seen"])
        if self.instance.pk and typed != newest:
            self._overtaken = typed
            # Saving again, now knowingly, goes through.
            self.data = dict(self.data.items()) | {self.add_prefix("seen"): newest}
            raise ValidationError(
                f"Someone changed this record ({when}) while this page was open. What you typed "
                "is still here: compare it with the record, then save again.",
            )
        return typed

    def add_error(self, field: str | None, error: Any) -> None:
        """A rule of the row about something that is not asked here is said at ``beside``, or else
        above the form; Django would break on it."""
        if field is None and (by_field := getattr(error, "error_dict", None)):
            for name, found in by_field.items():
                place = self.beside.get(name, name)
                super().add_error(place if place in self.fields else None, found)
        else:
            super().add_error(field, error)

    def _newest(self, *, hold: bool = False) -> tuple[str, str]:
        if not self.instance.pk:
            return "", ""
        if hold:
            rows = type(self.instance)._default_manager.select_for_update()
            rows.filter(pk=self.instance.pk).first()
        event = self.instance.events.order_by("-pgh_id").first()
        return (str(event.pgh_id), formatting.moment(event.pgh_created_at)) if event else ("", "")

    def _changed_by_another(self, seen: str) -> Iterator[tuple[str, str]]:
        """Field -> its words on record, where somebody changed it since ``seen`` and it does not
        say what was typed here."""
        stored = type(self.instance)._default_manager.get(pk=self.instance.pk)
        events = self.instance.events.filter(pgh_id=whole_number(seen) or 0)
        before = events.first()
        for name in self._meta.fields or ():
            if name not in self.fields or not hasattr(stored, name):
                continue
            now = getattr(stored, name)
            untouched = before is not None and getattr(before, name, now) == now
            if not untouched and self.fields[name].has_changed(now, self[name].data):
                yield name, _in_words(stored, name, now)


def _in_words(row: Model, name: str, value: Any) -> str:
    if value is None or value == "":
        return "nothing"
    if isinstance(value, bool):
        return "Yes" if value else "No"
    if isinstance(value, date):
        return formatting.day(value)
    if isinstance(value, list):
        return ", ".join(map(str, value)) or "none"
    shown = getattr(row, f"get_{name}_display", None)
    return str(shown() if shown else value)

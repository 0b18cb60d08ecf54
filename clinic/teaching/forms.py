"""What is asked after teaching: who learned, when, by whom, and how far with each point."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from typing import Any
from uuid import UUID

from django import forms
from django.forms.boundfield import BoundField
from django.utils import timezone

from clinic import formatting
from clinic.fields import DayField
from clinic.patients.forms import plain_helper, why_field
from clinic.patients.models import Stoma
from clinic.teaching.actions import Session, Taught
from clinic.teaching.choices import Item, Learner, Level, TeachBack, Withdrawn
from clinic.teaching.missing import PointNow, Teaching
from clinic.visits.models import Visit

TODAY, OTHER_DAY = "today", "other"
ME, SOMEONE = "me", "someone"
NOT_TODAY = ("", "Not this time")
#: Words and a teach-back belong to a point with a level.
WITHOUT_LEVEL = "Choose how far they came with this, or clear what is beside it."


@dataclass(frozen=True)
class Row:
    """One line of the checklist: where it is now, and its three fields."""

    point: PointNow
    level: BoundField
    back: BoundField
    words: BoundField


class TeachingForm(forms.Form):
    """Nothing is filled in beforehand: every answer is pressed or typed."""

    learner = forms.ChoiceField(
        label="Who learned",
        choices=Learner.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Say who learned."},
    )
    learner_name = forms.CharField(
        label="Name of the carer", required=False, max_length=100,
        help_text="Only for a carer: who it is, for example: Ana, his wife",
    )  # fmt: skip
    when = forms.ChoiceField(
        label="When",
        widget=forms.RadioSelect,
        error_messages={"required": "Say when it was taught."},
    )
    day = DayField(label="Which day", required=False)
    by = forms.ChoiceField(
        label="Who taught",
        choices=[(ME, "I did"), (SOMEONE, "Someone else")],
        widget=forms.RadioSelect,
        error_messages={"required": "Say who taught it."},
    )
    taught_by = forms.CharField(
        label="Who it was", required=False, max_length=100, help_text="Name and role",
    )  # fmt: skip

    def __init__(
        self, data: Any, *, stoma: Stoma, teaching: Teaching, visit: Visit | None = None
    ) -> None:
        super().__init__(data)
        self.stoma, self.teaching, self.visit = stoma, teaching, visit
        this_day = f"At this visit, {formatting.day(self._day())}" if visit else self._today_words()
        when: Any = self.fields["when"]
        when.choices = [(TODAY, this_day), (OTHER_DAY, "Another day")]
        for item in Item:
            self._add(item)
        self.helper = plain_helper()

    def _day(self) -> date:
        return timezone.localdate(self.visit.happened_at) if self.visit else timezone.localdate()

    def _today_words(self) -> str:
        return f"Today, {formatting.day(self._day())}"

    def _add(self, item: Item) -> None:
        levels = [NOT_TODAY, *((str(value), label) for value, label in Level.choices)]
        self.fields[f"level_{item}"] = forms.ChoiceField(
            label=item.label, choices=levels, widget=forms.RadioSelect, required=False
        )
        # Said whole to a screen reader, as the point's own name is some way above.
        self.fields[f"back_{item}"] = forms.ChoiceField(
            label="Said or shown back",
            choices=[("", "Not asked to say or show it"), *TeachBack.choices],
            required=False,
            widget=forms.Select({"aria-label": f"{item.label}: said or shown back"}),
        )
        self.fields[f"words_{item}"] = forms.CharField(
            label="In their words",
            max_length=200,
            required=False,
            widget=forms.TextInput({"aria-label": f"{item.label}: in their words"}),
        )

    @property
    def about(self) -> list[BoundField]:
        """Who, when, by whom."""
        return [self[n] for n in ("learner", "learner_name", "when", "day", "by", "taught_by")]

    def rows(self) -> Iterator[Row]:
        for point in self.teaching.points:
            level, back, words = (self[f"{n}_{point.item}"] for n in ("level", "back", "words"))
            yield Row(point, level, back, words)

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        self._learner(given)
        self._when(given)
        if given.get("by") == SOMEONE and not given.get("taught_by", "").strip():
            self.add_error("taught_by", "Say who taught it.")
        if given.get("by") == ME and given.get("taught_by"):
            self.add_error("taught_by", "Clear this, or choose Someone else.")
        self._points(given)
        return given

    def _learner(self, given: dict[str, Any]) -> None:
        name = given.get("learner_name", "").strip()
        if given.get("learner") == Learner.CARER and not name:
            self.add_error("learner_name", "Say who the carer is.")
        if given.get("learner") == Learner.PATIENT and name:
            self.add_error("learner_name", "Clear this, or choose A carer.")

    def _when(self, given: dict[str, Any]) -> None:
        if given.get("when") == TODAY and given.get("day"):
            self.add_error("day", "Clear the day, or choose Another day.")
        if given.get("when") != OTHER_DAY or "day" not in given:
            return
        day: date | None = given["day"]
        if day is None:
            self.add_error("day", "Give the day.")
        elif day > timezone.localdate():
            self.add_error("day", "This date is in the future.")
        elif day < self.stoma.patient.date_of_birth:
            self.add_error("day", "The patient was not born yet.")

    def _points(self, given: dict[str, Any]) -> None:
        for item in Item:
            level = given.get(f"level_{item}")
            if not level and (given.get(f"back_{item}") or given.get(f"words_{item}")):
                self.add_error(f"level_{item}", WITHOUT_LEVEL)
            if level == str(Level.CARER_DOES) and given.get("learner") == Learner.CARER:
                self.add_error(
                    f"level_{item}", "This belongs on the patient's list: say how far the carer is."
                )
        if not any(given.get(f"level_{item}") for item in Item) and not self.errors:
            self.add_error(None, "Nothing is chosen yet: choose how far they came with a point.")

    def session(self, key: UUID) -> Session:
        """``key`` was made with the page."""
        given = self.cleaned_data
        return Session(
            key=key,
            on=self._day() if given["when"] == TODAY else given["day"],
            learner=Learner(given["learner"]),
            learner_name=given["learner_name"].strip(),
            taught_by=given["taught_by"].strip(),
            visit=self.visit,
        )

    def points(self) -> dict[Item, Taught]:
        given = self.cleaned_data
        return {
            item: Taught(
                Level(int(given[f"level_{item}"])),
                TeachBack(given[f"back_{item}"]) if given[f"back_{item}"] else None,
                given[f"words_{item}"],
            )
            for item in Item
            if given[f"level_{item}"]
        }


class WithdrawForm(forms.Form):
    why = why_field(Withdrawn)
    helper = plain_helper()

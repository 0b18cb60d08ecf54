"""What is asked about a repeat. The visit's own figures are on no part of the form."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from datetime import datetime
from decimal import Decimal
from typing import Any

from crispy_forms.layout import HTML, Div, Fieldset, Row
from django import forms
from django.utils import timezone

from clinic.accounts.models import User
from clinic.accounts.permissions import Right, may
from clinic.fields import ClockField
from clinic.patients.forms import plain_helper, why_field
from clinic.plans.own_figures import area_of
from clinic.repeats.actions import NO_PAIR
from clinic.repeats.choices import Withdrawn
from clinic.repeats.models import LARGEST_MM2
from clinic.visits.choices import Hour
from clinic.visits.forms.fields import NumberField
from clinic.visits.models import Assessment
from planning.inputs import quantities as q

NOT_KNOWN = "not_known"
INTACT, DAMAGED = "intact", "damaged"
#: Places of damaged skin that the form has room for.
PATCHES = 3
PARTS = ("hours", "inner", "outer")
LENGTHS = ("length_mm", "width_mm", "protrusion_mm")
ANOTHER_POSTURE = "Readings in two postures are not repeats. Measure again in the same posture."


class RepeatForm(forms.Form):
    """``own``: which figures the visit has; only those are asked, and none is shown."""

    measured_by = forms.ChoiceField(
        label="Measured by", error_messages={"required": "Say who measured."}
    )
    at = ClockField(label="Measured at")
    length_mm = NumberField.of(q.LENGTH, label="Length", required=False)
    width_mm = NumberField.of(q.WIDTH, label="Width", required=False)
    protrusion_mm = NumberField.of(
        q.PROTRUSION,
        label="Protrusion",
        required=False,
        help_text="Lying and sitting; write the lower. Below the skin: a minus sign.",
    )
    skin = forms.ChoiceField(
        label="Damaged skin round the stoma",
        choices=[("", "Not measured"), (INTACT, "None"), (DAMAGED, "Damaged, as below")],
        required=False,
        widget=forms.RadioSelect,
    )
    posture = forms.ChoiceField(
        label="Posture",
        choices=[("same", "As for the visit's own figures"), ("other", "Another, or not known")],
        widget=forms.RadioSelect,
        error_messages={"required": "Say in which posture."},
    )
    known_before = forms.ChoiceField(
        label="Were the visit's own figures known before measuring?",
        choices=[("no", "No"), ("yes", "Yes, seen or heard")],
        widget=forms.RadioSelect,
        error_messages={"required": "Choose yes or no."},
    )
    first_by = forms.ChoiceField(
        label="Who took the visit's own figures?",
        error_messages={"required": "Choose who took them; not known is an answer."},
    )

    def __init__(
        self,
        *args: Any,
        assessment: Assessment,
        own: Mapping[str, Decimal | None],
        user: User,
        now: datetime,
        **kwargs: Any,
    ) -> None:
        super().__init__(*args, **kwargs)
        self.assessment, self.now = assessment, now
        self.staff = {str(one.uuid): one for one in _who_measures(assessment, user)}
        names = [(key, one.display_name) for key, one in self.staff.items()]
        every: Any = self.fields
        every["measured_by"].choices = names
        every["first_by"].choices = [("", "Choose"), *names, (NOT_KNOWN, "Not known")]
        every["measured_by"].initial = str(user.uuid)
        every["at"].initial = timezone.localtime(now).time()
        asked = [name for name in LENGTHS if own[name] is not None]
        for name in LENGTHS:
            if name not in asked:
                del self.fields[name]
        patches: list[Any] = []
        # An area is worked out from the size: where it is known, so are length and width.
        if own["area_mm2"] is None:
            del self.fields["skin"]
        else:
            patches = [self._patch(number) for number in range(1, PATCHES + 1)]
        self.helper = plain_helper(
            Fieldset("Who and when", Row("measured_by", "at"), "first_by", "known_before"),
            Fieldset("Stoma", "posture", Row(*asked)),
            *([self._skin(*patches)] if patches else []),
        )

    def _patch(self, number: int) -> Div:
        hours = forms.MultipleChoiceField(
            label=f"Place {number}: hours",
            choices=Hour.choices,
            required=False,
            widget=forms.CheckboxSelectMultiple,
        )
        near = NumberField.of(q.SKIN_FROM, label=f"Place {number}: from the edge", required=False)
        far = NumberField.of(q.SKIN_TO, label=f"Place {number}: out to", required=False)
        names = [f"{part}_{number}" for part in PARTS]
        for name, field in zip(names, (hours, near, far), strict=True):
            self.fields[name] = field
        return Div(names[0], Row(*names[1:]))

    def _skin(self, first: Div, *others: Div) -> Fieldset:
        """The first place in sight, the others folded unless anything was typed in them."""
        later = [f"{part}_{n}" for part in PARTS for n in range(2, PATCHES + 1)]
        typed = any(self.data.get(name) for name in later)
        begin = f"<details{' open' if typed else ''}><summary>More places</summary>"
        return Fieldset("Skin", "skin", first, HTML(begin), *others, HTML("</details>"))

    def clean_posture(self) -> str:
        posture: str = self.cleaned_data["posture"]
        if posture != "same":
            raise forms.ValidationError(ANOTHER_POSTURE)
        return posture

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = self.cleaned_data
        if given.get("at") and self._measured_at() > self.now:
            self.add_error("at", "This is later than now.")
        patches = list(self._patches(given))
        if patches and given.get("skin") != DAMAGED and "skin" in self.fields:
            self.add_error("skin", "A place is given below: choose Damaged, or clear it.")
        if given.get("skin") == DAMAGED and not patches and not self.errors:
            self.add_error("hours_1", "Say at which hours the skin is damaged.")
        self.patches = patches
        self.area = self._area(given) if not self.errors else None
        measured = [*(given.get(name) for name in LENGTHS), self.area]
        if not self.errors and all(value is None for value in measured):
            self.add_error(next(n for n in (*LENGTHS, "skin") if n in self.fields), NO_PAIR)
        return given

    def _patches(self, given: dict[str, Any]) -> Iterator[dict[str, Any]]:
        """Each place that was given, in figures that JSON can hold; half of one is refused."""
        for number in range(1, PATCHES + 1):
            hours = given.get(f"hours_{number}") or []
            inner, outer = given.get(f"inner_{number}"), given.get(f"outer_{number}")
            if not hours and inner is None and outer is None:
                continue
            if not hours:
                self.add_error(f"hours_{number}", "Say at which hours, or clear this place.")
            for name, value in (("inner", inner), ("outer", outer)):
                if value is None and f"{name}_{number}" not in self.errors:
                    self.add_error(f"{name}_{number}", "Write how far from the edge.")
            if inner is not None and outer is not None and outer <= inner:
                self.add_error(f"outer_{number}", "Farther out than where it begins, please.")
            if hours and inner is not None and outer is not None:
                yield {
                    "hours": sorted(int(hour) for hour in hours),
                    "inner_mm": float(inner),
                    "outer_mm": float(outer),
                }

    def _area(self, given: dict[str, Any]) -> Decimal | None:
        if given.get("skin") == INTACT:
            return Decimal(0)
        if given.get("skin") != DAMAGED:
            return None
        length, width = given.get("length_mm"), given.get("width_mm")
        if length is None or width is None:
            name = "length_mm" if length is None else "width_mm"
            self.add_error(name, "The area needs length and width of the same measuring.")
            return None
        found = area_of(length, width, self.patches)
        if found is not None and found > LARGEST_MM2:
            self.add_error("skin", "That is more skin than lies under a barrier; please check.")
            return None
        return found

    def _measured_at(self) -> datetime:
        day = timezone.localdate(self.now)
        return timezone.make_aware(datetime.combine(day, self.cleaned_data["at"]))

    def values(self) -> dict[str, Any]:
        """What goes to the action."""
        given = self.cleaned_data
        skin = {INTACT: [], DAMAGED: self.patches}.get(given.get("skin", ""))
        return {
            "measured_at": self._measured_at(),
            "measured_by": self.staff[given["measured_by"]],
            "first_by": self.staff.get(given["first_by"]),
            "known_before": given["known_before"] == "yes",
            **{name: given.get(name) for name in LENGTHS},
            "area_mm2": self.area,
            "skin": skin,
        }


def _who_measures(assessment: Assessment, user: User) -> list[User]:
    """Anyone who may chart, by name; the visit's clinician and the reader in any case."""
    found = {one.pk: one for one in User.objects.filter(is_active=True) if may(one, Right.CHART)}
    found |= {one.pk: one for one in (assessment.visit.clinician, user)}
    return sorted(found.values(), key=lambda one: one.display_name)


class WithdrawForm(forms.Form):
    why = why_field(Withdrawn)
    helper = plain_helper()

"""One form for each part of the visit page."""

from __future__ import annotations

from datetime import datetime, timedelta
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils import timezone
from django.utils.functional import cached_property

from clinic.patients.models import StomaKind
from clinic.visits import models
from clinic.visits.choices import (
    FIRST_ACCESSORIES,
    FIRST_URINE_SIGNS,
    Accessory,
    Consistency,
    Junction,
    LumenPosition,
    Presence,
    Profile,
    SectionKey,
    UrineSign,
)
from clinic.visits.forms.fields import FirstWordsField, HoursField, WordsField
from clinic.visits.forms.part import Details, PartForm, form_field
from clinic.visits.policies import why_not_assess


class VisitForm(PartForm):
    """When and why."""

    class Meta:
        model = models.Visit
        fields = ["happened_at", "held", "reason", "reason_words", "note"]
        formfield_callback = form_field
        widgets = {"note": forms.Textarea(attrs={"rows": 2})}

    happened_at = forms.DateTimeField(
        label="Date and time",
        widget=forms.DateTimeInput(attrs={"type": "datetime-local"}, format="%Y-%m-%dT%H:%M"),
        input_formats=["%Y-%m-%dT%H:%M", "%Y-%m-%dT%H:%M:%S", "%Y-%m-%d %H:%M"],
        error_messages={
            "required": "Give the date and time of the visit.",
            "invalid": "Write the date and time like 2024-05-31 14:30.",
        },
    )

    def clean_happened_at(self) -> datetime:
        when: datetime = self.cleaned_data["happened_at"]
        if ":" not in str(self["happened_at"].data):
            # A day alone would be read as midnight.
            raise ValidationError("Give the time too, like 2024-05-31 14:30.")
        if when > timezone.now() + timedelta(hours=1):
            raise ValidationError("The visit cannot be in the future.")
        day = timezone.localdate(when)
        if day < self.instance.patient.date_of_birth:
            raise ValidationError("The visit cannot be before the patient's birth.")
        for assessment in self.instance.assessments.select_related("stoma"):
            if why_not := why_not_assess(assessment.stoma, day):
                raise ValidationError(why_not)
        return when

    @cached_property
    def changed_data(self) -> list[str]:
        """Seconds that the browser's field cannot show do not count as a change."""
        return [name for name in super().changed_data if not self._same_minute(name)]

    def _same_minute(self, name: str) -> bool:
        if name != "happened_at":
            return False
        typed = getattr(self, "cleaned_data", {}).get(name)
        stored = self.initial.get(name)
        return bool(typed and stored and typed == stored.replace(second=0, microsecond=0))


class SystemForm(PartForm):
    """The back of the used barrier, and the system they arrived in."""

    erosion_hours = HoursField(
        label="Barrier melted or swollen at", none_label="Nowhere", required=False
    )
    leak_hours = HoursField(
        label="Stool or urine got under it at", none_label="Nowhere", required=False
    )
    lifts_hours = HoursField(label="Barrier lifts at", none_label="Nowhere", required=False)
    load_hours = HoursField(
        label="Clothing or a strap lies across at", none_label="Nowhere", required=False
    )

    accessories = FirstWordsField(
        label="Also used", first=FIRST_ACCESSORIES, choices=Accessory.choices, required=False
    )

    class Meta:
        model = models.PouchingSystem
        exclude = ["assessment"]
        formfield_callback = form_field

    details = (
        Details(
            "profile",
            (Profile.CONVEX,),
            ("convex_depth_mm", "convex_depth"),
            "Depth belongs to a convex barrier: choose Convex, or clear this.",
        ),
    )

    def clean(self) -> dict[str, Any]:
        given = super().clean()
        self._both("leaks", "leak_barriers", "How many leaks, of how many barriers? Fill in both.")
        days, product = given.get("begun_days"), given.get("begun_product")
        if days is not None and not product and "begun_product" not in self.errors:
            self.add_error("begun_product", "Which product was started then?")
        leaks, barriers = given.get("leaks"), given.get("leak_barriers")
        if leaks is not None and barriers is not None and leaks > barriers:
            self.add_error("leaks", "There cannot be more leaks than barriers.")
        return given

    def _both(self, one: str, other: str, asked: str) -> None:
        """Each of two fields says nothing without the other."""
        for name, beside in ((one, other), (other, one)):
            empty = self.cleaned_data.get(name) in (None, "")
            given = self.cleaned_data.get(beside) not in (None, "")
            if empty and given and name not in self.errors:
                self.add_error(name, asked)

    def storable(self) -> frozenset[str]:
        """One of a pair is not stored without the other."""
        good = super().storable()
        for pair in ({"leaks", "leak_barriers"}, {"begun_product", "begun_days"}):
            if not pair <= good:
                good -= pair
        return good


class StomaForm(PartForm):
    """Measured at the base; looked at; felt."""

    class Meta:
        model = models.StomaMeasurement
        exclude = ["assessment"]
        formfield_callback = form_field

    details = (
        Details(
            "lumen",
            (LumenPosition.OFF_CENTRE, LumenPosition.SKIN_LEVEL),
            ("lumen_hour",),
            "Choose Off-centre or At skin level, or clear the hour.",
        ),
        Details(
            "junction",
            (Junction.SEPARATED,),
            (
                "separation_hours",
                "separation_depth_mm",
                "separation_base_visible",
                "separation_undermined",
                "separation_contaminated",
                "separation_fascia_seen",
            ),
            "This describes a separation: choose Separated above, or clear this.",
        ),
        Details(
            "prolapse",
            (Presence.PRESENT,),
            (
                *("prolapse_extra_mm", "prolapse_reducible", "prolapse_painful"),
                *("prolapse_new", "prolapse_growing"),
            ),
            "This describes a prolapse: choose Present above, or clear this.",
        ),
    )

    def clean(self) -> dict[str, Any]:
        given = super().clean()
        off_centre = given.get("lumen") == LumenPosition.OFF_CENTRE
        if off_centre and given.get("lumen_hour") is None and "lumen_hour" not in self.errors:
            self.add_error("lumen_hour", "Towards which hour is the lumen off-centre?")
        separated = given.get("junction") == Junction.SEPARATED
        if separated and not given.get("separation_hours"):
            self.add_error("separation_hours", "Over which hours is it separated?")
        return given


class SkinForm(PartForm):
    """Looked at or not; the findings are rows of their own."""

    class Meta:
        model = models.SkinAssessment
        exclude = ["assessment"]
        formfield_callback = form_field


class AbdomenForm(PartForm):
    """Felt lying, sitting and standing."""

    class Meta:
        model = models.AbdomenAssessment
        exclude = ["assessment"]
        formfield_callback = form_field

    details = (
        Details(
            "bulge",
            (Presence.PRESENT,),
            (
                "bulge_hours",
                "bulge_height_mm",
                "bulge_width_mm",
                "bulge_reducible",
                "bulge_painful",
                "bulge_new",
                "bulge_hard",
                "bulge_skin_changed",
            ),
            "This describes a bulge: choose Present above, or clear this.",
        ),
    )

    def clean(self) -> dict[str, Any]:
        given = super().clean()
        if given.get("bulge") == Presence.PRESENT and not given.get("bulge_hours"):
            self.add_error("bulge_hours", "At which hours is the bulge?")
        return given


class OutputForm(PartForm):
    """What comes out, and how they are today."""

    urine_signs = FirstWordsField(
        label="Urine", first=FIRST_URINE_SIGNS, choices=UrineSign.choices, required=False
    )

    class Meta:
        model = models.OutputAssessment
        exclude = ["assessment"]
        formfield_callback = form_field

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        consistency = self["consistency"]
        listed: Any = consistency.field
        if self.instance.assessment.stoma.kind != StomaKind.UROSTOMY:
            # Still read where it was charted: only not offered.
            listed.widget.choices = [
                pair
                for pair in listed.choices
                if pair[0] != Consistency.URINE or consistency.value() == Consistency.URINE
            ]


class PersonTodayForm(PartForm):
    """How the person is, whichever stoma is looked at."""

    class Meta:
        model = models.PersonToday
        exclude = ["assessment"]
        formfield_callback = form_field

    details = (
        Details(
            "pregnant",
            (True,),
            ("pregnant_weeks",),
            "Weeks belong to a pregnancy: choose Yes, or clear this.",
        ),
    )


class AssessmentForm(PartForm):
    """What belongs to the whole assessment."""

    not_looked_at = WordsField(
        label="Parts not looked at today",
        choices=SectionKey.choices,
        none_label=None,
        required=False,
    )

    class Meta:
        model = models.Assessment
        fields = [
            "not_looked_at",
            "recent_antibiotics",
            "rod_in_place",
            "last_plan_helped",
            "convexity_assessed",
            "convexity_reason",
            "antifungal_agreed",
        ]
        formfield_callback = form_field

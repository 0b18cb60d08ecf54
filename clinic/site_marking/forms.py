"""What is asked when a site is marked, and afterwards where the stoma was made."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.forms.boundfield import BoundField
from django.utils import timezone

from clinic.fields import DayField, ThreeWayField
from clinic.patients.forms import may_stay_open, plain_helper, why_field
from clinic.patients.models import Patient, Site, StomaKind
from clinic.site_marking.choices import CRITERIA, POSTURES, Rank, Used, Withdrawn
from clinic.site_marking.models import EDGE, FARTHEST, SiteMarking
from clinic.visits.pictures import Picture, clean_picture

NOT_CHECKED = ("unknown", "Not checked")
#: Quadrant -> the signs that its place on the drawing has: to the patient's left, to the head.
SIGNS = {
    Site.RIGHT_UPPER: (-1, 1),
    Site.LEFT_UPPER: (1, 1),
    Site.RIGHT_LOWER: (-1, -1),
    Site.LEFT_LOWER: (1, -1),
}
ABOUT = (
    *("planned", "marked_on", "marked_by", "consent", "agreed_with", "surgeon_informed"),
    *("surgeon", "wheelchair", "skin_reacts", "belt_line", "scars", "work", "faith"),
    *("marked_with", "note"),
)
CHECKS = (*CRITERIA, *POSTURES)
SITE = ("quadrant", "place_x", "place_y", "side_mm", "height_mm", *CHECKS)


def _whole(label: str, low: int, high: int, unit: str = "") -> forms.IntegerField:
    wrong = f"Write a whole number from {low} to {high}."
    field = forms.IntegerField(
        label=label,
        required=False,
        min_value=low,
        max_value=high,
        widget=forms.TextInput({"inputmode": "numeric", "class": "number", "autocomplete": "off"}),
        error_messages={"invalid": wrong, "min_value": wrong, "max_value": wrong},
    )
    field.unit = unit  # type: ignore[attr-defined]
    return field


@dataclass(frozen=True)
class SiteFields:
    """The fields of one site, for the page."""

    rank: Rank
    quadrant: BoundField
    place: tuple[BoundField, BoundField]
    measured: tuple[BoundField, BoundField]
    criteria: list[BoundField]
    postures: list[BoundField]


class MarkingForm(forms.Form):
    """The first site is asked for; the second may be left open. Nothing is filled in beforehand."""

    planned = forms.ChoiceField(
        label="Stoma planned", choices=StomaKind.choices, required=False, widget=forms.RadioSelect
    )
    marked_on = DayField(label="Marked on")
    marked_by = forms.CharField(
        label="Marked by", max_length=100, help_text="Name and role",
        error_messages={"required": "Say who marked it."},
    )  # fmt: skip
    consent = ThreeWayField(
        label="The person agreed to the marking", unknown=("unknown", "Not asked")
    )
    agreed_with = forms.CharField(
        label="Agreed with, and who was present", max_length=200, required=False
    )
    surgeon_informed = ThreeWayField(label="The surgeon was informed")
    surgeon = forms.CharField(label="Surgeon", max_length=100, required=False)
    wheelchair = ThreeWayField(label="Sits in a wheelchair")
    skin_reacts = ThreeWayField(label="Skin reacts to ink or film")
    belt_line = forms.CharField(label="Belt line, braces", max_length=200, required=False)
    scars = forms.CharField(label="Scars and folds", max_length=200, required=False)
    work = forms.CharField(label="Work and sport", max_length=200, required=False)
    faith = forms.CharField(
        label="Religion and customs that matter for the site", max_length=200, required=False
    )
    marked_with = forms.CharField(
        label="Marked with", max_length=200, required=False,
        help_text="For example: skin marker under clear film",
    )  # fmt: skip
    note = forms.CharField(
        label="Note", max_length=1000, required=False, widget=forms.Textarea({"rows": 2})
    )
    photo = forms.FileField(
        label="Photo of the marked abdomen", required=False,
        widget=forms.ClearableFileInput({"accept": "image/*"}),
    )  # fmt: skip

    def __init__(self, *args: Any, patient: Patient, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.patient = patient
        self.picture: Picture | None = None
        may_stay_open(self, "planned")
        for rank in Rank:
            self._add(rank)
        self.helper = plain_helper()

    def _add(self, rank: Rank) -> None:
        made: dict[str, forms.Field] = {
            "quadrant": forms.ChoiceField(
                label=f"Where: {rank.label.lower()}",
                choices=Site.choices,
                required=False,
                widget=forms.RadioSelect,
            ),
            "place_x": _whole("To the patient's left (+) or right (-)", -EDGE, EDGE),
            "place_y": _whole("To the head (+) or feet (-)", -EDGE, EDGE),
            "side_mm": _whole("From the navel to the side", 0, FARTHEST, "mm"),
            "height_mm": _whole("From the navel up or down", 0, FARTHEST, "mm"),
            **{
                name: ThreeWayField(label=label, unknown=NOT_CHECKED)
                for name, label in (CRITERIA | POSTURES).items()
            },
        }
        for name, field in made.items():
            self.fields[f"{name}_{rank}"] = field
        may_stay_open(self, f"quadrant_{rank}")

    @property
    def about(self) -> list[BoundField]:
        return [self[name] for name in ABOUT]

    def sites(self) -> Iterator[SiteFields]:
        for rank in Rank:
            of = {name: self[f"{name}_{rank}"] for name in SITE}
            yield SiteFields(
                rank=rank,
                quadrant=of["quadrant"],
                place=(of["place_x"], of["place_y"]),
                measured=(of["side_mm"], of["height_mm"]),
                criteria=[of[name] for name in CRITERIA],
                postures=[of[name] for name in POSTURES],
            )

    def clean_marked_on(self) -> Any:
        day = self.cleaned_data["marked_on"]
        if day > timezone.localdate():
            raise ValidationError("This date is in the future.")
        if day < self.patient.date_of_birth:
            raise ValidationError("The patient was not born yet.")
        return day

    def clean_photo(self) -> Any:
        upload = self.cleaned_data["photo"]
        if upload:
            self.picture = clean_picture(upload.read())
        return upload

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        if not given.get(f"quadrant_{Rank.FIRST}"):
            self.add_error(f"quadrant_{Rank.FIRST}", "Choose where the first site is.")
        for rank in Rank:
            self._site(given, rank)
        return given

    def _site(self, given: dict[str, Any], rank: Rank) -> None:
        quadrant, x, y = (given.get(f"{n}_{rank}") for n in ("quadrant", "place_x", "place_y"))
        if not quadrant:
            if rank == Rank.SECOND and any(given.get(f"{n}_{rank}") is not None for n in SITE[1:]):
                self.add_error(f"quadrant_{rank}", "Choose where it is, or clear this site.")
            return
        if {f"place_x_{rank}", f"place_y_{rank}"} & set(self.errors):
            return
        if (x is None) != (y is None):
            self.add_error(f"place_y_{rank}", "Give both places on the drawing, or neither.")
        elif x is not None and y is not None and not _agree(quadrant, x, y):
            self.add_error(f"quadrant_{rank}", "The mark on the drawing is somewhere else.")

    def values(self) -> dict[str, Any]:
        return {name: self.cleaned_data[name] for name in ABOUT}

    def marked(self) -> dict[Rank, dict[str, Any]]:
        """The sites with a quadrant."""
        given = self.cleaned_data
        return {
            rank: {name: given[f"{name}_{rank}"] for name in SITE}
            for rank in Rank
            if given[f"quadrant_{rank}"]
        }


def _agree(quadrant: str, x: int, y: int) -> bool:
    """Whether a place on the drawing lies in the quadrant; on a line it lies in both."""
    if quadrant == Site.UMBILICAL:
        return True
    across, up = SIGNS[Site(quadrant)]
    return x * across >= 0 and y * up >= 0


class WithdrawForm(forms.Form):
    why = why_field(Withdrawn)
    helper = plain_helper()


class UsedForm(forms.Form):
    used = forms.ChoiceField(
        label="Where was the stoma made?",
        choices=Used.choices,
        widget=forms.RadioSelect,
        error_messages={"required": "Choose one; not known is an answer."},
    )
    why = forms.CharField(
        label="Why", max_length=200, required=False,
        help_text="For another place, or the second choice: as the surgeon says",
    )  # fmt: skip
    helper = plain_helper()

    def __init__(self, *args: Any, marking: SiteMarking, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not marking.sites.filter(rank=Rank.SECOND).exists():
            used: Any = self.fields["used"]
            used.choices = [one for one in Used.choices if one[0] != Used.SECOND]

    def clean(self) -> dict[str, Any]:
        given: dict[str, Any] = super().clean() or self.cleaned_data
        if given.get("used") == Used.ANOTHER and not given.get("why", "").strip():
            self.add_error("why", "Say why it was made somewhere else.")
        return given

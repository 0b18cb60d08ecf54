"""Between the page that measures on a photo and the planner's geometry: marks in, words out."""

from __future__ import annotations

import json
import math
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from django import forms

from clinic.formatting import number
from clinic.plans import photo_confirmed
from clinic.read_json import read_json
from clinic.visits.forms.fields import NumberField
from planning.geometry.photo import (
    Askew,
    Card,
    Line,
    Mark,
    Marks,
    PhotoMeasurement,
    Rounded,
    Setting,
    Sized,
    measure,
)
from planning.geometry.photo_marks import MOST_POINTS, PhotoError
from planning.geometry.photo_setting import HIGHEST_MM, LEAST_RADIUS_MM, MOST_TILT
from planning.geometry.photo_view import CAMERA_MM

CARD, LINE = "card", "line"
KINDS = [
    (CARD, "A bank-card-sized card beside the stoma"),
    (LINE, "A straight ruler, or anything straight whose length you know"),
]
ON_SKIN, RAISED, NOT_KNOWN = "flat", "raised", "unknown"
HEIGHTS = [
    (ON_SKIN, "Flat on the skin"),
    (RAISED, "Raised above the skin by about …"),
    (NOT_KNOWN, "Not known"),
]
BELLIES = [
    (Rounded.FLAT.value, "Flat: a straight edge laid across would touch almost all along"),
    (Rounded.GENTLY.value, "Gently rounded"),
    (Rounded.STRONGLY.value, "Strongly rounded, a bulge, or not known"),
]
CAMERAS = [
    (Askew.STRAIGHT.value, "Level with the skin, looking straight down"),
    (Askew.SOMEWHAT.value, "Somewhat tilted"),
    (Askew.STRONGLY.value, "Strongly tilted, or not known"),
]
HEADS = [
    (turn, words)
    for turn in range(0, 360, 15)
    for words in [
        {0: "Top of the photo", 90: "Right side", 180: "Bottom", 270: "Left side"}.get(
            turn, f"{turn}° clockwise from the top"
        )
    ]
]
UNREADABLE = "The marks did not arrive complete. Please mark again."


class MeasureForm(forms.Form):
    """What the page posts; ``marks`` is what the script drew, in pixels of the stored picture."""

    kind = forms.ChoiceField(
        label="Beside the stoma lies",
        choices=KINDS,
        widget=forms.RadioSelect,
        error_messages={"required": "Say what lies beside the stoma."},
    )
    line_mm = NumberField(
        label="Its length between the two marks",
        unit="mm",
        min_value=Decimal(10),
        max_value=Decimal(300),
    )
    raised = forms.ChoiceField(
        label="How high does it lie?",
        choices=HEIGHTS,
        widget=forms.RadioSelect,
        error_messages={"required": "Say how high it lies, or that this is not known."},
    )
    raised_mm = NumberField(
        label="Height above the skin",
        unit="mm",
        min_value=Decimal(0),
        max_value=Decimal(int(HIGHEST_MM)),
    )
    rounded = forms.ChoiceField(
        label="The belly under it and the stoma",
        choices=BELLIES,
        widget=forms.RadioSelect,
        error_messages={"required": "Say how rounded the belly is, or that this is not known."},
    )
    askew = forms.ChoiceField(
        label="The phone was held",
        choices=CAMERAS,
        widget=forms.RadioSelect,
        error_messages={"required": "Say how the phone was held, or that this is not known."},
    )
    head = forms.TypedChoiceField(label="The head is towards", choices=HEADS, coerce=int)
    head_sure = forms.BooleanField(label="Checked: the head is that way", required=False)
    marks = forms.CharField(widget=forms.HiddenInput, max_length=20_000)

    def __init__(
        self, *args: Any, size: tuple[int, int], photo: object = None, **kwargs: Any
    ) -> None:
        super().__init__(*args, **kwargs)
        self.size, self.photo = size, photo
        self.proposed: dict[str, photo_confirmed.Confirmable] = {}
        self.measured: PhotoMeasurement | None = None
        # Only a straight reference has a length to give, and does not show the tilt itself.
        line = self.fields["line_mm"]
        line.required = self.fields["askew"].required = self.data.get("kind") == LINE
        line.error_messages["required"] = "How many mm lie between the two marks?"
        height = self.fields["raised_mm"]
        height.required = self.data.get("raised") == RAISED
        height.error_messages["required"] = "By about how many mm? Or choose: not known."

    def clean_marks(self) -> dict[str, list[list[float]]]:
        """Every mark a point of the picture."""
        try:
            found = read_json(self.cleaned_data["marks"])
            self.proposed = photo_confirmed.posted(found.get("proposed", {}), self.photo)
            return {name: self._points(found[name]) for name in (CARD, LINE, "outline")}
        except (ValueError, TypeError, KeyError, AttributeError) as error:
            raise forms.ValidationError(UNREADABLE) from error

    def _points(self, given: Sequence[Sequence[float]]) -> list[list[float]]:
        if not isinstance(given, list) or len(given) > MOST_POINTS:
            raise ValueError
        return [self._point(*point) for point in given]

    def _point(self, x: float, y: float, wide: float) -> list[float]:
        values = [float(x), float(y), float(wide)]
        across, down = self.size
        if not (all(map(math.isfinite, values)) and 0 < values[2] <= 100):
            raise ValueError
        if not (0 <= values[0] <= across and 0 <= values[1] <= down):
            raise ValueError
        return [round(value, 2) for value in values]

    def clean(self) -> dict[str, Any]:
        given = self.cleaned_data
        # What is in a hidden box does not count.
        if given.get("kind") == CARD:
            self.errors.pop("line_mm", None)
            self.errors.pop("askew", None)
        if given.get("raised") != RAISED:
            self.errors.pop("raised_mm", None)
        self._refuse_unconfirmed(given)
        if not self.errors:
            try:
                self.measured = measure(_marks(given, self.size))
            except PhotoError as error:
                self.add_error(BESIDE.get(error.part, error.part), error.words)
        return given

    def _refuse_unconfirmed(self, given: dict[str, Any]) -> None:
        """Nothing is measured from what only the computer has seen."""
        for what, one in self.proposed.items():
            if what in {given.get("kind"), "outline"} and not one.confirmed:
                self.add_error(_BESIDE_MARKS[what], photo_confirmed.NOT_CONFIRMED[what])

    @property
    def kept(self) -> dict[str, Any]:
        """What is stored with the photo: everything that the figures rest on."""
        given = self.cleaned_data
        used = {name: given["marks"][name] for name in (given["kind"], "outline")}
        length = given["line_mm"] if given["kind"] == LINE else None
        height = _height_typed(given)
        proposed = {what: one for what, one in self.proposed.items() if what in used}
        seen = photo_confirmed.kept(proposed, used)
        return {
            **({"proposed": seen} if seen else {}),
            "kind": given["kind"],
            "line_mm": None if length is None else str(length),
            "raised": given["raised"],
            "raised_mm": None if height is None else str(height),
            "rounded": given["rounded"],
            "askew": given["askew"] if given["kind"] == LINE else "",
            "head": given["head"],
            "marks": {CARD: [], LINE: [], **used},
        }


#: What a ``PhotoError`` is about -> the field that it is said beside, where named otherwise.
BESIDE = {"reference": "kind", "outline": "marks"}
#: The same of what was marked.
_BESIDE_MARKS = {CARD: "kind", "outline": "marks"}


class ReferenceNotMarked(PhotoError):  # noqa: N818 - named as the nurse reads it
    part = "reference"
    words = "Mark the reference: both ends of the ruler, or the four corners of the card."


def _marks(given: dict[str, Any], size: tuple[int, int]) -> Marks:
    placed = [Mark(*point) for point in given["marks"][given["kind"]]]
    reference: Line | Card
    if given["kind"] == CARD and len(placed) == 4:
        reference = Card((placed[0], placed[1], placed[2], placed[3]))
    elif given["kind"] == LINE and len(placed) == 2:
        reference = Line(placed[0], placed[1], float(given["line_mm"]))
    else:
        raise ReferenceNotMarked
    outline = tuple(Mark(*point) for point in given["marks"]["outline"])
    return Marks(reference, outline, _setting(given, size), float(given["head"]))


def _setting(given: dict[str, Any], size: tuple[int, int]) -> Setting:
    height = Decimal(0) if given["raised"] == ON_SKIN else _height_typed(given)
    return Setting(
        picture=size,
        raised_mm=None if height is None else float(height),
        rounded=Rounded(given["rounded"]),
        askew=Askew(given["askew"]) if given["kind"] == LINE else None,
    )


def _height_typed(given: dict[str, Any]) -> Decimal | None:
    """Only where it is asked: what is left in the hidden box does not count."""
    height: Decimal | None = given["raised_mm"] if given["raised"] == RAISED else None
    return height


def initial_of(kept: dict[str, Any] | None, photo: object = None) -> dict[str, Any]:
    """The form as it was when ``kept`` was stored; else nothing but the photo's top. What was not
    asked then is open: it is asked before anything is measured again."""
    if kept is None:
        return {"head": 0, "marks": json.dumps({CARD: [], LINE: [], "outline": []})}
    typed = {
        name: None if kept.get(name) is None else Decimal(kept[name])
        for name in ("line_mm", "raised_mm")
    }
    marks = kept["marks"]
    if "proposed" in kept:
        marks = {**marks, "proposed": photo_confirmed.as_posted(kept["proposed"], photo)}
    return {
        **kept,
        **typed,
        "marks": json.dumps(marks),
        "head_sure": True,
    }


def tenth(value: float) -> Decimal:
    """A length as it is written down: to a tenth of a mm."""
    return Decimal(str(value)).quantize(Decimal("0.1"))


def error_words(sized: Sized) -> str:
    """Rounded up, so that it never says less."""
    return number(Decimal(math.ceil(sized.error * 10)) / 10)


@dataclass(frozen=True)
class FieldToFill:
    """One field of the measurement: its value now, and what the photo gives."""

    label: str
    now: str
    then: str
    error: str = ""


def values_of(measured: PhotoMeasurement, *, radii: bool) -> dict[str, list[str]]:
    """Fields of the stoma's form -> as they would be typed. Without ``radii`` those are emptied:
    they would go before length and width."""
    return as_typed(
        tenth(measured.length.value),
        tenth(measured.width.value),
        hour=measured.axis_hour,
        radii=[tenth(radius.value) for radius in measured.radii] if radii else None,
    )


def as_typed(
    length: Decimal, width: Decimal, *, hour: int | None, radii: Sequence[Decimal] | None
) -> dict[str, list[str]]:
    """The same from figures (mm); None leaves the twelve boxes empty."""
    typed = {
        "stoma-length_mm": [number(length)],
        "stoma-width_mm": [number(width)],
        "stoma-axis_hour": [] if hour is None else [str(hour)],
    }
    for i in range(12):
        typed[f"stoma-radii_mm_{i + 1}"] = [] if radii is None else [number(radii[i])]
    return typed


def to_fill(measured: PhotoMeasurement, now: dict[str, list[str]]) -> list[FieldToFill]:
    """What is in the visit beside what would be filled in."""

    def current(*names: str) -> str:
        found = [value for name in names for value in now.get(name, []) if value]
        return ", ".join(found) if found else "not recorded"

    def given(sized: Sized) -> str:
        return f"{number(tenth(sized.value))} mm"

    hour = measured.axis_hour
    points = "nearly round, left empty" if hour is None else f"{hour} o'clock"
    radii = ", ".join(number(tenth(r.value)) for r in measured.radii)
    widest = max(measured.radii, key=lambda radius: radius.error)
    return [
        FieldToFill(
            "Length",
            current("stoma-length_mm"),
            given(measured.length),
            error_words(measured.length),
        ),
        FieldToFill(
            "Width", current("stoma-width_mm"), given(measured.width), error_words(measured.width)
        ),
        FieldToFill("Length points to", current("stoma-axis_hour"), points),
        FieldToFill(
            "Twelve radii, 1 to 12 o'clock",
            current(*(f"stoma-radii_mm_{i}" for i in range(1, 13))),
            f"{radii} mm",
            error_words(widest),
        ),
    ]


def sources_of(measured: PhotoMeasurement, given: dict[str, Any]) -> list[tuple[str, str]]:
    """Where the length's error comes from: words, mm."""
    budget = measured.budget
    card = given["kind"] == CARD
    nearest = f"the camera {CAMERA_MM[0] / 10:.0f} cm or more away"
    radius = LEAST_RADIUS_MM[Rounded(given["rounded"])] / 10
    found = [
        ("how exactly the marks were placed (twice the standard deviation)", budget.marks_mm),
        ("the edge between two points", budget.between_mm),
        ("the card's own size" if card else "reading the ruler", budget.reference_mm),
        (f"how high the reference lies above the skin, {nearest}", budget.level_mm),
        (f"the belly may bend as much as a ball with a radius of {radius:.0f} cm", budget.bend_mm),
    ]
    if not card:
        tilt = MOST_TILT[Askew(given["askew"])]
        words = f"the camera may have been tilted up to {tilt:.0f}°, so that lengths look shorter"
        found.append((f"{words} and what is nearer looks larger", budget.tilt_mm))
    return [(words, f"{mm:.1f}") for words, mm in found]


def words_of(measured: PhotoMeasurement, kind: str) -> str:
    """One line for the photo's caption."""
    length, width = (number(tenth(s.value)) for s in (measured.length, measured.width))
    error = error_words(max(measured.length, measured.width, key=lambda s: s.error))
    by = "a card" if kind == CARD else "a ruler"
    return f"{length} × {width} mm, each within {error} mm, by {by} beside the stoma"

"""The stoma as measured and seen: size, height, colour, junction, prolapse."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from planning.inputs.clock import ClockHours


class LumenPosition(StrEnum):
    CENTRE = "centre"
    OFF_CENTRE = "off_centre"
    SKIN_LEVEL = "skin_level"


class Colour(StrEnum):
    """Of the mucosa."""

    PINK_RED = "pink_red"
    PALE = "pale"
    DUSKY = "dusky"
    PURPLE = "purple"
    BLACK_BROWN_GREY = "black_brown_grey"
    YELLOW_SLOUGH = "yellow_slough"


class Turgor(StrEnum):
    """How the mucosa looks and feels."""

    MOIST_SOFT = "moist_soft"
    DRY = "dry"
    HARD = "hard"
    COLD = "cold"
    FLABBY = "flabby"


class Oedema(StrEnum):
    NONE = "none"
    MILD = "mild"
    MARKED = "marked"


class Bleeding(StrEnum):
    NONE = "none"
    ON_WIPING = "on_wiping"
    OOZE_AT_JUNCTION = "ooze_at_junction"
    SEVERAL_EMPTIES = "several_empties"
    FROM_LUMEN = "from_lumen"
    SPURTING_OR_UNSTOPPED = "spurting_or_unstopped"


class Calibre(StrEnum):
    """What the lumen admits, felt by someone trained to."""

    INDEX_FINGER = "index_finger"
    LITTLE_FINGER = "little_finger"
    FINGERTIP = "fingertip"
    NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class ColourPart:
    """A part of the stoma whose colour differs from the rest."""

    colour: Colour
    hours: ClockHours


@dataclass(frozen=True, slots=True)
class Separation:
    """Mucocutaneous junction apart. ``depth_mm`` below the skin, effluent beneath it.

    ``contaminated``: stool or urine goes into it, or pus comes out. ``fascia_seen``: fascia or
    bowel at its base.
    """

    hours: ClockHours
    depth_mm: float | None = None
    base_visible: bool | None = None
    effluent_under_skin: bool | None = None
    contaminated: bool | None = None
    fascia_seen: bool | None = None


@dataclass(frozen=True, slots=True)
class Prolapse:
    """Bowel telescoped out, ``extra_length_mm`` beyond this stoma's usual. ``new``: not known
    before. ``growing``: its swelling grows."""

    extra_length_mm: float | None = None
    reducible: bool | None = None
    painful: bool | None = None
    new: bool | None = None
    growing: bool | None = None


@dataclass(frozen=True, slots=True)
class LoopOpenings:
    """Which opening of a loop works: the height (mm) that counts is that of the working one."""

    working_mm: float | None = None
    working_hour: int | None = None
    resting_mm: float | None = None


@dataclass(frozen=True, slots=True)
class Measurement:
    """Size at the base where stoma meets skin; protrusion lying or sitting, the lower one.

    ``length_mm`` runs 12-6, ``width_mm`` 9-3, unless ``axis_hour`` (1-6) turns the length axis.
    ``radii_mm`` for an irregular stoma: centre to edge at hours 1..12, in that order.
    ``junction`` None: not recorded; (): intact. ``prolapse`` None: not recorded; (): none.
    ``length_error_mm`` and ``width_error_mm``: either way (about 95 %), where the size was taken
    from a photo; None: measured on the stoma, or not known.
    ``colour`` and ``turgor``: the worst seen; ``colour_parts`` where they differ round the stoma.
    ``colour_known``: a surgeon has recorded this colour, and it has not changed since.
    ``bowel_outside``: bowel or fat comes out through the gap beside the stoma.
    ``protrusion_sitting_mm`` and ``protrusion_standing_mm``: the height in that posture.
    ``bleeding_stopped_days``: days since a heavier bleed that has stopped.
    ``rubbed``: a cut or pale line on the mucosa.
    """

    length_mm: float | None = None
    width_mm: float | None = None
    axis_hour: int | None = None
    protrusion_mm: float | None = None
    radii_mm: tuple[float, ...] | None = None
    widest_mm: float | None = None
    lumen: LumenPosition | None = None
    lumen_hour: int | None = None
    colour: Colour | None = None
    turgor: Turgor | None = None
    oedema: Oedema | None = None
    junction: tuple[Separation, ...] | None = None
    prolapse: tuple[Prolapse, ...] | None = None
    bleeding: Bleeding | None = None
    deep_cut: bool | None = None
    length_error_mm: float | None = None
    width_error_mm: float | None = None
    colour_parts: tuple[ColourPart, ...] | None = None
    colour_known: bool | None = None
    bleeds_on_touch: bool | None = None
    calibre: Calibre | None = None
    bowel_outside: bool | None = None
    loop: LoopOpenings | None = None
    protrusion_sitting_mm: float | None = None
    protrusion_standing_mm: float | None = None
    bleeding_stopped_days: float | None = None
    rubbed: bool | None = None
    bleeding_stops_min: float | None = None

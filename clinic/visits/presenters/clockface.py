"""The clock face: one picture of one assessment, for charting, for reading, for paper."""

from __future__ import annotations

from dataclasses import dataclass, field

from clinic import formatting
from clinic.visits.choices import Colour, Junction, LumenPosition, Presence, Product, SkinKind
from clinic.visits.models import Assessment, SkinFinding, StomaMeasurement
from clinic.visits.presenters import face_geometry as geometry
from planning.inputs.clock import HOURS, ClockHours


@dataclass(frozen=True)
class Patch:
    """One filled area. ``fill`` names a pattern; ``number`` ties it to its line in words."""

    layer: str
    fill: str
    path: str
    number: str
    label_x: float
    label_y: float
    words: str
    unsure: bool = False


@dataclass(frozen=True)
class StomaPart:
    """A part of the stoma whose colour differs, drawn within the round that fits into it."""

    colour: str
    path: str
    words: str


@dataclass(frozen=True)
class Line:
    """A crease: from the stoma's edge outwards."""

    x1: float
    y1: float
    x2: float
    y2: float


@dataclass(frozen=True)
class Label:
    text: str
    x: float
    y: float


@dataclass(frozen=True)
class Mark:
    """The numbered disc that ties a patch to its line in words."""

    radius: float
    size: float
    drop: float


SCREEN_MARK = Mark(11, 15, 5.2)
#: On paper the face is small and the readers are many: about 14 point.
PAPER_MARK = Mark(16, 22, 8)


@dataclass(frozen=True)
class Cell:
    """Where a pointer can paint: one hour, one ring."""

    hour: int
    out_mm: int
    path: str


@dataclass(frozen=True)
class Face:
    """Everything ``_components/clock_face.html`` draws. ``uid`` keeps pattern ids apart."""

    uid: str
    title: str
    stoma_rx: float
    stoma_ry: float
    stoma_turn: float
    #: A word of ``Colour``; "" is not recorded.
    stoma_colour: str = ""
    patches: list[Patch] = field(default_factory=list)
    creases: list[Line] = field(default_factory=list)
    stoma_parts: list[StomaPart] = field(default_factory=list)
    #: Where the lumen is drawn; None where its place was not recorded.
    lumen: tuple[float, float] | None = None
    lumen_words: str = ""
    paper: bool = False

    half = geometry.HALF
    stoma_radius = geometry.STOMA_RADIUS
    skin_radius = geometry.SKIN_RADIUS
    lumen_radius = geometry.LUMEN_RADIUS

    @property
    def font(self) -> str:
        """Of the marks: on paper that of the text round the face."""
        return "Liberation Sans" if self.paper else "sans-serif"

    @property
    def mark(self) -> Mark:
        return PAPER_MARK if self.paper else SCREEN_MARK

    @property
    def rings(self) -> list[float]:
        """Radii of the 10 mm circles."""
        return [
            geometry.radius_of(mm)
            for mm in range(geometry.RING_MM, geometry.SKIN_MM + 1, geometry.RING_MM)
        ]

    @property
    def hour_labels(self) -> list[Label]:
        return [Label(str(h), *geometry.at(h, geometry.LABEL_RADIUS)) for h in HOURS]

    @property
    def spokes(self) -> list[Line]:
        """The borders between the hours."""
        inner, outer = geometry.STOMA_RADIUS, geometry.SKIN_RADIUS
        return [Line(*geometry.at(h + 0.5, inner), *geometry.at(h + 0.5, outer)) for h in HOURS]

    @property
    def cells(self) -> list[Cell]:
        step = geometry.RING_MM
        return [
            Cell(
                h,
                mm,
                geometry.run_path(h, h, geometry.radius_of(mm - step), geometry.radius_of(mm)),
            )
            for h in HOURS
            for mm in range(step, geometry.SKIN_MM + 1, step)
        ]

    @property
    def stoma_fill(self) -> str:
        """Which pattern the stoma is filled with: one for each colour and one for unknown."""
        return f"stoma-{self.stoma_colour or 'unknown'}"

    @property
    def stoma_words(self) -> str:
        """The stoma's colour and those of its parts, which the drawing shows by patterns, and
        where the lumen is."""
        whole = Colour(self.stoma_colour).label.lower() if self.stoma_colour else ""
        parts = [part.words for part in self.stoma_parts]
        lumen = [self.lumen_words] if self.lumen_words else []
        return f"Stoma: {'; '.join([whole or 'colour not recorded', *parts, *lumen])}"

    @property
    def words(self) -> list[str]:
        """Every patch in words, for the list beside the face and for screen readers."""
        return [patch.words for patch in self.patches]

    @property
    def description(self) -> str:
        return "; ".join([self.stoma_words, *(self.words or ["nothing is marked round it"])])


def face_of(assessment: Assessment, *, uid: str = "face", paper: bool = False) -> Face:
    """The face of what is stored for ``assessment``.

    On paper, for the patient, the reading of the used barrier is left out.
    """
    rx, ry, turn = _stoma_shape(assessment)
    measured = getattr(assessment, "measurement", None)
    return Face(
        uid=uid,
        title="Skin and stoma on the clock face, 12 towards the head",
        stoma_rx=rx,
        stoma_ry=ry,
        stoma_turn=turn,
        stoma_colour=measured.colour if measured else "",
        patches=[*_skin_patches(assessment), *_other_patches(assessment, barrier=not paper)],
        creases=_creases(assessment),
        stoma_parts=_stoma_parts(assessment, min(rx, ry)),
        lumen=geometry.lumen_spot(measured.lumen, measured.lumen_hour, rx, ry, turn)
        if measured
        else None,
        lumen_words=_lumen_words(measured) if measured else "",
        paper=paper,
    )


def _stoma_shape(assessment: Assessment) -> tuple[float, float, float]:
    """Half axes across and along, and degrees turned; round while not measured."""
    row = getattr(assessment, "measurement", None)
    radius = float(geometry.STOMA_RADIUS)
    if row is None or not row.length_mm or not row.width_mm:
        return radius, radius, 0.0
    longest = max(row.length_mm, row.width_mm)
    across = radius * float(row.width_mm / longest)
    along = radius * float(row.length_mm / longest)
    return round(across, 2), round(along, 2), 30.0 * (row.axis_hour or 0)


def _lumen_words(row: StomaMeasurement) -> str:
    if not row.lumen:
        return ""
    towards = "" if row.lumen_hour is None else f", towards {row.lumen_hour} o'clock"
    return f"lumen {LumenPosition(row.lumen).label.lower()}{towards}"


def _stoma_parts(assessment: Assessment, reach: float) -> list[StomaPart]:
    found = []
    for row in assessment.colour_rows.all():
        hours = ClockHours.of(*row.hours)
        path = geometry.hours_path(hours, geometry.LUMEN_RADIUS, reach)
        found.append(
            StomaPart(row.colour, path, f"{Colour(row.colour).label.lower()}{hours.placed()}")
        )
    return found


def _skin_patches(assessment: Assessment) -> list[Patch]:
    return [
        skin_patch(row, str(number))
        for number, row in enumerate(assessment.skin_findings.all(), start=1)
    ]


def skin_patch(row: SkinFinding, number: str) -> Patch:
    """One skin finding; dashed where no one recorded how far out it reaches."""
    hours = ClockHours.of(*row.hours)
    inner = geometry.radius_of(float(row.inner_mm or 0))
    reach = row.outer_mm if row.outer_mm is not None else (row.inner_mm or 0) + geometry.UNSAID_MM
    outer = geometry.radius_of(float(reach))
    x, y = geometry.at(geometry.middle_hour(hours), (inner + outer) / 2)
    return Patch(
        layer="finding",
        fill=row.kind,
        path=geometry.hours_path(hours, inner, outer),
        number=number,
        label_x=x,
        label_y=y,
        words=finding_words(row),
        unsure=row.outer_mm is None,
    )


def finding_words(row: SkinFinding) -> str:
    """``Raw, shallow erosion, 4 to 8 o'clock, 0 to 20 mm out; itch, weeping``."""
    extras = [
        label
        for name, label in (
            ("itch", "itch"),
            ("pain", "pain"),
            ("burning", "burning"),
            ("moist", "weeping"),
            ("product_outline", "sharp edge, shape of a product"),
            ("enlarging", "growing quickly"),
            ("changing", "changed since last seen"),
            ("numb_or_crackling", "numb, crackling or grey-purple"),
            ("flat_edge", "punched out"),
        )
        if getattr(row, name)
    ]
    extras += _figures(row)
    main = f"{SkinKind(row.kind).label}, {ClockHours.of(*row.hours).words()}, {_reach(row)}"
    return f"{main}; {', '.join(extras)}" if extras else main


def _figures(row: SkinFinding) -> list[str]:
    """What was measured of it beside its place: ``edge of the ring, there for 3 days``."""
    said = [f"edge of the {Product(row.outline_of).label.lower()}"] if row.outline_of else []
    for name, before, after in (
        ("days", "there for ", " days"),
        ("hours_to_spread", "spread within ", " h"),
        ("fades_min", "gone after ", " min"),
        ("stays_min", "still there after ", " min"),
        ("minutes_after_contact", "came after ", " min of contact"),
        ("across_mm", "", " mm across"),
        ("pain_0_10", "pain ", " of 10"),
    ):
        if (value := getattr(row, name)) is not None:
            said.append(f"{before}{formatting.number(value)}{after}")
    return said


def _reach(row: SkinFinding) -> str:
    if row.outer_mm is None:
        return "how far out not recorded"
    start = "up" if row.inner_mm is None else formatting.number(row.inner_mm)
    return f"{start} to {formatting.number(row.outer_mm)} mm out"


def _band(
    layer: str,
    letter: str,
    words: str,
    hours: list[int] | None,
    radii: tuple[float, float],
    turn: float = 0,
) -> list[Patch]:
    if not hours:
        return []
    where = ClockHours.of(*hours)
    x, y = geometry.at(geometry.middle_hour(where) + turn, sum(radii) / 2)
    path = geometry.hours_path(where, *radii)
    fill = "erosion_band" if layer == "erosion" else layer
    return [Patch(layer, fill, path, letter, x, y, f"{words}, {where.words()}")]


def _other_patches(assessment: Assessment, *, barrier: bool) -> list[Patch]:
    stoma = getattr(assessment, "measurement", None)
    abdomen = getattr(assessment, "abdomen", None)
    system = getattr(assessment, "system", None)
    edge = geometry.STOMA_RADIUS
    found: list[Patch] = []
    if stoma and stoma.junction == Junction.SEPARATED:
        found += _band(
            "separation", "S", "Mucocutaneous separation", stoma.separation_hours, (edge, edge + 9)
        )
    if abdomen and abdomen.bulge == Presence.PRESENT:
        rim = geometry.SKIN_RADIUS
        found += _band("bulge", "B", "Bulge", abdomen.bulge_hours, (rim - 42, rim))
    if system and barrier:
        apart = geometry.LABEL_TURN
        melted, leak = geometry.MELTED_RADII, geometry.LEAK_RADII
        found += _band("erosion", "M", "Barrier melted", system.erosion_hours, melted, -apart)
        found += _band("leak", "L", "Leak under the barrier", system.leak_hours, leak, apart)
    for row in assessment.crease_rows.all():
        where = ClockHours.of(*row.hours)
        beside = geometry.middle_hour(where) + geometry.LABEL_TURN
        x, y = geometry.at(beside, geometry.SKIN_RADIUS - 10)
        depth = f", {formatting.mm(row.depth_mm)} deep" if row.depth_mm is not None else ""
        found.append(Patch("crease", "none", "", "C", x, y, f"Crease, {where.words()}{depth}"))
    return found


def _creases(assessment: Assessment) -> list[Line]:
    inner, outer = geometry.STOMA_RADIUS, geometry.SKIN_RADIUS
    return [
        Line(*geometry.at(hour, inner), *geometry.at(hour, outer))
        for row in assessment.crease_rows.all()
        for hour in ClockHours.of(*row.hours)
    ]

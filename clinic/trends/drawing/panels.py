"""The panels of the trend, in the order they are read. A panel without data is left out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import date

from matplotlib.axes import Axes

from clinic import formatting
from clinic.plans.course_results import PANELS, ChannelPanel, Face, Series, Sighting
from clinic.trends.drawing import bars, faces, lines
from clinic.trends.drawing.axes import GAP, TITLE, Sheet, scale
from clinic.trends.drawing.lines import ALONE, FIRST, SECOND, Drawn
from clinic.trends.drawing.style import BOLD, LETTER, PANEL, Medium
from clinic.trends.drawing.time_span import Span
from clinic.trends.tracks import ORDER, Track, named_zones
from planning.inputs.clock import ClockHours


@dataclass(frozen=True, slots=True)
class Panel:
    """``head`` puts its title on the sheet, ``top`` units high; ``draw`` what is below it, to
    ``height`` units in all."""

    key: str
    top: float
    height: float
    head: Callable[[Sheet], None]
    draw: Callable[[Sheet], None]


@dataclass(frozen=True, slots=True)
class Data:
    """What is drawn, with its words."""

    series: Series
    tracks: dict[str, Track]
    span: Span
    today: date
    #: Whether a bulge was confirmed as a hernia.
    hernia: bool = False


#: Panels that are no line of values, and what is shown where there is nothing for them.
NAMES = {
    "separation": "mucocutaneous separation",
    "bulge": "bulge beside the stoma",
    "bars": "barriers worn",
}
OF_CHANNELS = {panel.key: panel for panel in PANELS}


#: Height of a panel's drawing; zones need room for their names.
USUAL, TALL = 92.0, 112.0

#: What is looked for at each visit by the clock, with the title of its panel.
SPOTS = {
    "separation": "Mucocutaneous separation, by the clock",
    "bulge": "Bulge beside the stoma, by the clock",
}
HERNIA = "Parastomal hernia, by the clock"


def panels_of(data: Data, medium: Medium) -> list[Panel]:
    """Every panel that has something to show."""
    return [panel for key in ORDER if (panel := _panel(key, data, medium)) is not None]


def _panel(key: str, data: Data, medium: Medium) -> Panel | None:
    has = data.tracks.keys()
    if key == "skin":
        return _skin_panel(data, medium) if {"burden", "faces"} & has else None
    if key in OF_CHANNELS:
        return _lines_panel(OF_CHANNELS[key], data)
    if key not in has:
        return None
    if key in SPOTS:
        return _spots_panel(data, key, medium)
    return _bars_panel(data, medium)


def left_out(data: Data) -> tuple[str, ...]:
    """What nothing was recorded of, in words."""
    there = {panel.key for panel in panels_of(data, PANEL)}
    # What was looked for and never found has no panel, but was recorded; what most never have and
    # no one found, or was never asked, is left unsaid.
    there |= {
        key
        for key, of in OF_CHANNELS.items()
        if of.channels[0].once_found or of.channels[0].answered
    }
    there |= {key for key in SPOTS if any(s.spots is not None for s in _sightings(data, key))}
    return tuple(name_of(key) for key in ORDER if key not in there)


def name_of(key: str) -> str:
    """What a panel shows, in words."""
    return NAMES.get(key) or OF_CHANNELS[key].name


def height(panels: Sequence[Panel]) -> float:
    """Of all, with the gaps between."""
    return sum(panel.height for panel in panels) + GAP * (len(panels) - 1)


def _latest(sheet: Sheet, heading: str, track: Track | None) -> str:
    """The latest value, with its day where there is room for it beside the title."""
    if track is None:
        return ""
    last = track.marks[-1]
    value = f"latest {last.value.partition(' (')[0]}"
    room = sheet.medium.width - BOLD * len(heading) - 8
    with_day = f"{value}, {formatting.day(last.day)}"
    return next((words for words in (with_day, value) if LETTER * len(words) <= room), "")


def _lines_panel(of: ChannelPanel, data: Data) -> Panel | None:
    looks = (ALONE,) if len(of.channels) == 1 else (FIRST, SECOND)
    drawn = [
        (data.tracks[channel.key], data.series.of(channel.key), look)
        for channel, look in zip(of.channels, looks, strict=True)
        if channel.key in data.tracks
    ]
    if not drawn:
        return None
    inner = TALL if of.key == "protrusion" else USUAL
    return Panel(
        of.key,
        TITLE,
        TITLE + inner,
        lambda sheet: _lines_head(sheet, of, drawn),
        lambda sheet: _lines(sheet, of, drawn, data.series, inner),
    )


def _lines_head(sheet: Sheet, of: ChannelPanel, drawn: list[Drawn]) -> None:
    alone = len(of.channels) == 1
    sheet.title(of.heading, _latest(sheet, of.heading, drawn[0][0]) if alone else "")
    if not alone:
        lines.key(sheet, drawn)


def _lines(
    sheet: Sheet, of: ChannelPanel, drawn: list[Drawn], series: Series, inner: float
) -> None:
    """The lines of one panel over the zones and levels that they are read against."""
    zones = named_zones(series.zones) if of.key == "protrusion" else ()
    levels = series.output_lines if of.key == "output" else ()
    values = [p.value for _, points, _ in drawn for p in points]
    edges = [e for zone in zones for e in (zone.low, zone.high) if e is not None]
    axes = sheet.panel(of.key, inner)
    near = _near([*edges, *(line.value for line in levels)], max(values))
    _fit(axes, of, [*values, *near], sheet.medium)
    if zones:
        axes.grid(visible=False)
    room = lines.draw_lines(axes, drawn, sheet.medium)
    lines.draw_zones(axes, zones, room, sheet.medium)
    lines.draw_levels(axes, levels, room, sheet.medium)


def _fit(axes: Axes, of: ChannelPanel, values: list[float], medium: Medium) -> None:
    least = max(of.least, of.least_share * max(values))
    scale(axes, values, medium, zero=of.from_zero, least=least)


def _near(edges: list[float], highest: float) -> list[float]:
    """The borders and levels worth showing: those passed already, and the next one above."""
    above = sorted(edge for edge in edges if edge > highest)
    return [edge for edge in edges if edge <= highest] + above[:1]


def _skin_panel(data: Data, medium: Medium) -> Panel:
    days = [face.day for face in data.series.faces]
    shown = (data.span.last - data.span.first).days
    lanes = faces.lanes_of(days, medium, shown)
    strip = (max(lanes) + 1) * faces.LANE + 4 if lanes else 0.0
    line = 72.0 if data.series.of("burden") else 4.0
    burden = data.tracks.get("burden")
    heading = OF_CHANNELS["skin"].heading if burden else "Damaged skin by the clock"
    return Panel(
        "skin",
        TITLE,
        TITLE + strip + line,
        lambda sheet: sheet.title(heading, _latest(sheet, heading, burden)),
        lambda sheet: _skin(sheet, data, lanes, strip, line),
    )


def _skin(sheet: Sheet, data: Data, lanes: tuple[int, ...], strip: float, line: float) -> None:
    burden, of = data.tracks.get("burden"), OF_CHANNELS["skin"]
    if lanes:
        axes = sheet.panel("faces", strip - 4, framed=False)
        faces.draw_faces(axes, data.series.faces, lanes, sheet.medium)
        sheet.y += 4
    axes = sheet.panel("skin", line)
    if burden is None:
        axes.set_yticks([])
        return
    points = data.series.of("burden")
    _fit(axes, of, [p.value for p in points], sheet.medium)
    lines.draw_lines(axes, [(burden, points, ALONE)], sheet.medium)


def _sightings(data: Data, key: str) -> tuple[Sighting, ...]:
    return data.series.separation if key == "separation" else data.series.bulge


def _spots_panel(data: Data, key: str, medium: Medium) -> Panel:
    """A small clock face for each visit: where it was seen, none, or nothing recorded."""
    shown = (data.span.last - data.span.first).days
    seen = _sightings(data, key)
    lanes = faces.lanes_of([one.day for one in seen], medium, shown)
    strip = (max(lanes) + 1) * faces.LANE
    unknown = tuple(number for number, one in enumerate(seen) if one.spots is None)
    title = HERNIA if key == "bulge" and data.hernia else SPOTS[key]
    note = "? not recorded" if unknown else ""
    return Panel(
        key,
        TITLE,
        TITLE + strip,
        lambda sheet: sheet.title(title, note if _fits(sheet, title, note) else ""),
        lambda sheet: _spots(sheet, data, key, lanes, unknown),
    )


def _fits(sheet: Sheet, title: str, note: str) -> bool:
    return BOLD * len(title) + LETTER * len(note) + 8 <= sheet.medium.width


def _spots(
    sheet: Sheet, data: Data, key: str, lanes: tuple[int, ...], unknown: tuple[int, ...]
) -> None:
    drawn = tuple(
        Face(one.day, ClockHours.union(s.hours for s in one.spots or ()), (), not one.spots)
        for one in _sightings(data, key)
    )
    axes = sheet.panel(key, (max(lanes) + 1) * faces.LANE, framed=False)
    faces.draw_faces(axes, drawn, lanes, sheet.medium, named=f"{key}-", unknown=unknown)


def _bars_panel(data: Data, medium: Medium) -> Panel:
    top = TITLE + bars.key_height(data.series.bars, medium)
    return Panel(
        "bars",
        top,
        top + USUAL,
        lambda sheet: _bars_head(sheet, data),
        lambda sheet: bars.draw_bars(
            sheet.panel("bars", USUAL), data.series.bars, data.today, sheet.medium
        ),
    )


def _bars_head(sheet: Sheet, data: Data) -> None:
    sheet.title("Each barrier: days worn, by reason for removal")
    bars.key(sheet, data.series.bars)

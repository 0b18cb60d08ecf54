"""The panels of the trend, in the order they are read. A panel without data is left out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from matplotlib.axes import Axes

from clinic import formatting
from clinic.plans.course_results import PANELS, ChannelPanel, Face, Point, Series, Sighting
from clinic.trends.drawing import bars, faces, lines
from clinic.trends.drawing.axes import GAP, TITLE, Sheet, scale
from clinic.trends.drawing.lines import FIRST, SECOND, Look
from clinic.trends.drawing.span import Span
from clinic.trends.drawing.style import WIDE, Medium
from clinic.trends.tracks import ORDER, Track
from planning.inputs.clock import ClockHours


@dataclass(frozen=True, slots=True)
class Panel:
    """``height`` of all of it with its title; ``draw`` puts it on the sheet."""

    key: str
    height: float
    draw: Callable[[Sheet], None]


@dataclass(frozen=True, slots=True)
class Data:
    """What is drawn, with its words."""

    series: Series
    tracks: dict[str, Track]
    span: Span
    today: date


#: Panels that are no line of values, and what is said where there is nothing for them.
NAMES = {
    "separation": "separation of stoma and skin",
    "bulge": "bulge beside the stoma",
    "bars": "barriers worn",
}
OF_CHANNELS = {panel.key: panel for panel in PANELS}


#: Height of a panel's drawing; zones need room for their names.
USUAL, TALL = 92.0, 112.0

#: What is looked for at each visit by the clock, with the title of its panel.
SPOTS = {
    "separation": "Stoma and skin apart, by the clock",
    "bulge": "Bulge beside the stoma, by the clock",
}


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
    inner = bars.key_height(data.series.bars, medium)
    return Panel("bars", TITLE + inner + USUAL, lambda sheet: _bars(sheet, data))


def left_out(data: Data) -> tuple[str, ...]:
    """What nothing was recorded of, in words."""
    there = {panel.key for panel in panels_of(data, WIDE)}
    # What was looked for and never found has no panel, and was recorded all the same.
    there |= {key for key in SPOTS if any(s.spots is not None for s in _sightings(data, key))}
    names = NAMES | {panel.key: panel.name for panel in PANELS}
    return tuple(names[key] for key in ORDER if key not in there)


def height(panels: list[Panel]) -> float:
    """Of all, with the gaps between."""
    return sum(panel.height for panel in panels) + GAP * (len(panels) - 1)


def _latest(track: Track) -> str:
    last = track.marks[-1]
    return f"latest {last.value}, {formatting.day(last.day)}"


def _lines_panel(of: ChannelPanel, data: Data) -> Panel | None:
    drawn = [
        (data.tracks[channel.key], data.series.of(channel.key), look)
        for channel, look in zip(of.channels, (FIRST, SECOND), strict=False)
        if channel.key in data.tracks
    ]
    if not drawn:
        return None
    inner = TALL if of.key == "protrusion" else USUAL
    return Panel(of.key, TITLE + inner, lambda sheet: _lines(sheet, of, drawn, data.series, inner))


def _lines(
    sheet: Sheet,
    of: ChannelPanel,
    drawn: list[tuple[Track, tuple[Point, ...], Look]],
    series: Series,
    inner: float,
) -> None:
    """The lines of one panel over the zones and levels that they are read against."""
    alone = len(of.channels) == 1
    sheet.title(of.heading, _latest(drawn[0][0]) if alone and _roomy(sheet) else "")
    if not alone:
        lines.key(sheet, drawn)
    zones = series.zones if of.key == "protrusion" else ()
    levels = series.output_lines if of.key == "output" else ()
    values = [p.value for _, points, _ in drawn for p in points]
    edges = [e for zone in zones for e in (zone.low, zone.high) if e is not None]
    axes = sheet.panel(of.key, inner)
    near = _near([*edges, *(line.value for line in levels)], max(values))
    _fit(axes, of, [*values, *near], sheet.medium)
    if zones:
        axes.grid(visible=False)
    lines.draw_zones(axes, zones, drawn[0][1], sheet.medium)
    lines.draw_levels(axes, levels, sheet.medium)
    lines.draw_lines(axes, drawn, sheet.medium)


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
    return Panel("skin", TITLE + strip + line, lambda s: _skin(s, data, lanes, strip, line))


def _skin(sheet: Sheet, data: Data, lanes: tuple[int, ...], strip: float, line: float) -> None:
    burden, of = data.tracks.get("burden"), OF_CHANNELS["skin"]
    note = _latest(burden) if burden and _roomy(sheet) else ""
    sheet.title(of.heading if burden else "Damaged skin by the clock", note)
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
    lines.draw_lines(axes, [(burden, points, FIRST)], sheet.medium)


def _sightings(data: Data, key: str) -> tuple[Sighting, ...]:
    return data.series.separation if key == "separation" else data.series.bulge


def _spots_panel(data: Data, key: str, medium: Medium) -> Panel:
    """A small clock face for each visit: where it was seen, none, or nothing recorded."""
    shown = (data.span.last - data.span.first).days
    lanes = faces.lanes_of([one.day for one in _sightings(data, key)], medium, shown)
    strip = (max(lanes) + 1) * faces.LANE
    return Panel(key, TITLE + strip, lambda sheet: _spots(sheet, data, key, lanes, strip))


def _spots(sheet: Sheet, data: Data, key: str, lanes: tuple[int, ...], strip: float) -> None:
    seen = _sightings(data, key)
    unknown = [number for number, one in enumerate(seen) if one.spots is None]
    sheet.title(SPOTS[key], "? not recorded" if unknown and _roomy(sheet) else "")
    drawn = tuple(
        Face(one.day, ClockHours.union(s.hours for s in one.spots or ()), (), not one.spots)
        for one in seen
    )
    axes = sheet.panel(key, strip, framed=False)
    faces.draw_faces(axes, drawn, lanes, sheet.medium, named=f"{key}-", unknown=unknown)


def _bars(sheet: Sheet, data: Data) -> None:
    sheet.title("Each barrier worn, days, by why it came off")
    bars.key(sheet, data.series.bars)
    bars.draw_bars(sheet.panel("bars", USUAL), data.series.bars, data.today, sheet.medium)


def _roomy(sheet: Sheet) -> bool:
    """Whether a title leaves room for the latest value beside it."""
    return sheet.medium.width >= ROOMY


ROOMY = 500

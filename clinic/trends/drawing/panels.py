"""The panels of the trend, in the order they are read. A panel without data is left out."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date

from clinic import formatting
from clinic.plans.course_results import Face, Point, Series, Sighting
from clinic.trends.drawing import bars, faces, lines
from clinic.trends.drawing.axes import GAP, TITLE, Sheet, scale
from clinic.trends.drawing.lines import FIRST, SECOND, Look
from clinic.trends.drawing.style import WIDE, Medium
from clinic.trends.drawing.time_span import Span
from clinic.trends.tracks import Track
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


#: Panels that a trend may have, and what is shown where there is nothing for them.
NAMES = {
    "protrusion": "protrusion",
    "size": "length and width",
    "skin": "skin",
    "separation": "separation of stoma and skin",
    "bulge": "bulge beside the stoma",
    "bars": "barriers worn",
    "output": "output",
}


#: What is looked for at each visit by the clock, with the title of its panel.
SPOTS = {
    "separation": "Stoma and skin apart, by the clock",
    "bulge": "Bulge beside the stoma, by the clock",
}


def panels_of(data: Data, medium: Medium) -> list[Panel]:
    """Every panel that has something to show."""
    has = data.tracks.keys()
    found = []
    if "protrusion" in has:
        found.append(Panel("protrusion", TITLE + 112, lambda sheet: _protrusion(sheet, data)))
    if {"length", "width"} & has:
        found.append(Panel("size", TITLE + 92, lambda sheet: _size(sheet, data)))
    if {"burden", "faces"} & has:
        found.append(_skin_panel(data, medium))
    for spots in SPOTS:
        if spots in has:
            found.append(_spots_panel(data, spots, medium))
    if "bars" in has:
        key = bars.key_height(data.series.bars, medium)
        found.append(Panel("bars", TITLE + key + 92, lambda sheet: _bars(sheet, data)))
    if "output" in has:
        found.append(Panel("output", TITLE + 92, lambda sheet: _output(sheet, data)))
    return found


def left_out(data: Data) -> tuple[str, ...]:
    """What nothing was recorded of, in words."""
    there = {panel.key for panel in panels_of(data, WIDE)}
    # What was looked for and never found has no panel, but was recorded.
    there |= {key for key in SPOTS if any(s.spots is not None for s in _sightings(data, key))}
    return tuple(words for key, words in NAMES.items() if key not in there)


def height(panels: list[Panel]) -> float:
    """Of all, with the gaps between."""
    return sum(panel.height for panel in panels) + GAP * (len(panels) - 1)


def _latest(track: Track) -> str:
    last = track.marks[-1]
    return f"latest {last.value}, {formatting.day(last.day)}"


def _protrusion(sheet: Sheet, data: Data) -> None:
    track, points = data.tracks["protrusion"], data.series.protrusion
    sheet.title("Protrusion, mm above the skin", _latest(track) if _roomy(sheet) else "")
    axes = sheet.panel("protrusion", 112)
    edges = [e for zone in data.series.zones for e in (zone.low, zone.high) if e is not None]
    lines.fit(axes, points, _near(edges, max(p.value for p in points)), sheet.medium)
    if data.series.zones:
        axes.grid(visible=False)
    lines.draw_zones(axes, data.series.zones, points, sheet.medium)
    lines.draw_lines(axes, [(track, points, FIRST)], sheet.medium)


def _near(edges: list[float], highest: float) -> list[float]:
    """The borders and levels worth showing: those passed already, and the next one above."""
    above = sorted(edge for edge in edges if edge > highest)
    return [edge for edge in edges if edge <= highest] + above[:1]


def _size(sheet: Sheet, data: Data) -> None:
    every: list[tuple[str, tuple[Point, ...], Look]] = [
        ("length", data.series.length, FIRST),
        ("width", data.series.width, SECOND),
    ]
    drawn = [(data.tracks[key], points, look) for key, points, look in every if points]
    sheet.title("Size at the base, mm")
    lines.key(sheet, drawn)
    axes = sheet.panel("size", 92)
    values = [p.value for _, points, _ in drawn for p in points]
    scale(axes, values, sheet.medium, zero=False, least=LEAST_SIZE)
    lines.draw_lines(axes, drawn, sheet.medium)


def _skin_panel(data: Data, medium: Medium) -> Panel:
    days = [face.day for face in data.series.faces]
    shown = (data.span.last - data.span.first).days
    lanes = faces.lanes_of(days, medium, shown)
    strip = (max(lanes) + 1) * faces.LANE + 4 if lanes else 0.0
    line = 72.0 if data.series.burden else 4.0
    return Panel("skin", TITLE + strip + line, lambda s: _skin(s, data, lanes, strip, line))


def _skin(sheet: Sheet, data: Data, lanes: tuple[int, ...], strip: float, line: float) -> None:
    burden = data.tracks.get("burden")
    note = _latest(burden) if burden and _roomy(sheet) else ""
    sheet.title("Skin burden, mm² of damaged skin" if burden else "Damaged skin by the clock", note)
    if lanes:
        axes = sheet.panel("faces", strip - 4, framed=False)
        faces.draw_faces(axes, data.series.faces, lanes, sheet.medium)
        sheet.y += 4
    axes = sheet.panel("skin", line)
    if burden is None:
        axes.set_yticks([])
        return
    lines.fit(axes, data.series.burden, [], sheet.medium, least=LEAST_BURDEN)
    lines.draw_lines(axes, [(burden, data.series.burden, FIRST)], sheet.medium)


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
    bars.draw_bars(sheet.panel("bars", 92), data.series.bars, data.today, sheet.medium)


def _output(sheet: Sheet, data: Data) -> None:
    track, points = data.tracks["output"], data.series.output
    sheet.title("Output, mL/24 h", _latest(track) if _roomy(sheet) else "")
    axes = sheet.panel("output", 92)
    highest = max(p.value for p in points)
    levels = _near([line.value for line in data.series.output_lines], highest)
    lines.fit(axes, points, levels, sheet.medium)
    lines.draw_levels(axes, data.series.output_lines, sheet.medium)
    lines.draw_lines(axes, [(track, points, FIRST)], sheet.medium)


def _roomy(sheet: Sheet) -> bool:
    """Whether a title leaves room for the latest value beside it."""
    return sheet.medium.width >= ROOMY


ROOMY = 500
#: mm of length and width shown at least.
LEAST_SIZE = 12.0
#: mm² of damaged skin shown at least.
LEAST_BURDEN = 100.0

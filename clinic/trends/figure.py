"""The trend as one figure: on a screen wide or narrow, and on paper in black and white."""

from __future__ import annotations

import io
import textwrap
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.dates import date2num

from clinic import formatting
from clinic.plans.course_results import Series
from clinic.trends.drawing import events as happenings
from clinic.trends.drawing import panels as rows
from clinic.trends.drawing.axes import BELOW, GAP, Sheet
from clinic.trends.drawing.events import Placed
from clinic.trends.drawing.panels import Data, Panel
from clinic.trends.drawing.style import COLUMN, LETTER, NARROW, SHEET, WIDE, Medium
from clinic.trends.drawing.svg import tidy
from clinic.trends.drawing.time_span import Span, span_of
from clinic.trends.tracks import Happening, Mark, Track, tracks_of

TITLE = "Trend of this stoma over time; every value is also in the table"
LINE = 15.0


@dataclass(frozen=True)
class TrendFigure:
    """Made by ``figure``. Equal input gives equal bytes."""

    series: Series
    events: tuple[Happening, ...]
    today: date

    @cached_property
    def tracks(self) -> tuple[Track, ...]:
        """All data in words, events too; the same that the figure's marks say."""
        return tracks_of(self.series, self.events, self.today)

    @cached_property
    def span(self) -> Span:
        """What the time axis shows."""
        return span_of(self.series, [event.day for event in self.events], self.today)

    @cached_property
    def is_empty(self) -> bool:
        """Whether there is no value to draw; events alone make no trend."""
        return all(track.key == "events" for track in self.tracks)

    @property
    def left_out(self) -> tuple[str, ...]:
        """Panels without any data, in words."""
        return rows.left_out(self._data())

    @property
    def off_axis(self) -> tuple[Mark, ...]:
        """Events before or after the time that the axis shows."""
        return tuple(mark for mark in self._events() if mark.day not in self.span)

    @property
    def on_axis(self) -> tuple[Mark, ...]:
        """Events shown in the figure."""
        return tuple(mark for mark in self._events() if mark.day in self.span)

    def svg(self, *, for_paper: bool = False, narrow: bool = False) -> str:
        """The figure as SVG markup: no prolog, style, script or font of its own.

        On paper the marks have no pointer and keyboard, and the events are written out below.
        ``narrow``: for a small screen, or one column of a page.
        Raises ``ValueError`` where there is nothing to draw.
        """
        if self.is_empty:
            raise ValueError("There is nothing to draw.")
        medium = (COLUMN if narrow else SHEET) if for_paper else NARROW if narrow else WIDE
        sheet = self.sheet(medium)
        stream = io.BytesIO()
        FigureCanvasSVG(sheet.figure).print_svg(
            stream, metadata={"Date": None, "Creator": None, "Format": None, "Type": None}
        )
        tracks = {track.key: track for track in self._shown()}
        return tidy(stream.getvalue().decode(), tracks, medium, TITLE)

    def sheet(self, medium: Medium) -> Sheet:
        """The drawing itself, before it becomes markup."""
        data = self._data()
        panels = rows.panels_of(data, medium)
        placed = self._placed(medium)
        strip = happenings.height(placed) if placed else 4.0
        notes = [] if medium.alive else self._notes(medium)
        inner = rows.height(panels)
        sheet = Sheet(medium, self.span, strip + inner + BELOW + len(notes) * LINE + 4)
        if placed:
            self._draw_events(sheet, placed, strip, inner)
        sheet.y = strip
        self._draw_panels(sheet, panels)
        for note in notes:
            sheet.y += LINE
            sheet.text(0, note, up=2, color=medium.palette.ink)
        return sheet

    def _draw_panels(self, sheet: Sheet, panels: list[Panel]) -> None:
        for panel in panels:
            panel.draw(sheet)
            sheet.y += GAP
        sheet.y -= GAP
        sheet.dates(list(sheet.panels.values())[-1])

    def _draw_events(self, sheet: Sheet, placed: list[Placed], strip: float, inner: float) -> None:
        axes = sheet.panel("events", strip + inner, framed=False)
        axes.set_ylim(0, strip + inner)
        axes.set_zorder(-1)
        happenings.draw_events(axes, strip, placed, sheet.medium)

    def _data(self) -> Data:
        return Data(self.series, {t.key: t for t in self.tracks}, self.span, self.today)

    def _events(self) -> tuple[Mark, ...]:
        return next((track.marks for track in self.tracks if track.key == "events"), ())

    def _shown(self) -> Iterable[Track]:
        """The tracks as drawn: without events off the axis."""
        for track in self.tracks:
            if track.key != "events":
                yield track
            elif self.on_axis:
                yield Track(track.key, track.title, track.unit, self.on_axis)

    def _placed(self, medium: Medium) -> list[Placed]:
        ends = (float(date2num(self.span.first)), float(date2num(self.span.last)))
        return happenings.place(self.on_axis, medium, ends)

    def _notes(self, medium: Medium) -> list[str]:
        """For paper: each event in a line, and what is not shown."""
        letters = int(medium.width / LETTER)
        said = [f"{mark.words}" for mark in self._events()]
        if self.left_out:
            said.append(f"Nothing recorded of: {', '.join(self.left_out)}.")
        return [line for words in said for line in textwrap.wrap(words, letters)]


def figure(series: Series, events: Iterable[Happening], *, today: date) -> TrendFigure:
    """The figure of one stoma. ``today`` ends what is still going on.

    Raises ``KeyError`` for an event of an unknown kind.
    """
    return TrendFigure(series, tuple(events), today)


def described(figure: TrendFigure) -> str:
    """From when to when, for a line below the figure."""
    return f"{formatting.day(figure.span.first)} to {formatting.day(figure.span.last)}"

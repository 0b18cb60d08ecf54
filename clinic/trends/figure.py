"""The trend as one figure: on a screen a panel each, for every width; on paper below one another,
in black and white. Both are drawn by ``TrendFigure.sheet``."""

from __future__ import annotations

import io
import textwrap
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date
from functools import cached_property, lru_cache

from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.dates import date2num

from clinic.plans.course_results import Series
from clinic.trends.drawing import events as happenings
from clinic.trends.drawing import panels as rows
from clinic.trends.drawing.axes import BELOW, GAP, Sheet
from clinic.trends.drawing.events import Placed
from clinic.trends.drawing.panels import Data, Panel
from clinic.trends.drawing.style import COLUMN, LETTER, PANEL, SHEET, Medium
from clinic.trends.drawing.svg import tidy
from clinic.trends.drawing.time_span import Span, edged, span_of
from clinic.trends.tracks import Happening, Mark, Track, tracks_of
from clinic.trends.window import within

TITLE = "Trend of this stoma over time; every value is also in the table"
LINE = 15.0
#: So many drawings are kept by each process, 100 kB or less each.
KEPT = 64


@dataclass(frozen=True, slots=True)
class Drawn:
    """One panel of the page: its key and its markup."""

    key: str
    svg: str


@dataclass(frozen=True)
class TrendFigure:
    """Made by ``figure``. Equal input gives equal bytes."""

    series: Series
    events: tuple[Happening, ...]
    today: date
    since: date | None = None
    hernia: bool = False

    @cached_property
    def tracks(self) -> tuple[Track, ...]:
        """The whole course in words, events too, whatever part of it is drawn."""
        return tracks_of(self.series, self.events, self.today, hernia=self.hernia)

    @cached_property
    def shown(self) -> Series:
        """The part that is drawn."""
        return self.series if self.since is None else within(self.series, self.since, self.today)

    @cached_property
    def span(self) -> Span:
        """What the time axis shows."""
        days = [event.day for event in self.events]
        if self.since is None:
            return span_of(self.series, days, self.today)
        later = span_of(self.shown, [day for day in days if day >= self.since], self.today)
        return edged(self.since, max(later.end, self.since))

    @cached_property
    def is_empty(self) -> bool:
        """Whether there is no value to draw; events alone make no trend."""
        return all(track.key == "events" for track in self._shown_tracks())

    @property
    def left_out(self) -> tuple[str, ...]:
        """Panels without any data in the whole course, in words."""
        return rows.left_out(self._data(self.series))

    @property
    def not_now(self) -> tuple[str, ...]:
        """Panels with data, but none in the part that is drawn, in words."""
        return tuple(name for name in rows.left_out(self._data()) if name not in self.left_out)

    @property
    def off_axis(self) -> tuple[Mark, ...]:
        """Events before or after the time that the axis shows."""
        return tuple(mark for mark in self._events() if mark.day not in self.span)

    @property
    def on_axis(self) -> tuple[Mark, ...]:
        """Events shown in the figure."""
        return tuple(mark for mark in self._events() if mark.day in self.span)

    def on_screen(self) -> tuple[Drawn, ...]:
        """A panel each, in the order they are read; the first holds the marks of the events.

        Raises ``ValueError`` where there is nothing to draw.
        """
        return _drawn_once(self)

    def _on_screen(self) -> tuple[Drawn, ...]:
        return tuple(
            Drawn(panel.key, self._markup(PANEL, [panel], echo=number > 0))
            for number, panel in enumerate(self._panels(PANEL))
        )

    def on_paper(self, *, narrow: bool = False) -> str:
        """All panels below one another, and the events written out. ``narrow``: for one column
        of a page. Raises ``ValueError`` where there is nothing to draw."""
        medium = COLUMN if narrow else SHEET
        return self._markup(medium, self._panels(medium))

    def sheets(self) -> dict[str, Sheet]:
        """The drawing of each panel of the page, before it becomes markup."""
        return {panel.key: self.sheet(PANEL, [panel]) for panel in self._panels(PANEL)}

    def sheet(self, medium: Medium, panels: Sequence[Panel] = (), *, echo: bool = False) -> Sheet:
        """The drawing itself: ``panels``, else all of them, below the labels of the events. A
        panel alone has its title over the labels. ``echo``: the events are marks elsewhere."""
        panels = panels or self._panels(medium)
        placed = self._placed(medium)
        strip = happenings.height(placed) if placed else 4.0
        notes = [] if medium.alive else self._notes(medium)
        inner = rows.height(panels)
        sheet = Sheet(medium, self.span, strip + inner + BELOW + len(notes) * LINE + 4)
        if medium.alive:
            panels[0].head(sheet)
        down = sheet.y
        if placed:
            self._draw_events(sheet, placed, strip, inner - down, echo=echo)
        sheet.y = down + strip
        self._draw_panels(sheet, panels)
        for note in notes:
            sheet.y += LINE
            sheet.text(0, note, up=2, color=medium.palette.ink)
        return sheet

    def _markup(self, medium: Medium, panels: Sequence[Panel], *, echo: bool = False) -> str:
        sheet = self.sheet(medium, panels, echo=echo)
        stream = io.BytesIO()
        FigureCanvasSVG(sheet.figure).print_svg(
            stream, metadata={"Date": None, "Creator": None, "Format": None, "Type": None}
        )
        placed = self._placed(medium)
        return tidy(
            stream.getvalue().decode(),
            {track.key: track for track in self._drawn_tracks(placed)},
            medium,
            f"Trend of {rows.name_of(panels[0].key)}" if medium.alive else TITLE,
            prefix=f"{medium.key}-{panels[0].key}" if medium.alive else medium.key,
            echoes=[happenings.echo_words(one) for one in placed] if echo else (),
        )

    def _panels(self, medium: Medium) -> list[Panel]:
        if self.is_empty:
            raise ValueError("There is nothing to draw.")
        return rows.panels_of(self._data(), medium)

    def _draw_panels(self, sheet: Sheet, panels: Sequence[Panel]) -> None:
        for panel in panels:
            if not sheet.medium.alive:
                panel.head(sheet)
            panel.draw(sheet)
            sheet.y += GAP
        sheet.y -= GAP
        sheet.dates(list(sheet.panels.values())[-1])

    def _draw_events(
        self, sheet: Sheet, placed: list[Placed], strip: float, inner: float, *, echo: bool
    ) -> None:
        axes = sheet.panel("events", strip + inner, framed=False)
        axes.set_ylim(0, strip + inner)
        axes.set_zorder(-1)
        happenings.draw_events(axes, strip, placed, sheet.medium, echo=echo)

    def _data(self, series: Series | None = None) -> Data:
        of = self.shown if series is None else series
        tracks = self.tracks if series is not None else self._shown_tracks()
        return Data(of, {t.key: t for t in tracks}, self.span, self.today, self.hernia)

    def _shown_tracks(self) -> tuple[Track, ...]:
        return (
            self.tracks
            if self.since is None
            else tracks_of(self.shown, (), self.today, hernia=self.hernia)
        )

    def _events(self) -> tuple[Mark, ...]:
        return next((track.marks for track in self.tracks if track.key == "events"), ())

    def _drawn_tracks(self, placed: Sequence[Placed]) -> Iterable[Track]:
        """The tracks as drawn: of the events those on the axis, one mark for each group."""
        for track in self._shown_tracks():
            if track.key != "events":
                yield track
        if placed:
            yield Track("events", "Events", "", tuple(one.said for one in placed))

    def _placed(self, medium: Medium) -> list[Placed]:
        ends = (float(date2num(self.span.first)), float(date2num(self.span.last)))
        return happenings.place(self.on_axis, medium, ends) if self.on_axis else []

    def _notes(self, medium: Medium) -> list[str]:
        """For paper: each event in a line, and what is not shown."""
        letters = int(medium.width / LETTER)
        said = [f"{mark.words}" for mark in self._events()]
        if self.left_out:
            said.append(f"Nothing recorded of: {', '.join(self.left_out)}.")
        return [line for words in said for line in textwrap.wrap(words, letters)]


def figure(
    series: Series,
    events: Iterable[Happening],
    *,
    today: date,
    since: date | None = None,
    hernia: bool = False,
) -> TrendFigure:
    """The figure of one stoma. ``today`` ends what is still going on; ``since``: only that part
    of the course is drawn. Raises ``KeyError`` for an event of an unknown kind."""
    return TrendFigure(series, tuple(events), today, since, hernia)


@lru_cache(maxsize=KEPT)
def _drawn_once(figure: TrendFigure) -> tuple[Drawn, ...]:
    """A drawing takes most of the page's time, and the same course is looked at several times."""
    return figure._on_screen()

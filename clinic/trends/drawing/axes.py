"""The paper the trend is drawn on: one axis of dates, panels below one another."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from matplotlib.axes import Axes
from matplotlib.dates import AutoDateLocator, date2num
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.ticker import FixedLocator, MaxNLocator

from clinic.trends.drawing.dates import DayFormatter
from clinic.trends.drawing.style import FONT, SMALL, Medium
from clinic.trends.drawing.time_span import Span

#: Drawing units to the inch; figures are made at this many dots, so that both agree.
PER_INCH = 72
BELOW = 34.0  # room for the dates
TITLE = 20.0
GAP = 12.0
#: No tick so near the top of a panel: its number would touch the heading.
CLEAR = 5.0


@dataclass
class Sheet:
    """A figure of known height, filled from the top. ``y`` is how far down it is used."""

    medium: Medium
    span: Span
    height: float
    y: float = 0.0
    panels: dict[str, Axes] = field(default_factory=dict)

    def __post_init__(self) -> None:
        size = (self.medium.width / PER_INCH, self.height / PER_INCH)
        self.figure = Figure(figsize=size, dpi=PER_INCH, facecolor=self.medium.palette.paper)

    def panel(self, key: str, height: float, *, framed: bool = True) -> Axes:
        """The next ``height`` units over the whole width, on the common axis of dates."""
        axes = self.figure.add_axes(
            self._box(self.y, height), facecolor="none", xlim=self._limits(), label=key
        )
        self.y += height
        axes.set_autoscale_on(False)
        for side in ("top", "right") if framed else ("top", "right", "left", "bottom"):
            axes.spines[side].set_visible(False)
        self._quiet(axes, framed=framed)
        self.panels[key] = axes
        return axes

    def title(self, words: str, note: str = "") -> None:
        """A line above the next panel: what it shows, and at the right the latest value."""
        self.y += TITLE
        palette = self.medium.palette
        self.text(0, words, size=FONT, weight="bold", color=palette.ink)
        if note:
            self.text(self.medium.width, note, ha="right", color=palette.ink)

    def text(
        self, x: float, words: str, *, up: float = 6, size: float = SMALL, **look: Any
    ) -> None:
        """Words ``x`` units from the left, ``up`` units above where the next panel begins."""
        palette = self.medium.palette
        look.setdefault("color", palette.soft)
        # The lines of events pass behind.
        ground = {"facecolor": palette.paper, "edgecolor": "none", "pad": 1.0}
        # Typed by people: a dollar sign begins no formula, and what no file of XML may hold
        # (a control character pasted along) is left out.
        clean = "".join(letter for letter in words if letter.isprintable())
        self.figure.text(
            *self.place(x, up), clean, fontsize=size, bbox=ground, parse_math=False, **look
        )

    def place(self, x: float, up: float) -> tuple[float, float]:
        """The same place as a share of the figure."""
        return x / self.medium.width, 1 - (self.y - up) / self.height

    def _box(self, top: float, height: float) -> tuple[float, float, float, float]:
        medium = self.medium
        return (
            medium.left / medium.width,
            1 - (top + height) / self.height,
            medium.inner / medium.width,
            height / self.height,
        )

    def _limits(self) -> tuple[float, float]:
        return float(date2num(self.span.first)), float(date2num(self.span.last))

    def _quiet(self, axes: Axes, *, framed: bool) -> None:
        palette = self.medium.palette
        axes.spines[:].set_color(palette.mark)
        axes.tick_params(
            axis="both", labelsize=SMALL, labelcolor=palette.ink, color=palette.mark, length=3
        )
        axes.tick_params(axis="x", labelbottom=False, bottom=False)
        axes.tick_params(axis="y", left=framed, labelleft=framed)

    def dates(self, axes: Axes) -> None:
        """Write the dates below the last panel, the year where it begins."""
        locator = AutoDateLocator(minticks=2, maxticks=self.medium.dates)
        locator.intervald[1] = [1, 2, 3, 4, 6, 12]  # months
        locator.intervald[3] = [1, 2, 3, 7, 14]  # days: whole weeks rather than 4, 8, 12
        axes.xaxis.set_major_locator(locator)
        axes.xaxis.set_major_formatter(DayFormatter())
        axes.tick_params(axis="x", labelbottom=True, bottom=True)
        self.y += BELOW


def scale(
    axes: Axes, values: list[float], medium: Medium, *, zero: bool, least: float = 1.0
) -> None:
    """Limits of the value axis with room above and below, and few round ticks.

    ``least``: the smallest range shown, so that a small difference does not look large.
    """
    low, high = min(values), max(values)
    if zero:
        low = min(low, 0.0)
    if (short := least - (high - low)) > 0:
        low, high = (low if zero else low - short / 2), high + (short if zero else short / 2)
    room = (high - low) * 0.12
    bottom, top = low if zero and low == 0 else low - room, high + room
    axes.set_ylim(bottom, top)
    ticks = MaxNLocator(4, steps=[1, 2, 5, 10]).tick_values(bottom, top)
    clear = top - CLEAR * (top - bottom) / axes.bbox.height
    axes.yaxis.set_major_locator(FixedLocator([y for y in ticks if bottom <= y <= clear]))
    axes.grid(axis="y", color=medium.palette.grid, linewidth=0.6)
    axes.set_axisbelow(True)


def swatch(sheet: Sheet, x: float, up: float, **look: object) -> None:
    """A short piece of a line, for a key."""
    (x0, y), (x1, _) = sheet.place(x, up), sheet.place(x + 22, up)
    line = Line2D(
        [x0, (x0 + x1) / 2, x1], [y, y, y], markevery=[1], transform=sheet.figure.transFigure
    )
    line.set(**look)
    sheet.figure.add_artist(line)

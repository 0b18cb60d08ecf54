"""One small line without axes: its values over time, and a mark where a plan last changed."""

from __future__ import annotations

import io
from collections.abc import Sequence
from datetime import date
from typing import Any

from matplotlib.backends.backend_svg import FigureCanvasSVG
from matplotlib.dates import date2num

from clinic.trends.drawing.axes import Sheet
from clinic.trends.drawing.style import SCREEN, Medium
from clinic.trends.drawing.svg import tidy
from clinic.trends.drawing.time_span import Span

WIDTH, HEIGHT, EDGE = 150.0, 30.0, 5.0
Value = tuple[date, float]


def small_line(
    values: Sequence[Value],
    span: Span,
    *,
    change: date | None,
    key: str,
    words: str,
    marked: Sequence[Value] = (),
) -> str:
    """SVG markup of ``values``, oldest first; the newest has a large dot. ``marked``: those with a
    cross, such as leaks. ``key`` is the figure's own on its page; ``words`` say all of it.

    Raises ``ValueError`` where there is no value.
    """
    if not values:
        raise ValueError("There is nothing to draw.")
    medium = Medium(key, WIDTH, EDGE, EDGE, 0, SCREEN, alive=False)
    sheet = Sheet(medium, span, HEIGHT, y=EDGE)
    axes = sheet.panel(key, HEIGHT - 2 * EDGE, framed=False)
    palette, days = medium.palette, [date2num(day) for day, _ in values]
    numbers = [number for _, number in values]
    low, high = min(numbers), max(numbers)
    axes.set_ylim(low - 1, high + 1) if low == high else axes.set_ylim(low, high)
    if change is not None and change in span:
        axes.axvline(
            float(date2num(change)), color=palette.ink, linewidth=1, dashes=(4, 2), clip_on=False
        )
    line: dict[str, Any] = {"color": palette.first, "linewidth": 1.4, "clip_on": False}
    axes.plot(days, numbers, marker="o", markersize=2.5, **line)
    axes.plot(days[-1:], numbers[-1:], marker="o", markersize=6, **line)
    if marked:
        axes.plot(
            [date2num(day) for day, _ in marked],
            [number for _, number in marked],
            color=palette.bars["leak"].face,
            marker="x",
            markersize=5,
            markeredgewidth=1.6,
            linestyle="",
            clip_on=False,
        )
    stream = io.BytesIO()
    FigureCanvasSVG(sheet.figure).print_svg(
        stream, metadata={"Date": None, "Creator": None, "Format": None, "Type": None}
    )
    return tidy(stream.getvalue().decode(), {}, medium, words)

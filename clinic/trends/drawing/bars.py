"""Barriers worn: as wide as the time they stayed on, as high as the days, filled by why they
came off."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from typing import Any

from matplotlib.axes import Axes
from matplotlib.dates import date2num
from matplotlib.patches import Rectangle

from clinic.plans.course_results import Bar
from clinic.trends.drawing.axes import Sheet, scale
from clinic.trends.drawing.style import LETTER, SMALL, STILL_ON, BarStyle, Medium
from clinic.trends.tracks import days_worn, last_day
from clinic.visits.choices import RemovalReason

BAR = "bars-"
#: One letter each, over a bar wide enough to carry it.
LETTERS = {
    "planned": "P",
    "leak": "L",
    "itch_or_pain": "I",
    "fell_off": "F",
    "": "?",
    STILL_ON: "→",
}
LETTER_ROOM = 9.0
#: Below this width an outline would leave nothing of the filling.
THIN = 4.0


def state_of(bar: Bar) -> str:
    """Key of the filling."""
    if bar.off is None:
        return STILL_ON
    return str(bar.reason) if bar.reason else ""


def draw_bars(axes: Axes, bars: tuple[Bar, ...], today: date, medium: Medium) -> None:
    """One rectangle a barrier, in the order of the data.

    The scale is that of the barriers that came off; one still on may be drawn too short for it,
    and all that began before the axis does from there on.
    """
    off = [bar for bar in bars if bar.off] or bars
    scale(axes, [float(days_worn(bar, today)) for bar in off], medium, zero=True)
    axes.set_ylim(0, axes.get_ylim()[1] * 1.12)  # room for the letters
    left, right = axes.get_xlim()
    most = axes.get_ylim()[1] * 0.84
    per_day = medium.inner / (right - left)
    for number, (bar, (start, end)) in enumerate(zip(bars, _spans(bars, today), strict=True)):
        start, end = max(start, left), min(end, right)
        days = days_worn(bar, today)
        high = min(float(days), most)
        width = (end - start) * per_day
        look = medium.palette.bars[state_of(bar)]
        axes.add_patch(
            Rectangle(
                (start, 0), end - start, high, gid=f"{BAR}{number}", zorder=3, **_fill(look, width)
            )
        )
        if width >= LETTER_ROOM:
            axes.text(
                (start + end) / 2,
                high,
                LETTERS[state_of(bar)],
                fontsize=SMALL,
                ha="center",
                va="bottom",
                color=medium.palette.ink,
            )


def _spans(bars: tuple[Bar, ...], today: date) -> Iterator[tuple[float, float]]:
    """From when to when each is drawn. Where records of the same days contradict one another, none
    hides another: what goes on longer ends where the next begins, and what begins on one day
    shares it."""
    starts = sorted({date2num(bar.on) for bar in bars})
    for bar in bars:
        start = date2num(bar.on)
        following = next((on for on in starts if on > start), float("inf"))
        alike = [other for other in bars if other.on == bar.on]
        end = min(max(float(date2num(last_day(one, today))) for one in alike), following)
        share = (max(end, start) - start) / len(alike)
        place = next(n for n, other in enumerate(alike) if other is bar)
        yield float(start + place * share), float(start + (place + 1) * share)


def _fill(look: BarStyle, width: float) -> dict[str, Any]:
    return {
        "facecolor": look.face,
        "edgecolor": look.edge,
        "hatch": look.hatch or None,
        "linestyle": (0, (3, 2)) if look.dashed else "-",
        "linewidth": 1.0 if width >= THIN else 0.4,
    }


def key(sheet: Sheet, bars: tuple[Bar, ...]) -> None:
    """Every filling that occurs, with its letter and in words, on lines of its own."""
    x = 0.0
    sheet.y += KEY_LINE
    for state in key_states(bars):
        words = _words(state)
        width = _entry_width(words)
        if x and x + width > sheet.medium.width:
            x, sheet.y = 0.0, sheet.y + KEY_LINE
        corner, top = sheet.place(x, 5), sheet.place(x + 16, 15)
        sheet.figure.add_artist(
            Rectangle(
                corner,
                top[0] - corner[0],
                top[1] - corner[1],
                transform=sheet.figure.transFigure,
                **_fill(sheet.medium.palette.bars[state], 16),
            )
        )
        sheet.text(x + 20, words, color=sheet.medium.palette.ink)
        x += width


KEY_LINE = 17.0


def key_states(bars: tuple[Bar, ...]) -> list[str]:
    """The fillings that occur, in their usual order."""
    found = {state_of(bar) for bar in bars}
    return [state for state in LETTERS if state in found]


def key_height(bars: tuple[Bar, ...], medium: Medium) -> float:
    """How much room ``key`` takes."""
    lines, x = 1, 0.0
    for state in key_states(bars):
        width = _entry_width(_words(state))
        if x and x + width > medium.width:
            lines, x = lines + 1, 0.0
        x += width
    return lines * KEY_LINE


def _entry_width(words: str) -> float:
    return 20 + LETTER * len(words) + 12


def _words(state: str) -> str:
    if state == STILL_ON:
        return f"{LETTERS[state]} still on when last seen"
    label = RemovalReason(state).label.lower() if state else "not recorded"
    return f"{LETTERS[state]} {label}"

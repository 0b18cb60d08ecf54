"""A letter made to fit one page: what is cut, in which order, and the note about it.

The question, the two answers and the red flags are never cut: where even they alone fill more
than a page, the letter takes another one.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import TypeVar

from clinic.documents.letter.build import Letter
from clinic.documents.letter.treatment_history import Tried

Row = TypeVar("Row")


@dataclass(frozen=True)
class Room:
    """How much of each part is shown. ``points`` of type, ``figure`` its width in mm (0: left
    out); ``line`` letters of a line. None: everything. ``run_on``: the lines of the question
    belong to one paragraph."""

    points: float
    figure: int
    tried: int | None = None
    course: int | None = None
    plan: int | None = None
    findings: int | None = None
    line: int | None = None
    run_on: bool = False


#: The type shrinks first, then the figure; then older plans give way, the tail of the plan, the
#: figure itself, the tail of the findings.
ROOMS = (
    Room(10.5, 84),
    Room(10, 80),
    Room(9.5, 76),
    Room(9, 72),
    Room(9, 66),
    Room(9, 60),
    Room(9, 54),
    Room(9, 54, tried=3),
    Room(9, 54, tried=2),
    Room(9, 54, tried=2, course=5, plan=10),
    Room(9, 54, tried=2, course=3, plan=7),
    Room(9, 48, tried=1, course=2, plan=6, line=220),
    Room(9, 44, tried=1, course=2, plan=5, findings=12, line=160),
    Room(9, 0, tried=1, course=2, plan=5, findings=12, line=160),
    Room(9, 0, tried=1, course=1, plan=5, findings=10, line=160, run_on=True),
    Room(9, 0, tried=1, course=1, plan=4, findings=8, line=140, run_on=True),
    Room(9, 0, tried=0, course=1, plan=3, findings=6, line=120, run_on=True),
    Room(9, 0, tried=0, course=1, plan=2, findings=3, line=100, run_on=True),
    Room(9, 0, tried=0, course=1, plan=1, findings=1, line=80, run_on=True),
)


#: Between lines of one paragraph of the question.
RUN_ON = " / "


@dataclass(frozen=True)
class Fitted:
    """A letter as printed; ``left_out`` names what is only in the record. ``earlier``: how many
    plans before those shown were tried."""

    letter: Letter
    points: float
    figure: int
    left_out: tuple[str, ...]
    earlier: int = 0

    @property
    def and_earlier(self) -> str:
        """Below what was tried, so that nothing is left out there without a word; "" where all of
        it is shown."""
        if not self.earlier:
            return ""
        plans = f"{self.earlier} earlier plan{'s' * (self.earlier != 1)}"
        return f"{'and ' if self.letter.tried else ''}{plans}: in the record"


def versions(letter: Letter) -> Iterator[Fitted]:
    """From the fullest to the one that fits whatever was written."""
    for room in ROOMS:
        yield fitted(letter, room)


def fitted(letter: Letter, room: Room) -> Fitted:
    """``letter`` with no more than ``room`` allows."""
    left: list[str] = []
    if letter.trend and not room.figure:
        left.append("the figure of the trend")
    return Fitted(
        letter=replace(
            letter,
            trend=letter.trend if room.figure else "",
            question=(RUN_ON.join(letter.question),) if room.run_on else letter.question,
            findings=_lines(letter.findings, room.findings, room.line, "finding", left),
            trend_words=_lines(
                letter.trend_words, room.course, room.line, "line of the course", left
            ),
            tried=_tried(letter.tried, room, left),
            tried_note="" if letter.tried else letter.tried_note,
            plan=_lines(letter.plan, room.plan, room.line, "line of the plan", left),
        ),
        points=room.points,
        figure=room.figure,
        left_out=tuple(left),
        earlier=len(letter.tried) - len(letter.tried[: room.tried]),
    )


def _some(rows: tuple[Row, ...], most: int | None, what: str, left: list[str]) -> tuple[Row, ...]:
    if most is None or len(rows) <= most:
        return rows
    over = len(rows) - most
    plural = what.replace("line ", "lines ") if what.startswith("line ") else f"{what}s"
    left.append(f"{over} {what if over == 1 else plural}")
    return rows[:most]


def _lines(
    lines: tuple[str, ...], most: int | None, letters: int | None, what: str, left: list[str]
) -> tuple[str, ...]:
    shown = _some(lines, most, what, left)
    if letters is None:
        return shown
    short = tuple(clipped(line, letters) for line in shown)
    if short != shown:
        left.append(f"the end of what ends in \N{HORIZONTAL ELLIPSIS} ({what})")
    return short


def _tried(rows: tuple[Tried, ...], room: Room, left: list[str]) -> tuple[Tried, ...]:
    shown = _some(rows, room.tried, "earlier plan", left)
    if room.line is None:
        return shown
    most = room.line
    short = tuple(
        replace(one, what=clipped(one.what, most), how=clipped(one.how, most)) for one in shown
    )
    if short != shown:
        left.append("the end of what ends in \N{HORIZONTAL ELLIPSIS} (earlier plan)")
    return short


def clipped(words: str, letters: int) -> str:
    """Cut between words, and seen to be cut.

    >>> clipped("Leaks twice a day", 12), clipped("Leaks", 12), clipped("Unbroken" * 3, 10)
    ('Leaks twice\N{HORIZONTAL ELLIPSIS}', 'Leaks', 'UnbrokenUn\N{HORIZONTAL ELLIPSIS}')
    """
    if len(words) <= letters:
        return words
    cut = words[: letters + 1].rsplit(" ", 1)[0] if " " in words[: letters + 1] else words[:letters]
    return f"{cut[:letters].rstrip(' ,;.')}\N{HORIZONTAL ELLIPSIS}"

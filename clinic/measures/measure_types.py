"""What a measure says, ready for the page and for the file alike; both hide the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from clinic import formatting
from clinic.measures.small_numbers import NOT_SHOWN
from planning.statistics.new_findings import Incidence
from planning.statistics.rates import Rate, Share
from planning.statistics.survival import Estimate, Quantile
from planning.statistics.too_few import TooFew

NOT_REACHED = "not reached"


@dataclass(frozen=True)
class Figure:
    """One figure with its 95 % interval, in words; ``low`` and ``high`` "" where there is none."""

    value: str
    low: str = ""
    high: str = ""

    @property
    def words(self) -> str:
        """``12.5 (8.1 to 18)``."""
        return f"{self.value} ({self.low} to {self.high})" if self.low or self.high else self.value


@dataclass(frozen=True)
class Line:
    """One row: what it is about, then its counts and figures in the order of the columns, as they
    leave the clinic.

    ``inside``: the same words with nothing hidden, for the screen of somebody who may open each
    record; () where they are no different. ``lists``: for each count, what to ask for to see the
    people behind it, "" where no list is kept.
    """

    about: str
    counts: tuple[str, ...]
    figures: tuple[Figure, ...]
    inside: tuple[str, ...] = ()
    lists: tuple[str, ...] = ()

    @property
    def words(self) -> tuple[str, ...]:
        return (*self.counts, *(figure.words for figure in self.figures))


@dataclass(frozen=True)
class Cell:
    """``text`` as it leaves the clinic; ``inside`` on the screen; ``list`` "" where there is no
    list of the people behind it."""

    column: str
    text: str
    inside: str
    list: str


@dataclass(frozen=True)
class Row:
    """A line as a table shows it."""

    about: str
    cells: list[Cell]


@dataclass(frozen=True)
class Measure:
    """One table with the rule behind it. ``units`` go with ``figure_columns``, one by one."""

    key: str
    title: str
    rule: str
    not_counted: str
    source: str
    about: str
    count_columns: tuple[str, ...]
    figure_columns: tuple[str, ...]
    units: tuple[str, ...]
    lines: tuple[Line, ...]
    #: Whether it hides what the files of other groups would give away; else it leaves the clinic
    #: for all stomas together only.
    beside_groups: bool = False
    #: Said in place of a table of nothing but noughts.
    nothing: str = ""

    @property
    def rows(self) -> list[Row]:
        """For the page: every cell with its column's name, for screens too narrow for columns."""
        columns = (*self.count_columns, *self.figure_columns)
        return [Row(line.about, list(_cells(columns, line))) for line in self.lines]


def _cells(columns: tuple[str, ...], line: Line) -> Iterator[Cell]:
    rest = len(columns) - len(line.lists)
    lists = (*line.lists, *[""] * rest)
    inside = line.inside or line.words
    for column, text, said, people in zip(columns, line.words, inside, lists, strict=True):
        yield Cell(column, text, said, people if said not in ("0", *NOTHING) else "")


HIDDEN = Figure(NOT_SHOWN)
NO_DATA = Figure("no data")
#: In place of a count: there is no one to list.
NOTHING = (NOT_SHOWN, NO_DATA.value)


def unless_shown(whole: int) -> Figure:
    """In place of a figure that is not shown: nothing was there to count, or too little."""
    return HIDDEN if whole else NO_DATA


def of_share(found: Share | TooFew) -> Figure:
    """A share already out of a hundred."""
    if isinstance(found, TooFew):
        return Figure(found.words)
    return Figure(tenths(found.value), tenths(found.low), tenths(found.high))


def of_estimate(found: Estimate | None) -> Figure:
    """The share still lasting, as a percentage."""
    if found is None:
        return Figure("not observed that long")
    if found.low is None or found.high is None:
        return Figure(tenths(100 * found.value))
    return Figure(tenths(100 * found.value), tenths(100 * found.low), tenths(100 * found.high))


def of_quantile(found: Quantile) -> Figure:
    """A median time; whatever is not reached says so."""
    if found.low is None and found.high is None:
        return Figure(_time(found.value))
    return Figure(_time(found.value), _time(found.low), _time(found.high))


def of_rate(found: Rate | TooFew) -> Figure:
    """Events a week, to two decimals."""
    if isinstance(found, TooFew):
        return Figure(found.words)
    return Figure(*(f"{value:.2f}" for value in (found.per_week, found.low, found.high)))


def of_incidence(found: Incidence | TooFew) -> Figure:
    """New ones in 100 stoma-months, to one decimal."""
    if isinstance(found, TooFew):
        return Figure(found.words)
    return Figure(tenths(found.per_hundred), tenths(found.low), tenths(found.high))


def tenths(value: float) -> str:
    """To one decimal."""
    return f"{value:.1f}"


def _time(value: float | None) -> str:
    return NOT_REACHED if value is None else formatting.number(value)

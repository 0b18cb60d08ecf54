"""One kind of finding by quarter and by stoma: what was new, with its interval."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, timedelta
from math import ceil

from clinic.measures.at_risk import Counts, Span, counts, over_spans
from clinic.measures.group import EVERYONE, Group
from clinic.measures.incidence import COLUMNS, line
from clinic.measures.measure_types import HIDDEN, Line, Measure, of_incidence, tenths
from clinic.measures.outside import nothing_hidden, outside
from clinic.measures.period import Period
from clinic.patients.models.stoma import StomaKind
from planning.statistics.new_findings import Incidence, months_of, new_per_hundred_months

NONE = Span(0, 0, 0)
Quarter = tuple[date, date]


def quarters(period: Period) -> list[Quarter]:
    """The quarters of the calendar, the first and the last as far as they are in the period.

    >>> one, two = quarters(Period(date(2025, 2, 1), date(2025, 5, 10)))
    >>> [day.isoformat() for day in (*one, *two)]
    ['2025-02-01', '2025-03-31', '2025-04-01', '2025-05-10']
    """
    found, first = [], period.since
    while first <= period.until:
        month = (first.month - 1) // 3 * 3 + 4
        after = date(first.year + (month > 12), (month - 1) % 12 + 1, 1)
        found.append((first, min(after - timedelta(days=1), period.until)))
        first = after
    return found


def quarter_words(first: date) -> str:
    """``2025, quarter 1``."""
    return f"{first.year}, quarter {(first.month - 1) // 3 + 1}"


def by_quarter(kind: str, period: Period, group: Group = EVERYONE) -> dict[date, Span]:
    """One query: first day of each quarter -> what was new in it."""
    spans = quarters(period)
    found = over_spans(kind, spans, period, group)
    return {first: found.get((first, ""), NONE) for first, _ in spans}


def quarters_measure(kind: str, words: str, found: dict[date, Span]) -> Measure:
    """One line a quarter. Few in one of them hide all: their sum is known."""
    numbers = [n for span in found.values() for n in (span.new, span.stomas)]
    shown = all(nothing_hidden([n], outside([n])) for n in numbers)
    return Measure(
        key="quarters",
        title=f"{words}: new by quarter",
        rule=(
            "As on the page of measures, cut by quarter: what was found new in it, over the months "
            "at risk that fall into it. The first and the last are as long as the dates asked "
            "for. Exact 95 % interval."
        ),
        not_counted=(
            "It is new in the quarter of the visit that found it, though it began at some time "
            "since the visit before. Quarters whose intervals overlap may well be alike."
        ),
        source="Garwood 1936",
        about="Quarter",
        count_columns=("New", "Stomas at risk", "Stoma-months at risk"),
        figure_columns=("New per 100 stoma-months",),
        units=("per 100 stoma-months",),
        lines=tuple(_line(kind, first, span, shown=shown) for first, span in found.items()),
    )


def _line(kind: str, first: date, span: Span, *, shown: bool) -> Line:
    figure = of_incidence(new_per_hundred_months(span.new, span.days))
    inside = (str(span.new), str(span.stomas), tenths(months_of(span.days)))
    new = f"of=incidence&kind={kind}&which=new&quarter={first.isoformat()}"
    return Line(
        quarter_words(first),
        inside if shown else (HIDDEN.value,) * len(inside),
        (figure if shown else HIDDEN,),
        inside=(*inside, figure.words),
        lists=(new,),
    )


def kinds_measure(kind: str, words: str, period: Period, group: Group = EVERYONE) -> Measure:
    """One line a kind of stoma. One query."""
    found = counts(period, group, "stoma")[kind]
    rows = {str(k.value): found.get(str(k.value), Counts.none()) for k in StomaKind}
    return Measure(
        key="kinds",
        title=f"{words}: new by kind of stoma",
        rule="As on the page of measures, for each kind of stoma by itself.",
        not_counted=(
            "Kinds differ in age, in illness and in why they were made: this says how often, "
            "never why."
        ),
        source="Garwood 1936",
        about="Stoma",
        count_columns=(*COLUMNS.values(), "Stoma-months at risk"),
        figure_columns=("New per 100 stoma-months",),
        units=("per 100 stoma-months",),
        lines=tuple(
            line(str(StomaKind(key).label), one, [rows], kind, more=f"&stoma={key}")
            for key, one in rows.items()
        ),
    )


#: As wide as a phone, so that its words stay readable there.
WIDTH, HEIGHT, LEFT, FOOT, HEAD = 360, 180, 44, 24, 10
#: Room of one quarter's label.
LABEL = 34


@dataclass(frozen=True)
class Bar:
    """One quarter as drawn: ``x`` its middle; ``y``, ``low`` and ``high`` from the top. ``label``:
    "" where there is no room for every quarter's."""

    x: float
    label: str
    words: str
    y: float | None = None
    low: float | None = None
    high: float | None = None


@dataclass(frozen=True)
class Drawing:
    """Points with their intervals above one axis, whose ends are ``ticks``: (height, words)."""

    bars: tuple[Bar, ...]
    ticks: tuple[tuple[float, str], ...]
    width: int = WIDTH
    height: int = HEIGHT
    left: int = LEFT


def drawing(found: dict[date, Span]) -> Drawing | None:
    """None where no quarter has a figure."""
    figures = {
        first: one
        for first, span in found.items()
        if isinstance(one := new_per_hundred_months(span.new, span.days), Incidence)
    }
    if not figures:
        return None
    top = max(one.high for one in figures.values())

    def at(value: float) -> float:
        return round(HEIGHT - FOOT - value / top * (HEIGHT - FOOT - HEAD), 1)

    step = (WIDTH - LEFT) / len(found)
    every = ceil(LABEL / step)
    bars = []
    for place, first in enumerate(found):
        x, drawn = round(LEFT + step * (place + 0.5), 1), figures.get(first)
        label = f"{(first.month - 1) // 3 + 1}/{first.year % 100:02d}" if place % every == 0 else ""
        said = quarter_words(first)
        if drawn is None:
            bars.append(Bar(x, label, f"{said}: no data"))
        else:
            said = f"{said}: {of_incidence(drawn).words}"
            bars.append(Bar(x, label, said, at(drawn.per_hundred), at(drawn.low), at(drawn.high)))
    ticks = tuple((at(value), tenths(value)) for value in (0.0, top / 2, top))
    return Drawing(tuple(bars), ticks)

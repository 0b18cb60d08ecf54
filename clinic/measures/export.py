"""The measures as a file for a spreadsheet: one row a count or figure, hidden as on the page."""

from __future__ import annotations

import csv
from collections.abc import Iterable, Iterator
from io import StringIO

from clinic.measures.group import EVERYONE, Group
from clinic.measures.measure_types import Measure
from clinic.measures.period import Period

COLUMNS = ("from", "until", "stomas", "measure", "about", "what", "unit", "value", "low", "high")
#: A cell that begins so would be run by a spreadsheet.
_RUN = ("=", "+", "-", "@", "\t", "\r", "\n")


def as_csv(found: Iterable[Measure], period: Period, group: Group = EVERYONE) -> str:
    """Comma-separated, UTF-8 with a mark, lines ended as the format's standard (RFC 4180) says."""
    out = StringIO()
    writer = csv.writer(out)
    writer.writerow(COLUMNS)
    of = group.words or "all"
    for row in _rows(found):
        cells = (period.since.isoformat(), period.until.isoformat(), of, *row)
        writer.writerow([guarded(cell) for cell in cells])
    return "\ufeff" + out.getvalue()


def guarded(cell: str) -> str:
    """``cell`` as text, even where a spreadsheet would take it for something to work out.

    >>> guarded("=1+1"), guarded("12.5")
    ("'=1+1", '12.5')
    """
    return f"'{cell}" if cell.startswith(_RUN) else cell


def _rows(found: Iterable[Measure]) -> Iterator[tuple[str, ...]]:
    for measure in found:
        for line in measure.lines:
            for what, count in zip(measure.count_columns, line.counts, strict=True):
                yield measure.title, line.about, what, "", count, "", ""
            columns = zip(measure.figure_columns, measure.units, line.figures, strict=True)
            for what, unit, figure in columns:
                yield measure.title, line.about, what, unit, figure.value, figure.low, figure.high

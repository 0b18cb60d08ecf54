"""Complications on the register by grade, and confirmed hernias by class."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from clinic.complications.choices import Grade, Kind
from clinic.measures import small_numbers
from clinic.measures.group import EVERYONE, Group
from clinic.measures.measure_types import HIDDEN, Line, Measure
from clinic.measures.outside import outside
from clinic.measures.period import Period
from clinic.measures.sql import counted
from clinic.plans.complication_rules import hernia_class, hernia_class_sources

#: Whole months are asked for, so what is known to the month is in them or not; what is known only
#: to the year may be neither. ``dated``: found in these dates, not in them, or (NULL) not known.
_REGISTER: Final = """
WITH /* chosen */, register AS (
    SELECT c.*, rpad(found_on, 10, '-01-01') AS earliest,
        CASE length(found_on) WHEN 4 THEN found_on || '-12-01' WHEN 7 THEN found_on || '-01'
            ELSE found_on END AS latest
    FROM complications_complication c JOIN chosen ON chosen.id = c.stoma_id
)
SELECT stoma_id, kind, grade, defect_cm, incisional, CASE
    WHEN found_on = '' THEN NULL
    WHEN earliest >= %(since)s::text AND latest <= %(until)s::text THEN TRUE
    WHEN latest < %(since)s::text OR earliest > %(until)s::text THEN FALSE END AS dated
FROM register
"""
#: Keys of the lines: a grade, "" not graded; ``class I`` and so on, ``class`` without one.
GRADES: Final = {**dict(Grade.choices), "": "Not graded"}
CLASSES: Final = {
    **{f"class {one}": f"Hernia of class {one}" for one in ("I", "II", "III", "IV")},
    "class": "Hernia, confirmed, without a class",
}


@dataclass(frozen=True)
class Register:
    """Line -> how many complications of each stoma; ``undated``: it is not known whether they were
    found in these dates."""

    lines: dict[str, Counter[int]]
    undated: int


def register(period: Period, group: Group = EVERYONE) -> Register:
    """One query."""
    lines: dict[str, Counter[int]] = defaultdict(Counter)
    undated = 0
    for stoma, kind, grade, defect_cm, incisional, dated in counted(_REGISTER, period, group):
        undated += dated is None
        if dated:
            lines[grade][stoma] += 1
            if kind == Kind.HERNIA:
                of_class = hernia_class(defect_cm, incisional=incisional)
                lines[f"class {of_class}".strip()][stoma] += 1
    return Register(lines, undated)


def graded(found: Register) -> Measure:
    """One line a grade, then one a class. Grades are counted, never averaged."""
    return Measure(
        key="graded",
        title="Complications on the register",
        rule=(
            "What was recorded as found in these dates, by the grade of what had to be done for "
            "it; below, confirmed hernias by the class that CT or an operation gives. A stoma may "
            "have several."
        ),
        not_counted=(
            "Those of which it is not known whether they were found in these dates "
            f"({small_numbers.count(found.undated)}). What is not put on the register; what "
            "visits found is in the tables above."
        ),
        source=f"Grades: Dindo and others 2004. Classes: {hernia_class_sources()}",
        about="Grade or class",
        count_columns=("Stomas", "Complications"),
        figure_columns=(),
        units=(),
        lines=(*_lines(GRADES, found), *_lines(CLASSES, found)),
        nothing="" if found.lines else "Nothing was recorded in these dates.",
    )


def _lines(scale: dict[str, str], found: Register) -> Iterator[Line]:
    """Of one scale, whose lines add up to a total."""
    rows = {key: found.lines.get(key, Counter()) for key in scale}
    stomas = [len(row) for row in rows.values()]
    for (key, row), said in zip(rows.items(), outside(stomas), strict=True):
        inside = (str(len(row)), str(row.total()))
        hidden = said != inside[0]
        yield Line(
            scale[key],
            (said, HIDDEN.value if hidden else inside[1]),
            (),
            inside=inside,
            lists=(f"of=graded&kind={key.replace(' ', '+')}&which=all",),
        )


def stomas_graded(found: Register, key: str) -> list[int] | None:
    """The stomas of one line; None where there is no such line."""
    return sorted(found.lines.get(key, ())) if key in GRADES or key in CLASSES else None

"""The questions of one section as the page draws them: fields, what is charted, in words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from django.db.models import Model
from django.forms import BoundField

from clinic.visits.chart import PARTS, Chart, part_of
from clinic.visits.forms.fields import NONE
from clinic.visits.forms.rows import RowSet
from clinic.visits.models import Assessment
from clinic.visits.presenters.field_words import field_words
from clinic.visits.questions.conditions import is_met
from clinic.visits.questions.question import ROWS, Question
from clinic.visits.value_words import value_words

#: Bands of the clock face that are no rows: the field that holds the hours -> its band.
BANDS = {
    "system-erosion_hours": "erosion",
    "system-leak_hours": "leak",
    "stoma-separation_hours": "separation",
    "abdomen-bulge_hours": "bulge",
}


class RowWords(NamedTuple):
    """``add``: the button that adds one; ``one`` and ``several``: what they are called."""

    add: str
    one: str
    several: str

    def counted(self, count: int) -> str:
        """``2 creases``; "" where there is none."""
        return f"{count} {self.one if count == 1 else self.several}" if count else ""


#: Set of rows -> its words.
ROW_WORDS = {
    "finding": RowWords("Add a finding", "skin finding", "skin findings"),
    "wound": RowWords("Add a wound", "wound", "wounds"),
    "otherstoma": RowWords("Add another stoma", "other stoma", "other stomas"),
    "colourpart": RowWords("Add a part", "part of another colour", "parts of another colour"),
    "begun": RowWords("Add another product", "product started", "products started"),
    "crease": RowWords("Add a crease", "crease", "creases"),
    "wear": RowWords("Add a barrier", "barrier", "barriers"),
}
#: Said at the top of the page.
ON_TOP = {"visit-happened_at"}
#: Said of the last visit where the quick answer held then.
THE_SAME = "the same"


@dataclass(frozen=True)
class Cell:
    """A field, or a set of rows, at its place in a question. ``reveal``: the answer that brings it
    into sight (``reveal.js``)."""

    field: BoundField | None = None
    band: str = ""
    rows: RowSet | None = None
    row_template: str = ""
    add: str = ""
    reveal: str = ""


@dataclass(frozen=True)
class Reveal:
    """Neighbouring cells that make sense only after one answer; ``condition`` "" for all others."""

    condition: str
    cells: tuple[Cell, ...]


@dataclass(frozen=True)
class ShownQuestion:
    """``said``: what is charted, in words; ``last``: the same of the last visit; ``listed``:
    the words that the line reads out."""

    question: Question
    groups: tuple[Reveal, ...]
    is_open: bool
    said: str
    last: str
    listed: str

    @property
    def was_the_same(self) -> bool:
        """Whether the last visit's answer was what the quick answer records."""
        return self.last == THE_SAME


def shown_questions(
    questions: Sequence[Question],
    chart: Chart,
    answers: Mapping[str, Sequence[str]],
    last_rows: Mapping[str, Sequence[str]],
) -> list[ShownQuestion]:
    """The questions that matter here, and any in which something is charted. ``answers``: every
    field as posted; ``last_rows``: the rows of the last visit in words, by set."""
    found = []
    for question in questions:
        shown = _shown(question, chart, answers, last_rows)
        if shown.said or shown.is_open or question.matters(chart.assessment):
            found.append(shown)
    return found


def said_of(question: Question, chart: Chart) -> str:
    """What is charted in answer to a question, in words; "" where nothing is."""
    fields = [field_of(chart, name) for name in question.names if name not in ON_TOP]
    words = [(str(field.label), field_words(field)) for field in fields]
    rows = [ROW_WORDS[name].counted(len(chart.rows[name].kept())) for name in question.rows]
    if len(fields) == 1 and not question.rows:
        return words[0][1]
    return "; ".join(
        [*(f"{label}: {value}" for label, value in words if value), *filter(None, rows)]
    )


def field_of(chart: Chart, name: str) -> BoundField:
    """The field of an HTML name; no row's."""
    prefix, _, field = name.partition("-")
    return chart.form(prefix)[field]


def _shown(
    question: Question,
    chart: Chart,
    answers: Mapping[str, Sequence[str]],
    last_rows: Mapping[str, Sequence[str]],
) -> ShownQuestion:
    said = said_of(question, chart)
    wrong = any(field_of(chart, name).errors for name in question.names) or any(
        form.errors for rows in question.rows for form in chart.rows[rows].forms if form.is_bound
    )
    asked = not said and (question.for_children or is_met(question.opens, answers))
    spare = any(form.untouched for rows in question.rows for form in chart.rows[rows].forms)
    listed = field_of(chart, question.lists) if question.lists else None
    return ShownQuestion(
        question=question,
        groups=tuple(_groups(question, chart)),
        is_open=wrong or (asked and question.matters(chart.assessment)) or spare,
        said=said,
        last=_last(question, chart.previous, last_rows),
        listed=_choices_in_words(listed),
    )


def _choices_in_words(field: BoundField | None) -> str:
    if field is None:
        return ""
    choices: Any = field.field.choices  # type: ignore[attr-defined]  # a field of words
    return ", ".join(str(label) for value, label in choices if value != NONE)


def _last(
    question: Question, previous: Assessment | None, last_rows: Mapping[str, Sequence[str]]
) -> str:
    if previous is None:
        return ""
    words = []
    # A field in sight has its own beside it.
    for name in () if question.in_sight else question.names:
        prefix, _, field = name.partition("-")
        row = _row_of(previous, prefix)
        if row is not None and (value := value_words(row, field)):
            words.append(f"{_label(row, field)}: {value}")
    rows = [line for name in question.rows for line in last_rows.get(name, ())]
    if not rows and question.quick and _was_all(question.quick.values, words, previous):
        return THE_SAME
    return "; ".join([*words, *rows])


def _was_all(quick: Mapping[str, str], words: Sequence[str], previous: Assessment) -> bool:
    """Whether the last visit's answer was what the quick answer records, and nothing else."""
    return len(words) == len(quick) and all(
        _posted(_row_of(previous, prefix), field) == value
        for (prefix, _, field), value in ((name.partition("-"), v) for name, v in quick.items())
    )


def _posted(row: Model | None, field: str) -> str:
    """A stored value as a quick answer gives it."""
    value: Any = getattr(row, field, None)
    return NONE if value == [] else str(value)


def _row_of(assessment: Assessment, prefix: str) -> Model | None:
    if prefix == "whole":
        return assessment
    return part_of(assessment, PARTS[prefix][1]) if prefix in PARTS else None


def _label(row: Model, field: str) -> str:
    column: Any = row._meta.get_field(field)
    return str(column.verbose_name)


def _groups(question: Question, chart: Chart) -> Iterator[Reveal]:
    """Cells in their order; neighbours that wait for the same answer together."""
    waiting: list[Cell] = []
    for name in question.fields:
        cell = _cell(name, chart)
        if waiting and waiting[-1].reveal != cell.reveal:
            yield Reveal(waiting[-1].reveal, tuple(waiting))
            waiting = []
        waiting.append(cell)
    if waiting:
        yield Reveal(waiting[-1].reveal, tuple(waiting))


def _cell(name: str, chart: Chart) -> Cell:
    if name.startswith(ROWS):
        return _rows(name.removeprefix(ROWS), chart)
    return _field(name, chart)


def _rows(name: str, chart: Chart) -> Cell:
    return Cell(
        rows=chart.rows[name], row_template=f"visits/_row_{name}.html", add=ROW_WORDS[name].add
    )


def _field(name: str, chart: Chart) -> Cell:
    prefix, _, field = name.partition("-")
    form = chart.form(prefix)
    reveal = ""
    for details in form.details:
        if field in details.names:
            # A yes is posted by another name than its value.
            when = ",".join("yes" if value is True else str(value) for value in details.when)
            reveal = f"{prefix}-{details.of}={when}"
    return Cell(field=form[field], band=BANDS.get(name, ""), reveal=reveal)

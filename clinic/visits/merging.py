"""Two versions of one draft, field by field."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from django.forms import BaseForm
from django.http import QueryDict

from clinic.visits.chart import Chart, labels_of
from clinic.visits.forms.as_posted import form_as_posted
from clinic.visits.models import ConflictCopy

#: Posted beside the fields, no entries themselves.
HOUSEKEEPING = {"csrfmiddlewaretoken", "version", "press", "page", "turn"}
#: Hidden beside a decision: which words it is about.
ABOUT = "-about"


@dataclass(frozen=True)
class Difference:
    """One field on which the two versions differ; values as posted, ``choices`` their words,
    ``unit`` that of a number."""

    name: str
    label: str
    mine: list[str]
    theirs: list[str]
    choices: Mapping[str, str]
    unit: str = ""

    @property
    def mine_words(self) -> str:
        return self.in_words(self.mine)

    @property
    def theirs_words(self) -> str:
        return self.in_words(self.theirs)

    def in_words(self, values: list[str]) -> str:
        """Values of this field as a person reads them."""
        words = ", ".join(self.choices.get(value, value) for value in values)
        is_number = self.unit and _spelled(words).lstrip("-").replace(".", "", 1).isdigit()
        return f"{words} {self.unit}" if is_number else words

    @property
    def suggested(self) -> str:
        """One's own entry where nothing is stored. Nothing is pre-chosen otherwise: an empty
        field of one's own may have been emptied on purpose."""
        return "mine" if any(self.mine) and not any(self.theirs) else ""


def _forms(chart: Chart, also: Sequence[BaseForm]) -> Iterator[BaseForm]:
    yield from (form for _, form in chart.forms())
    yield from also


def as_posted(chart: Chart, also: Sequence[BaseForm] = ()) -> dict[str, list[str]]:
    """What the page would post if nothing were touched; ``also`` are its other forms."""
    posted = chart.as_posted()
    for form in also:
        posted |= form_as_posted(form)
    return posted


def differences(
    posted: Mapping[str, list[str]], chart: Chart, also: Sequence[BaseForm] = ()
) -> list[Difference]:
    """Every field on which ``posted`` and what is stored now differ."""
    mine = {n: _plain(v) for n, v in posted.items() if n not in HOUSEKEEPING}
    theirs = as_posted(chart, also)
    names = [n for n in [*theirs, *mine] if not n.endswith(("-row", ABOUT))]
    words = _Words(
        [*_forms(Chart(chart.assessment, data=_as_data(posted)), ()), *_forms(chart, also)]
    )
    return [
        Difference(
            name=name,
            label=words.labels.get(name, _last_word(name)),
            mine=mine.get(name, []),
            theirs=theirs.get(name, []),
            choices=words.choices.get(name, {}),
            unit=words.units.get(name, ""),
        )
        for name in dict.fromkeys(names)
        if not same_text(mine.get(name, []), theirs.get(name, []))
    ]


def _plain(values: list[str]) -> list[str]:
    return [value for value in values if value != ""]


def same_text(one: list[str], other: list[str]) -> bool:
    """Whether both say the same, in whichever order and spelling."""
    return _spelled_alike(one) == _spelled_alike(other)


def _spelled_alike(values: list[str]) -> list[str]:
    """Sorted, and spelled one way: 25 and 25.0 are one number, line ends differ by browser."""
    return sorted(_spelled(value.replace("\r\n", "\n").strip()) for value in values)


def _spelled(text: str) -> str:
    is_decimal = "." in text and text.replace(".", "", 1).lstrip("-").isdigit()
    return text.rstrip("0").rstrip(".") if is_decimal else text


def _as_data(posted: Mapping[str, list[str]]) -> QueryDict:
    data = QueryDict(mutable=True)
    for name, values in posted.items():
        data.setlist(name, values)
    return data


def _last_word(name: str) -> str:
    return name.rsplit("-", 1)[-1].replace("_", " ")


class _Words:
    """Labels, units, and the words of the choices that values as posted were made from."""

    def __init__(self, forms: Sequence[BaseForm]) -> None:
        self.labels: dict[str, str] = {}
        self.choices: dict[str, dict[str, str]] = {}
        self.units: dict[str, str] = {}
        for form in forms:
            self.labels |= labels_of(form)
            for name, field in form.fields.items():
                self.units[form.add_prefix(name)] = getattr(field, "unit", "")
                choices: Any = getattr(field, "choices", ())
                self.choices[form.add_prefix(name)] = {str(v): str(label) for v, label in choices}


def merged(
    copy: ConflictCopy, chart: Chart, chosen: dict[str, str], also: Sequence[BaseForm] = ()
) -> QueryDict:
    """The stored version with the fields for which ``chosen`` says *mine* put over it."""
    theirs = as_posted(chart, also)
    data = _as_data(theirs)
    for difference in differences(copy.data, chart, also):
        if chosen.get(difference.name) == "mine":
            data.setlist(difference.name, difference.mine)
    for name in chart.rows:
        marker = f"{name}-row"
        both = [*theirs.get(marker, []), *copy.data.get(marker, [])]
        data.setlist(marker, list(dict.fromkeys(both)))
    return data

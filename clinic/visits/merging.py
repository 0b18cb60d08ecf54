"""Two versions of one draft, field by field."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.http import QueryDict

from clinic.visits.chart import Chart
from clinic.visits.models import ConflictCopy

#: Posted beside the fields, no entries themselves.
HOUSEKEEPING = {"csrfmiddlewaretoken", "version", "press"}


@dataclass(frozen=True)
class Difference:
    """One field on which the two versions differ; values as posted and in words."""

    name: str
    label: str
    mine: list[str]
    theirs: list[str]
    mine_words: str
    theirs_words: str

    @property
    def suggested(self) -> str:
        """Keep what was entered where the other side is empty; else nothing is pre-chosen."""
        if not any(self.mine):
            return "theirs"
        return "" if any(self.theirs) else "mine"


def as_posted(chart: Chart) -> dict[str, list[str]]:
    """What the page would post if nothing were touched."""
    posted: dict[str, list[str]] = {}
    for _, form in chart.forms():
        for bound in form:
            posted |= _field_as_posted(bound)
    for name, rows in chart.rows.items():
        posted[f"{name}-row"] = [form.key for form in rows.kept()]  # type: ignore[attr-defined]
    return posted


def _field_as_posted(bound: Any) -> dict[str, list[str]]:
    value, widget = bound.value(), bound.field.widget
    if hasattr(widget, "decompress"):
        parts = value if isinstance(value, list) else widget.decompress(value)
        return {
            f"{bound.html_name}_{i + 1}": [] if part in (None, "") else [str(part)]
            for i, part in enumerate(parts)
        }
    if isinstance(value, (list, tuple)):
        return {bound.html_name: [str(v) for v in value]}
    shown = widget.format_value(value) if hasattr(widget, "format_value") else value
    if isinstance(shown, list):
        shown = shown[0] if shown else ""
    return {bound.html_name: [] if shown in (None, "", False) else [str(shown)]}


def differences(copy: ConflictCopy, chart: Chart) -> list[Difference]:
    """Every field on which ``copy`` and what is stored now differ."""
    mine = {n: _plain(v) for n, v in copy.data.items() if n not in HOUSEKEEPING}
    theirs = as_posted(chart)
    names = [n for n in [*theirs, *mine] if not n.endswith("-row")]
    labels = chart.labels()
    return [
        Difference(
            name=name,
            label=labels.get(name, _label(name)),
            mine=mine.get(name, []),
            theirs=theirs.get(name, []),
            mine_words=_words(chart, name, mine.get(name, [])),
            theirs_words=_words(chart, name, theirs.get(name, [])),
        )
        for name in dict.fromkeys(names)
        if _same_text(mine.get(name, [])) != _same_text(theirs.get(name, []))
    ]


def _plain(values: list[str]) -> list[str]:
    return [value for value in values if value != ""]


def _same_text(values: list[str]) -> list[str]:
    """Sorted, and spelled one way: 25 and 25.0 are one number, line ends differ by browser."""
    return sorted(_spelled(value.replace("\r\n", "\n").strip()) for value in values)


def _spelled(text: str) -> str:
    is_decimal = "." in text and text.replace(".", "", 1).lstrip("-").isdigit()
    return text.rstrip("0").rstrip(".") if is_decimal else text


def _label(name: str) -> str:
    """A row that only one side has: its last word."""
    return name.rsplit("-", 1)[-1].replace("_", " ")


def _words(chart: Chart, name: str, values: list[str]) -> str:
    for _, form in chart.forms():
        for field_name, field in form.fields.items():
            choices: Any = getattr(field, "choices", None)
            if form.add_prefix(field_name) == name and choices:
                labels = {str(v): str(label) for v, label in choices}
                return ", ".join(labels.get(v, v) for v in values)
    return ", ".join(values)


def merged(copy: ConflictCopy, chart: Chart, chosen: dict[str, str]) -> QueryDict:
    """The stored version with the fields for which ``chosen`` says *mine* put over it."""
    data = QueryDict(mutable=True)
    theirs = as_posted(chart)
    for name, values in theirs.items():
        data.setlist(name, values)
    for difference in differences(copy, chart):
        if chosen.get(difference.name) == "mine":
            data.setlist(difference.name, difference.mine)
    for name in chart.rows:
        marker = f"{name}-row"
        both = [*theirs.get(marker, []), *copy.data.get(marker, [])]
        data.setlist(marker, list(dict.fromkeys(both)))
    return data

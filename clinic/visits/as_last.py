"""As last time, looked at today: one press records a section with the last visit's values.

Only what is still empty is filled in, and only what one look or one question can confirm. What
happened since, what was counted in days and what must be measured at each visit is left out.
"""

from __future__ import annotations

import re
import uuid
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from django.http import QueryDict

from clinic.visits.chart import CLOSED, ROWS, SECTION_FORMS, Chart
from clinic.visits.choices import SectionKey
from clinic.visits.models import Assessment

#: Sections that can be confirmed, with what of their fields can: None for all but ``NEVER``.
CONFIRMED: dict[str, tuple[str, ...] | None] = {
    SectionKey.OUTPUT: ("output-consistency", "person-medicines"),
    SectionKey.SYSTEM: None,
    SectionKey.STOMA: None,
    SectionKey.SKIN: None,
    SectionKey.ABDOMEN: None,
}
#: What the used barrier showed, what was counted, and what says how something changed: of that
#: day alone.
NEVER = {
    *("system-erosion_hours", "system-leak_hours", "system-begun_product", "system-begun_days"),
    *("system-leaks", "system-leak_barriers", "system-usual_wear_days"),
    *("stoma-bleeding_stops_min", "stoma-bleeding_stopped_days", "stoma-colour_known"),
    *("stoma-prolapse_new", "stoma-prolapse_growing", "abdomen-bulge_new"),
}
#: The same of a row, whichever row it is.
NEVER_OF_ROW = {
    *("days", "changing", "enlarging", "hours_to_spread", "fades_min", "stays_min"),
    *("minutes_after_contact", "pain_0_10", "remove"),
}
#: Set of rows -> the answer above it, which must not be given otherwise.
ANSWER_ABOVE = {
    "finding": "skin-state",
    "wound": "skin-wounds",
    "otherstoma": "skin-other_stomas",
    "colourpart": "stoma-colour",
    "crease": "abdomen-creases",
}
#: What is measured -> its fields.
MEASURES = {
    "size": ("stoma-length_mm", "stoma-width_mm", "stoma-widest_mm", "stoma-radii_mm"),
    "height": (
        "stoma-protrusion_mm",
        "stoma-protrusion_sitting_mm",
        "stoma-protrusion_standing_mm",
    ),
    "prolapse": ("stoma-prolapse_extra_mm",),
    "bulge": ("abdomen-bulge_height_mm", "abdomen-bulge_width_mm"),
}
_NAMES = {
    "size": "size",
    "height": "height",
    "prolapse": "length of the prolapse",
    "bulge": "size of the bulge",
}
CONFIRMED_LAST = "it was not measured last time"


@dataclass(frozen=True)
class AsLast:
    """What one press of a section would record: HTML names -> values, and rows by set. ``left``:
    what is measured today instead, in words."""

    section: str
    values: Mapping[str, list[str]]
    rows: Mapping[str, list[dict[str, list[str]]]]
    left: tuple[str, ...] = ()

    def into(self, data: QueryDict) -> list[str]:
        """Fill in ``data`` what is empty in it, rows with ids of their own. Gives the names."""
        for name, values in self.values.items():
            data.setlist(name, values)
        names = list(self.values)
        for kind, rows in self.rows.items():
            for row in rows:
                key = str(uuid.uuid4())
                data.appendlist(f"{kind}-row", key)
                for field, values in row.items():
                    data.setlist(f"{kind}-{key}-{field}", values)
                    names.append(f"{kind}-{key}-{field}")
        return names


def offers_of(
    chart: Chart,
    previous: Assessment,
    anew: Mapping[str, str],
    posted: Mapping[str, Sequence[str]],
) -> dict[str, AsLast]:
    """Section -> what a press would record, for sections where it would record anything.

    ``anew``: what is measured at each visit (a key of ``MEASURES``) -> why. ``posted``: every
    field of ``chart`` as the page holds it.
    """
    anew = {**_not_measured_last(previous), **anew}
    now, last = _filled(posted), _filled(Chart(previous).as_posted())
    offers = {}
    for section, only in CONFIRMED.items():
        if section in now.get(CLOSED, ()):
            continue
        offer = _offer(section, only, chart, now, last, anew)
        if offer.values or offer.rows:
            offers[str(section)] = offer
    return offers


def _filled(posted: Mapping[str, Sequence[str]]) -> dict[str, list[str]]:
    """Only what is entered: an empty box says nothing."""
    return {name: kept for name, values in posted.items() if (kept := [v for v in values if v])}


def _offer(
    section: str,
    only: tuple[str, ...] | None,
    chart: Chart,
    now: Mapping[str, list[str]],
    last: Mapping[str, list[str]],
    anew: Mapping[str, str],
) -> AsLast:
    measured = {name: key for key in anew for name in MEASURES[key]}
    values: dict[str, list[str]] = {}
    left: dict[str, None] = {}
    for name in _names(section, only, chart):
        found = last.get(_first(name, last), ())
        if not found or name in now or _first(name, now) in now:
            continue
        if name in measured:
            left[f"{_NAMES[measured[name]]}: {anew[measured[name]]}"] = None
        elif name not in NEVER:
            values |= _whole(name, last)
    values = _that_fit(chart, now, values)
    kinds = [kind for kind in SECTION_FORMS[section] if kind in ANSWER_ABOVE and only is None]
    rows = {kind: copied for kind in kinds if (copied := _rows(kind, now, last))}
    return AsLast(str(section), values, rows, tuple(left))


def _names(section: str, only: tuple[str, ...] | None, chart: Chart) -> list[str]:
    if only is not None:
        return list(only)
    return [
        chart.parts[part].add_prefix(field)
        for part in SECTION_FORMS[section]
        if part in chart.parts
        for field in chart.parts[part].fields
    ]


def _first(name: str, posted: Mapping[str, list[str]]) -> str:
    """A field of several boxes is posted box by box: the name of its first."""
    return name if name in posted else f"{name}_1"


def _whole(name: str, posted: Mapping[str, list[str]]) -> dict[str, list[str]]:
    """A field with all its boxes."""
    box = re.compile(rf"{re.escape(name)}(_\d+)?")
    return {n: values for n, values in posted.items() if box.fullmatch(n)}


def _that_fit(
    chart: Chart, now: Mapping[str, list[str]], values: dict[str, list[str]]
) -> dict[str, list[str]]:
    """Without details of an answer that is another today."""
    given = {**values, **now}
    fits = dict(values)
    for prefix, part in chart.parts.items():
        for details in part.details:
            when = {"yes" if value is True else str(value) for value in details.when}
            if not when & set(given.get(f"{prefix}-{details.of}", ())):
                for field in details.names:
                    fits.pop(f"{prefix}-{field}", None)
    return fits


def _rows(
    kind: str, now: Mapping[str, list[str]], last: Mapping[str, list[str]]
) -> list[dict[str, list[str]]]:
    """Last visit's rows of one set, where none is there today and the answer above is open."""
    if now.get(f"{kind}-row") or ANSWER_ABOVE[kind] in now:
        return []
    fields = ROWS[kind][0].base_fields
    return [
        {
            field: last[f"{kind}-{key}-{field}"]
            for field in fields
            if field not in NEVER_OF_ROW and f"{kind}-{key}-{field}" in last
        }
        for key in last.get(f"{kind}-row", ())
    ]


def _not_measured_last(previous: Assessment) -> dict[str, str]:
    """A measure taken over once is taken with the ruler the next time."""
    taken_over = {name for row in previous.confirmations.all() for name in row.fields}
    return {
        key: CONFIRMED_LAST
        for key, names in MEASURES.items()
        if taken_over.intersection(names) or {f"{name}_1" for name in names} & taken_over
    }

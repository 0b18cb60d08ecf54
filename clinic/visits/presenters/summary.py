"""A signed assessment for reading: what was recorded, section by section, in words."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

from clinic.visits.chart import PARTS, SECTION_FORMS, part_of
from clinic.visits.choices import SectionKey
from clinic.visits.forms.part import PartForm
from clinic.visits.models import Assessment
from clinic.visits.presenters.clockface import finding_words
from clinic.visits.presenters.confirmed import confirmation_words
from clinic.visits.presenters.row_words import (
    begun_words,
    colour_words,
    crease_words,
    other_stoma_words,
    wear_words,
    wound_words,
)
from clinic.visits.questions.page import SECTIONS
from clinic.visits.value_words import value_words

#: How the field ends that says the rest of a list was asked about.
_OTHERS = "others_absent"


@dataclass(frozen=True)
class SectionSummary:
    """``lines`` are (label, value); ``rows`` repeated findings; ``unsaid`` labels not
    recorded; ``confirmed`` by whom it was looked at and found as at an earlier visit."""

    title: str
    not_looked_at: bool
    lines: tuple[tuple[str, str], ...]
    rows: tuple[str, ...]
    unsaid: tuple[str, ...]
    confirmed: tuple[str, ...] = ()


def summary_of(assessment: Assessment) -> list[SectionSummary]:
    """Every section; what was not recorded is named, not left out, but for what is asked only
    where it matters."""
    return [_section(assessment, key) for key in SectionKey]


def _section(assessment: Assessment, key: SectionKey) -> SectionSummary:
    found = [
        line
        for name in SECTION_FORMS[key]
        if name in PARTS
        for line in _part(assessment, *PARTS[name])
    ]
    return SectionSummary(
        title=str(key.label),
        not_looked_at=key.value in (assessment.not_looked_at or []),
        lines=tuple((line.label, line.value) for line in found if line.value),
        rows=tuple(_rows(assessment, key)),
        unsaid=tuple(line.label for line in found if line.always_asked and not line.value),
        confirmed=tuple(
            confirmation_words(row) for row in assessment.confirmations.all() if row.section == key
        ),
    )


class _Line(NamedTuple):
    """``always_asked``: of everybody with a stoma of this kind."""

    label: str
    value: str
    always_asked: bool


def _part(assessment: Assessment, form: type[PartForm], relation: str) -> list[_Line]:
    row = part_of(assessment, relation)
    asked = _always_asked(form, assessment)
    return [
        _Line(*_said(form, name, value_words(row, name) if row is not None else ""), name in asked)
        for name in form.base_fields
        if row is None or form.applies(row, name)
    ]


def _always_asked(form: type[PartForm], assessment: Assessment) -> set[str]:
    prefix = next(name for name, (found, _) in PARTS.items() if found is form)
    return {
        name.removeprefix(f"{prefix}-")
        for section in SECTIONS
        for question in section.questions
        if question.core and question.matters(assessment)
        for name in question.names
        if name.startswith(f"{prefix}-")
    }


def _said(form: type[PartForm], name: str, value: str) -> tuple[str, str]:
    if not name.endswith(_OTHERS):
        return str(form.base_fields[name].label), value
    # On the page it is beside its list; here it is said under that list's name.
    begin = name.removesuffix(_OTHERS)
    of = next(f for f in (f"{begin}symptoms", f"{begin}signs") if f in form.base_fields)
    # A patient denies a symptom; a sign is looked for.
    absent = "denied" if of.endswith("symptoms") else "absent"
    words = {"yes": absent, "no": "not all asked"}
    return f"{form.base_fields[of].label}: all others", words.get(value, "")


def _rows(assessment: Assessment, key: SectionKey) -> list[str]:
    if key == SectionKey.SYSTEM:
        return [begun_words(row) for row in assessment.begun_rows.all()]
    if key == SectionKey.STOMA:
        return [colour_words(row) for row in assessment.colour_rows.all()]
    if key == SectionKey.SKIN:
        return [
            *(finding_words(row) for row in assessment.skin_findings.all()),
            *(wound_words(row) for row in assessment.wound_rows.all()),
            *(other_stoma_words(row) for row in assessment.other_stoma_rows.all()),
        ]
    if key == SectionKey.ABDOMEN:
        return [crease_words(row) for row in assessment.crease_rows.all()]
    if key == SectionKey.WEAR:
        return [wear_words(row) for row in assessment.wear_rows.all()]
    return []

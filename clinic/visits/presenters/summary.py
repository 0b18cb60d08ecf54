"""A signed assessment for reading: what was recorded, section by section, in words."""

from __future__ import annotations

from dataclasses import dataclass

from clinic.visits.chart import PARTS, SECTION_FORMS, part_of
from clinic.visits.choices import SectionKey
from clinic.visits.forms.part import PartForm
from clinic.visits.models import Assessment
from clinic.visits.presenters.clockface import finding_words
from clinic.visits.presenters.row_words import (
    begun_words,
    colour_words,
    crease_words,
    other_stoma_words,
    wear_words,
    wound_words,
)
from clinic.visits.value_words import value_words


@dataclass(frozen=True)
class SectionSummary:
    """``lines`` are (label, value); ``rows`` repeated findings; ``unsaid`` labels not recorded."""

    title: str
    not_looked_at: bool
    lines: tuple[tuple[str, str], ...]
    rows: tuple[str, ...]
    unsaid: tuple[str, ...]


def summary_of(assessment: Assessment) -> list[SectionSummary]:
    """Every section; what was not recorded is named, not left out, but for what is asked only
    where it matters."""
    return [_section(assessment, key) for key in SectionKey]


def _section(assessment: Assessment, key: SectionKey) -> SectionSummary:
    pairs = [
        pair
        for name in SECTION_FORMS[key]
        if name in PARTS
        for pair in _part(assessment, *PARTS[name])
    ]
    asked_where_it_matters = {
        str(PARTS[name][0].base_fields[folded].label)
        for name in SECTION_FORMS[key]
        if name in PARTS
        for fold in PARTS[name][0].folds
        for folded in fold.names
    }
    return SectionSummary(
        title=str(key.label),
        not_looked_at=key.value in (assessment.not_looked_at or []),
        lines=tuple((label, value) for label, value in pairs if value),
        rows=tuple(_rows(assessment, key)),
        unsaid=tuple(
            label for label, value in pairs if not value and label not in asked_where_it_matters
        ),
    )


def _part(assessment: Assessment, form: type[PartForm], relation: str) -> list[tuple[str, str]]:
    row = part_of(assessment, relation)
    return [
        (str(field.label), value_words(row, name) if row is not None else "")
        for name, field in form.base_fields.items()
        if row is None or form.applies(row, name)
    ]


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

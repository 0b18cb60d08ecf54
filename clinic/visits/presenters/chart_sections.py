"""What the visit page shows of the chart: its sections, in the order the hands work."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.utils import timezone

from clinic.patients.models import KnownState
from clinic.visits.chart import Chart
from clinic.visits.choices import SectionKey
from clinic.visits.models import Assessment
from clinic.visits.presenters.clockface import face_of, finding_words
from clinic.visits.presenters.row_words import (
    begun_words,
    colour_words,
    crease_words,
    other_stoma_words,
    wear_words,
    wound_words,
)
from clinic.visits.wear_log.merge import PAGE
from clinic.visits.wear_log.presenter import words_of
from clinic.visits.wear_log.whole_log import log_until


@dataclass(frozen=True)
class PageSection:
    """One part of the page. ``last`` are the rows of the last visit, in words; ``wrong`` is what
    does not go together with having closed it."""

    key: str
    title: str
    template: str
    closed: bool
    last: tuple[str, ...] = ()
    wrong: str = ""


def chart_context(
    assessment: Assessment, chart: Chart, previous: Assessment | None
) -> dict[str, Any]:
    """Template context of the charting half of the page."""
    closed = _closed(chart)
    last = _last_rows(previous)
    return {
        "assessment": assessment,
        "visit": assessment.visit,
        "patient": assessment.visit.patient,
        "stoma": assessment.stoma,
        "chart": chart,
        "previous": previous,
        "face": face_of(assessment),
        "previous_face": face_of(previous, uid="face-last") if previous else None,
        "sections": [
            PageSection(
                key=key.value,
                title=str(key.label),
                template=f"visits/_part_{key.value}.html",
                closed=key.value in closed,
                last=last.get(key, ()),
                wrong=chart.closed_but_filled.get(key.value, ""),
            )
            for key in SectionKey
        ],
        "others": _other_stomas(assessment),
        "logged": _logged(assessment),
        "known": _known(assessment),
    }


def _closed(chart: Chart) -> list[str]:
    value = chart.whole["not_looked_at"].value()
    return list(value or [])


def _last_rows(previous: Assessment | None) -> dict[SectionKey, tuple[str, ...]]:
    if previous is None:
        return {}
    return {
        SectionKey.SYSTEM: tuple(begun_words(row) for row in previous.begun_rows.all()),
        SectionKey.STOMA: tuple(colour_words(row) for row in previous.colour_rows.all()),
        SectionKey.SKIN: (
            *(finding_words(row) for row in previous.skin_findings.all()),
            *(wound_words(row) for row in previous.wound_rows.all()),
            *(other_stoma_words(row) for row in previous.other_stoma_rows.all()),
        ),
        SectionKey.ABDOMEN: tuple(crease_words(row) for row in previous.crease_rows.all()),
        SectionKey.WEAR: tuple(wear_words(row) for row in previous.wear_rows.all()),
    }


def _logged(assessment: Assessment) -> list[str]:
    """What the wear log page knows since the last visit, in words."""
    return [
        words_of(barrier)
        for barrier in log_until(assessment)
        if any(claim.source == PAGE for claim in barrier.claims)
    ]


def _known(assessment: Assessment) -> list[KnownState]:
    """What is known and accepted in the stoma on the day of the visit."""
    day = timezone.localdate(assessment.visit.happened_at)
    return [
        state
        for state in assessment.stoma.known_states.all()
        if state.agreed_on <= day and (state.ended_on is None or state.ended_on > day)
    ]


def _other_stomas(assessment: Assessment) -> list[dict[str, Any]]:
    """The patient's other open stomas, and their assessment at this visit if begun."""
    begun = {a.stoma_id: a for a in assessment.visit.assessments.all()}
    return [
        {"stoma": stoma, "assessment": begun.get(stoma.pk)}
        for stoma in assessment.visit.patient.stomas.all()
        if stoma.pk != assessment.stoma_id and (stoma.closed_on is None or stoma.pk in begun)
    ]

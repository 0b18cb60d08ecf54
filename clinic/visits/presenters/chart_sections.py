"""What the visit page shows of the chart: its sections, in the order the hands work."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from django.utils import timezone

from clinic.patients.known_states import known_on
from clinic.patients.models import KnownState
from clinic.visits.as_last import AsLast, offers_of
from clinic.visits.chart import Chart
from clinic.visits.models import Assessment
from clinic.visits.presenters.clockface import face_of, finding_words
from clinic.visits.presenters.confirmed import confirmation_words
from clinic.visits.presenters.row_words import (
    begun_words,
    colour_words,
    crease_words,
    other_stoma_words,
    wear_words,
    wound_words,
)
from clinic.visits.presenters.shown_questions import ShownQuestion, said_of, shown_questions
from clinic.visits.questions.of_visit import LAST_PLAN
from clinic.visits.questions.page import BY_KEY, SECTIONS
from clinic.visits.wear_log.merge import PAGE
from clinic.visits.wear_log.presenter import words_of
from clinic.visits.wear_log.still_on import still_on
from clinic.visits.wear_log.whole_log import log_until


@dataclass(frozen=True)
class PageSection:
    """One part of the page. ``core`` are its questions of every visit, ``more`` those behind them;
    ``wrong`` is what does not go together with having closed it."""

    key: str
    title: str
    closable: bool
    closed: bool
    core: list[ShownQuestion]
    more: list[ShownQuestion]
    wrong: str = ""
    as_last: AsLast | None = None
    confirmed: tuple[str, ...] = ()

    @property
    def has_folds(self) -> bool:
        """Whether anything of it is out of sight."""
        return any(not shown.question.in_sight for shown in (*self.core, *self.more))


def chart_context(
    assessment: Assessment,
    chart: Chart,
    previous: Assessment | None,
    *,
    had_plan: bool,
    anew: Mapping[str, str],
) -> dict[str, Any]:
    """Template context of the charting half of the page. ``had_plan``: a plan was signed at the
    last visit; ``anew``: fields to be measured at each visit -> why."""
    sections = _sections(chart, previous, had_plan=had_plan, anew=anew)
    return {
        "assessment": assessment,
        "visit": assessment.visit,
        "patient": assessment.visit.patient,
        "stoma": assessment.stoma,
        "chart": chart,
        "previous": previous,
        "face": face_of(assessment),
        "previous_face": face_of(previous, uid="face-last") if previous else None,
        "sections": sections,
        "whole_visit": sum(section.as_last is not None for section in sections) > 1,
        "others": _other_stomas(assessment),
        "logged": _logged(assessment),
        "known": _known(assessment),
        "still_on": still_on(assessment),
    }


def said_by_question(chart: Chart) -> dict[str, str]:
    """What is charted in answer to each question, in words, for the page's script."""
    return {
        key: said_of(question, chart) for key, question in BY_KEY.items() if not question.in_sight
    }


def _sections(
    chart: Chart, previous: Assessment | None, *, had_plan: bool, anew: Mapping[str, str]
) -> list[PageSection]:
    answers, last = chart.as_posted(), _last_rows(previous)
    closed = set(chart.whole["not_looked_at"].value() or ())
    offers = offers_of(chart, previous, anew, answers) if previous else {}
    found = []
    for section in SECTIONS:
        shown = shown_questions(section.questions, chart, answers, last)
        if not had_plan:
            shown = [one for one in shown if one.question is not LAST_PLAN or one.said]
        found.append(
            PageSection(
                key=section.key,
                title=section.title,
                closable=section.closable,
                closed=section.key in closed,
                core=[one for one in shown if one.question.core],
                more=[one for one in shown if not one.question.core],
                wrong=chart.closed_but_filled.get(section.key, ""),
                as_last=offers.get(section.key),
                confirmed=tuple(
                    confirmation_words(row)
                    for row in chart.assessment.confirmations.all()
                    if row.section == section.key
                ),
            )
        )
    return found


def _last_rows(previous: Assessment | None) -> dict[str, list[str]]:
    """The rows of the last visit in words, by set."""
    if previous is None:
        return {}
    return {
        "begun": [begun_words(row) for row in previous.begun_rows.all()],
        "colourpart": [colour_words(row) for row in previous.colour_rows.all()],
        "finding": [finding_words(row) for row in previous.skin_findings.all()],
        "wound": [wound_words(row) for row in previous.wound_rows.all()],
        "otherstoma": [other_stoma_words(row) for row in previous.other_stoma_rows.all()],
        "crease": [crease_words(row) for row in previous.crease_rows.all()],
        # The newest says enough; all are in the wear log.
        "wear": [wear_words(row) for row in previous.wear_rows.all()][-1:],
    }


def _logged(assessment: Assessment) -> list[str]:
    """What the wear log page knows since the last visit, in words."""
    return [
        words_of(barrier)
        for barrier in log_until(assessment)
        if any(claim.source == PAGE for claim in barrier.claims)
    ]


def _known(assessment: Assessment) -> tuple[KnownState, ...]:
    """What is known and accepted in the stoma on the day of the visit."""
    return known_on(assessment.stoma_id, timezone.localdate(assessment.visit.happened_at))


def _other_stomas(assessment: Assessment) -> list[dict[str, Any]]:
    """The patient's other open stomas, and their assessment at this visit if begun."""
    begun = {a.stoma_id: a for a in assessment.visit.assessments.all()}
    return [
        {"stoma": stoma, "assessment": begun.get(stoma.pk)}
        for stoma in assessment.visit.patient.stomas.all()
        if stoma.pk != assessment.stoma_id and (stoma.closed_on is None or stoma.pk in begun)
    ]

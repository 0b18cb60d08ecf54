"""Everything the trend page shows of one stoma."""

from __future__ import annotations

from typing import Any

from django.http import QueryDict
from django.utils import timezone
from django.utils.safestring import mark_safe

from clinic import formatting
from clinic.patient_answers.questions import NOT_USED, NOT_VALIDATED
from clinic.patients.models import Stoma
from clinic.plans.course import course_of, course_report
from clinic.plans.course_results import Series
from clinic.plans.diagnosis_codes import hernia_confirmed
from clinic.plans.presenters.sources import citations
from clinic.trends.asked import questions_of
from clinic.trends.figure import TrendFigure, figure
from clinic.trends.minute import minute_of
from clinic.trends.photos import bracket_of, pair_of, pictures_of
from clinic.trends.table import tables_of
from clinic.trends.tracks import named_zones, zone_words
from clinic.trends.verdicts import (
    NO_ALERT,
    NO_OTHER_ALERT,
    called_hernia,
    flag_cards,
    outcome_rows,
    outcome_sources,
)
from clinic.trends.window import window_of

#: In the address: the whole course is drawn, not its recent part.
COURSE, WHOLE = "course", "whole"
#: Plans shown at once; earlier ones are a press away.
PLANS = 6


def page_of(stoma: Stoma, asked: QueryDict) -> dict[str, Any]:
    """Template context; ``asked`` may choose the part of the course and two pictures."""
    course = course_of(stoma)
    questions = questions_of(stoma, timezone.now())
    page: dict[str, Any] = {
        "stoma": stoma,
        "patient": stoma.patient,
        "seen": bool(course.visits),
        "questions": questions,
    }
    if not course.visits:
        return page
    report = course_report(course)
    hernia = hernia_confirmed(stoma.pk)
    days = sorted(visit.day for visit in course.visits)
    window = window_of(report.series, days, course.today, whole=asked.get(COURSE) == WHOLE)
    drawn = figure(
        report.series, course.events, today=course.today, since=window.since, hernia=hernia
    )
    rows = outcome_rows(report.outcomes, course.events)
    cards = flag_cards(report.flags, hernia=hernia)
    pictures = pictures_of(stoma)
    changed = next((row.day for row in rows if row.changed), None)
    return page | {
        "minute": minute_of(report, cards, rows, questions),
        "dangers": [card for card in cards if card.danger],
        "headline": tuple(map(called_hernia, report.headline)) if hernia else report.headline,
        "flags": [card for card in cards if not card.danger],
        "no_alert": NO_OTHER_ALERT if any(card.danger for card in cards) else NO_ALERT,
        "outcomes": rows[:PLANS],
        "earlier": rows[PLANS:],
        "outcome_sources": outcome_sources(report.outcomes),
        "figures": [(one.label, one.text, citations(one.sources)) for one in report.figures],
        "answers": [(one.label, one.text, citations(one.sources)) for one in report.answers],
        "not_validated": NOT_VALIDATED,
        "not_used": NOT_USED,
        "bracket": bracket_of(pictures, changed),
        "pictures": pictures,
        "pair": pair_of(pictures, asked),
        "pair_asked": "first" in asked or "second" in asked,
        "window": window,
        "whole": asked.get(COURSE) == WHOLE,
        **_drawing(drawn, report.series),
    }


def _drawing(drawn: TrendFigure, series: Series) -> dict[str, Any]:
    page = {
        "left_out": drawn.left_out,
        "off_axis": drawn.off_axis,
        "on_axis": drawn.on_axis,
        "levels": _levels(series),
        "tables": tables_of(drawn.tracks),
    }
    if drawn.is_empty:
        return page
    return page | {
        # Our own drawing; every word in it was escaped when it was made.
        "panels": [(one.key, mark_safe(one.svg)) for one in drawn.on_screen()],  # noqa: S308
        "span": drawn.span,
        "not_now": drawn.not_now,
    }


def _levels(series: Series) -> list[tuple[str, list[str]]]:
    """Zones and levels with their limits, and their sources."""
    zones = [(zone_words(zone), citations(zone.sources)) for zone in named_zones(series.zones)]
    return zones + [
        (f"Level “{line.label}”: {formatting.number(line.value)}", citations(line.sources))
        for line in series.output_lines
    ]

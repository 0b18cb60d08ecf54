"""Everything the trend page shows of one stoma."""

from __future__ import annotations

from typing import Any

from django.http import QueryDict
from django.utils.safestring import mark_safe

from clinic.patients.models import Stoma
from clinic.plans.course import course_of, course_report
from clinic.plans.course_results import Series
from clinic.plans.presenters.sources import citations
from clinic.trends.figure import TrendFigure, figure
from clinic.trends.photos import pair_of, pictures_of
from clinic.trends.series_source import waiting_referrals
from clinic.trends.table import tables_of
from clinic.trends.verdicts import flag_cards, outcome_rows, outcome_sources


def page_of(stoma: Stoma, asked: QueryDict) -> dict[str, Any]:
    """Template context; ``asked`` may choose the two pictures."""
    course = course_of(stoma)
    page: dict[str, Any] = {"stoma": stoma, "patient": stoma.patient, "seen": bool(course.visits)}
    if not course.visits:
        return page
    report = course_report(course)
    drawn = figure(report.series, course.events, today=course.today)
    pictures = pictures_of(stoma)
    return page | {
        "headline": report.headline,
        "waiting": waiting_referrals(stoma),
        "flags": flag_cards(report.flags),
        "outcomes": outcome_rows(report.outcomes, course.events),
        "outcome_sources": outcome_sources(report.outcomes),
        "figures": [(one.label, one.text, citations(one.sources)) for one in report.figures],
        "pictures": pictures,
        "pair": pair_of(pictures, asked),
        **_drawing(drawn, report.series),
    }


def _drawing(drawn: TrendFigure, series: Series) -> dict[str, Any]:
    if drawn.is_empty:
        return {"drawn": False, "tables": tables_of(drawn.tracks)}
    return {
        "drawn": True,
        # Our own drawing; every word in it was escaped when it was made.
        "wide": mark_safe(drawn.svg()),  # noqa: S308
        "narrow": mark_safe(drawn.svg(narrow=True)),  # noqa: S308
        "left_out": drawn.left_out,
        "off_axis": drawn.off_axis,
        "events": drawn.on_axis,
        "levels": _levels(series),
        "tables": tables_of(drawn.tracks),
    }


def _levels(series: Series) -> list[tuple[str, list[str]]]:
    """Sources for the zones and levels."""
    zones = [(f"Zone “{zone.label}”", citations(zone.sources)) for zone in series.zones]
    return zones + [
        (f"Level “{line.label}”", citations(line.sources)) for line in series.output_lines
    ]

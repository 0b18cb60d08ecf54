"""Wounds and other stomas near this one; whether anybody looked is in the skin's part."""

from __future__ import annotations

from clinic.plans.bridge.stored_values import number, some_hours
from clinic.visits.choices import Presence
from clinic.visits.models import Assessment
from planning.inputs import findings as f


def wounds_of(assessment: Assessment) -> tuple[f.Wound, ...] | None:
    """None: not recorded; (): none."""
    rows = tuple(
        f.Wound(
            hours=some_hours(row.hours),
            distance_mm=number(row.distance_mm),
            length_mm=number(row.length_mm),
            width_mm=number(row.width_mm),
            depth_mm=number(row.depth_mm),
            pus=row.pus,
            effluent_reaches=row.effluent_reaches,
            comes_free=row.comes_free,
        )
        for row in assessment.wound_rows.all()
    )
    return rows or _none_seen(assessment, "wounds")


def other_stomas_of(assessment: Assessment) -> tuple[f.OtherStoma, ...] | None:
    """None: not recorded; (): none."""
    rows = tuple(
        f.OtherStoma(
            hours=some_hours(row.hours),
            distance_mm=number(row.distance_mm),
            length_mm=number(row.length_mm),
            width_mm=number(row.width_mm),
            rests=row.rests,
        )
        for row in assessment.other_stoma_rows.all()
    )
    return rows or _none_seen(assessment, "other_stomas")


def _none_seen(assessment: Assessment, name: str) -> tuple[()] | None:
    looked = getattr(assessment, "skin_assessment", None)
    return () if looked is not None and getattr(looked, name) == Presence.NONE else None

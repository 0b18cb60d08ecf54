"""Sizes on the sheet, in mm with inches beside them. What was not measured is not printed."""

from datetime import date

from django.utils import timezone

from clinic.documents.care_sheet.patient_recommendations import PatientRecommendation
from clinic.documents.patient_language.lay_terms import long_day
from clinic.documents.patient_language.unsaid import Phrase, Unsaid
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.visits.models import Assessment
from planning.results.message import Length

ROUND_WITHIN = 0.5  # mm between length and width: as the plan itself words an opening
DOME = "The dome is {size} deep."


def stoma_size(assessment: Assessment) -> Unsaid:
    """The stoma at its base; "" where it was not measured."""
    row = getattr(assessment, "measurement", None)
    if row is None or row.length_mm is None or row.width_mm is None:
        return ""
    size = Length(float(row.length_mm), float(row.width_mm))
    return Phrase.of("Your stoma is {size}.", size=size)


def measure_again(decided: DecidedPlan, today: date) -> Unsaid:
    """What to do first where the size was taken too long ago to cut to; else ""."""
    if decided.too_old_to_cut(today) is None or not stoma_size(decided.assessment):
        return ""
    measured = timezone.localdate(decided.assessment.visit.happened_at)
    return Phrase.of(
        "We took your size on {day}. It may have changed: measure it again before you cut.",
        day=long_day(measured),
    )


def size_to_use(told: PatientRecommendation, decided: DecidedPlan) -> Unsaid:
    """The size of the hole or the dome that was decided; "" where there is none to tell.

    A system that is left alone keeps the sizes it was worn with, whatever the plan works out.
    """
    if told.by_clinician or told.sized:
        return ""
    return _worn(told, decided) if decided.plan.leave_alone else _planned(told, decided)


def _planned(told: PatientRecommendation, decided: DecidedPlan) -> Unsaid:
    """Whole mm, as the plan's own words for the clinician have it."""
    sizes = decided.plan.dimensions
    if told.key == "opening" and "mouldable" not in decided.plan.supplies:
        return _hole(sizes.opening_length_mm, sizes.opening_width_mm)
    depth = sizes.convex_depth_mm
    if depth is not None and told.key.endswith(f"_convex_{sizes.convex_depth_class}"):
        return Phrase.of(DOME, size=Length(round(depth)))
    return ""


def _worn(told: PatientRecommendation, decided: DecidedPlan) -> Unsaid:
    """As recorded at this visit; a round opening has no width."""
    row = getattr(decided.assessment, "system", None)
    if row is None:
        return ""
    if told.key in {"cut_to_fit", "pre_cut"} and row.opening_length_mm is not None:
        length = float(row.opening_length_mm)
        return _hole(length, float(row.opening_width_mm or length))
    if "_convex_" in told.key and row.convex_depth_mm is not None:
        return Phrase.of(DOME, size=Length(float(row.convex_depth_mm)))
    return ""


def _hole(length: float | None, width: float | None) -> Unsaid:
    if length is None or width is None:
        return ""
    if abs(length - width) < ROUND_WITHIN:
        return Phrase.of("The hole is {size} wide.", size=Length(round(length)))
    return Phrase.of("The hole is {size}.", size=Length(round(length), round(width)))

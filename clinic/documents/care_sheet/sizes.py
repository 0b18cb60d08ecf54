"""Sizes on the sheet, in mm with inches beside them. What was not measured is not printed."""

from datetime import date

from django.utils import timezone

from clinic.documents.care_sheet.patient_recommendations import PatientRecommendation
from clinic.documents.patient_language.lay_terms import long_day, size
from clinic.documents.patient_language.translator import ENGLISH, Translator
from clinic.formatting import number
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.visits.models import Assessment

ROUND_WITHIN = 0.5  # mm between length and width: as the plan itself words an opening
DOME = "The dome is {size} deep."


def stoma_size(assessment: Assessment, translator: Translator = ENGLISH) -> str:
    """The stoma at its base; "" where it was not measured."""
    row = getattr(assessment, "measurement", None)
    if row is None or row.length_mm is None or row.width_mm is None:
        return ""
    told = size(number(row.length_mm), number(row.width_mm), translator)
    return translator.translate("Your stoma is {size}.", size=told)


def measure_again(decided: DecidedPlan, today: date, translator: Translator = ENGLISH) -> str:
    """What to do first where the size was taken too long ago to cut to; else ""."""
    if decided.too_old_to_cut(today) is None or not stoma_size(decided.assessment):
        return ""
    measured = timezone.localdate(decided.assessment.visit.happened_at)
    return translator.translate(
        "We took your size on {day}. It may have changed: measure it again before you cut.",
        day=long_day(measured, translator),
    )


def size_to_use(
    said: PatientRecommendation, decided: DecidedPlan, translator: Translator = ENGLISH
) -> str:
    """The size of the hole or the dome that was decided; "" where there is none to tell.

    A system that is left alone keeps the sizes it was worn with, whatever the plan works out.
    """
    if said.by_clinician or said.sized:
        return ""
    if decided.plan.leave_alone:
        return _worn(said, decided, translator)
    return _planned(said, decided, translator)


def _planned(said: PatientRecommendation, decided: DecidedPlan, translator: Translator) -> str:
    """Whole mm, as the plan's own words for the clinician have it."""
    sizes = decided.plan.dimensions
    if said.key == "opening" and "mouldable" not in decided.plan.supplies:
        return _hole(sizes.opening_length_mm, sizes.opening_width_mm, translator)
    depth = sizes.convex_depth_mm
    if depth is not None and said.key.endswith(f"_convex_{sizes.convex_depth_class}"):
        return translator.translate(DOME, size=size(f"{depth:.0f}", None, translator))
    return ""


def _worn(said: PatientRecommendation, decided: DecidedPlan, translator: Translator) -> str:
    """As recorded at this visit; a round opening has no width."""
    row = getattr(decided.assessment, "system", None)
    if row is None:
        return ""
    if said.key in {"cut_to_fit", "pre_cut"} and row.opening_length_mm is not None:
        length = float(row.opening_length_mm)
        return _hole(length, float(row.opening_width_mm or length), translator)
    if "_convex_" in said.key and row.convex_depth_mm is not None:
        return translator.translate(DOME, size=size(number(row.convex_depth_mm), None, translator))
    return ""


def _hole(length: float | None, width: float | None, translator: Translator) -> str:
    if length is None or width is None:
        return ""
    if abs(length - width) < ROUND_WITHIN:
        return translator.translate(
            "The hole is {size} wide.", size=size(f"{length:.0f}", None, translator)
        )
    told = size(f"{length:.0f}", f"{width:.0f}", translator)
    return translator.translate("The hole is {size}.", size=told)

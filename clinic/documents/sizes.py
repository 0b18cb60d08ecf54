"""Sizes on the sheet, in mm with inches beside them. What was not measured is not printed."""

from datetime import date

from django.utils import timezone

from clinic.documents.plain import long_day, size
from clinic.documents.said import Said
from clinic.documents.wording.tongue import ENGLISH, Tongue
from clinic.formatting import number
from clinic.plans.decided import DecidedPlan
from clinic.visits.models import Assessment

ROUND_WITHIN = 0.5  # mm between length and width: as the plan itself words an opening
DOME = "The dome is {size} deep."


def stoma_size(assessment: Assessment, tongue: Tongue = ENGLISH) -> str:
    """The stoma at its base; "" where it was not measured."""
    row = getattr(assessment, "measurement", None)
    if row is None or row.length_mm is None or row.width_mm is None:
        return ""
    told = size(number(row.length_mm), number(row.width_mm), tongue)
    return tongue.say("Your stoma is {size}.", size=told)


def measure_again(decided: DecidedPlan, today: date, tongue: Tongue = ENGLISH) -> str:
    """What to do first where the size was taken too long ago to cut to; else ""."""
    if decided.too_old_to_cut(today) is None or not stoma_size(decided.assessment):
        return ""
    measured = timezone.localdate(decided.assessment.visit.happened_at)
    return tongue.say(
        "We took your size on {day}. It may have changed: measure it again before you cut.",
        day=long_day(measured, tongue),
    )


def size_to_use(said: Said, decided: DecidedPlan, tongue: Tongue = ENGLISH) -> str:
    """The size of the hole or the dome that was decided; "" where there is none to tell.

    A system that is left alone keeps the sizes it was worn with, whatever the plan works out.
    """
    if said.by_clinician or "mm" in said.words:
        return ""
    if decided.plan.leave_alone:
        return _worn(said, decided, tongue)
    return _planned(said, decided, tongue)


def _planned(said: Said, decided: DecidedPlan, tongue: Tongue) -> str:
    """Whole mm, as the plan's own words for the clinician have it."""
    sizes = decided.plan.dimensions
    if said.key == "opening" and "mouldable" not in decided.plan.supplies:
        return _hole(sizes.opening_length_mm, sizes.opening_width_mm, tongue)
    depth = sizes.convex_depth_mm
    if depth is not None and said.key.endswith(f"_convex_{sizes.convex_depth_class}"):
        return tongue.say(DOME, size=size(f"{depth:.0f}", None, tongue))
    return ""


def _worn(said: Said, decided: DecidedPlan, tongue: Tongue) -> str:
    """As recorded at this visit; a round opening has no width."""
    row = getattr(decided.assessment, "system", None)
    if row is None:
        return ""
    if said.key in {"cut_to_fit", "pre_cut"} and row.opening_length_mm is not None:
        length = float(row.opening_length_mm)
        return _hole(length, float(row.opening_width_mm or length), tongue)
    if "_convex_" in said.key and row.convex_depth_mm is not None:
        return tongue.say(DOME, size=size(number(row.convex_depth_mm), None, tongue))
    return ""


def _hole(length: float | None, width: float | None, tongue: Tongue) -> str:
    if length is None or width is None:
        return ""
    if abs(length - width) < ROUND_WITHIN:
        return tongue.say("The hole is {size} wide.", size=size(f"{length:.0f}", None, tongue))
    told = size(f"{length:.0f}", f"{width:.0f}", tongue)
    return tongue.say("The hole is {size}.", size=told)

"""Sizes on the sheet, in mm with inches beside them. What was not measured is not printed."""

from clinic.documents.plain import with_inches
from clinic.documents.said import Said
from clinic.formatting import number
from clinic.plans.decided import DecidedPlan
from clinic.visits.models import Assessment

ROUND_WITHIN = 0.5  # mm between length and width: as the plan itself words an opening


def stoma_size(assessment: Assessment) -> str:
    """The stoma at its base; "" where it was not measured."""
    row = getattr(assessment, "measurement", None)
    if row is None or row.length_mm is None or row.width_mm is None:
        return ""
    return with_inches(f"Your stoma is {number(row.length_mm)} mm by {number(row.width_mm)} mm.")


def size_to_use(said: Said, decided: DecidedPlan) -> str:
    """The size of the hole or the dome that was decided; "" where there is none to tell.

    A system that is left alone keeps the sizes it was worn with, whatever the plan works out.
    """
    if said.by_clinician or "mm" in said.words:
        return ""
    words = _worn(said, decided) if decided.plan.leave_alone else _planned(said, decided)
    return with_inches(words)


def _planned(said: Said, decided: DecidedPlan) -> str:
    """Whole mm, as the plan's own words for the clinician have it."""
    sizes = decided.plan.dimensions
    if said.key == "opening" and "mouldable" not in decided.plan.supplies:
        return _hole(sizes.opening_length_mm, sizes.opening_width_mm)
    depth = sizes.convex_depth_mm
    if depth is not None and said.key.endswith(f"_convex_{sizes.convex_depth_class}"):
        return f"The dome is {depth:.0f} mm deep."
    return ""


def _worn(said: Said, decided: DecidedPlan) -> str:
    """As recorded at this visit; a round opening has no width."""
    row = getattr(decided.assessment, "system", None)
    if row is None:
        return ""
    if said.key in {"cut_to_fit", "pre_cut"} and row.opening_length_mm is not None:
        length = float(row.opening_length_mm)
        return _hole(length, float(row.opening_width_mm or length))
    if "_convex_" in said.key and row.convex_depth_mm is not None:
        return f"The dome is {number(row.convex_depth_mm)} mm deep."
    return ""


def _hole(length: float | None, width: float | None) -> str:
    if length is None or width is None:
        return ""
    if abs(length - width) < ROUND_WITHIN:
        return f"The hole is {length:.0f} mm wide."
    return f"The hole is {length:.0f} mm by {width:.0f} mm."

"""What a visit measured itself, and the damaged area of a repeat: to be put side by side."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from clinic.plans.bridge.findings import findings_of
from clinic.visits.choices import SectionKey
from clinic.visits.models import Assessment
from planning.course.channels import length_of, width_of
from planning.course.skin import burden_of
from planning.geometry.burden import skin_burden
from planning.geometry.outline import outline_of
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Measurement, SkinFinding, SkinKind

_TENTH, _HUNDREDTH = Decimal("0.1"), Decimal("0.01")


def own_figures(assessment: Assessment) -> dict[str, Decimal | None]:
    """The visit's own figures by the names of ``repeats.models.FIGURES``: what was measured on the
    day. A size from a photo, and what was taken over from the last visit, is no reading of a
    ruler: None. ``assessment``: with its parts."""
    findings = findings_of(assessment)
    of = findings.measurement
    taken_over = {one.section for one in assessment.confirmations.all()}
    stoma, skin = SectionKey.STOMA in taken_over, SectionKey.SKIN in taken_over
    from_photo = of.length_error_mm is not None
    no_size = stoma or from_photo
    return {
        "length_mm": None if no_size else _stored(length_of(of)),
        "width_mm": None if no_size else _stored(width_of(of)),
        "protrusion_mm": None if stoma else _stored(of.protrusion_mm),
        "area_mm2": None if no_size or skin else _stored(burden_of(findings), _HUNDREDTH),
    }


def area_of(length: Decimal, width: Decimal, patches: Sequence[dict[str, Any]]) -> Decimal | None:
    """Damaged area (mm2) of patches at some hours, from the edge of a stoma of this size."""
    skin = tuple(
        # Which kind of damage is not asked a second time: the area is the same for each.
        SkinFinding(
            SkinKind.EROSION,
            ClockHours.of(*one["hours"]),
            float(one["inner_mm"]),
            float(one["outer_mm"]),
        )
        for one in patches
    )
    measurement = Measurement(length_mm=float(length), width_mm=float(width))
    return _stored(skin_burden(skin, outline_of(measurement)), _HUNDREDTH)


def _stored(value: float | None, fineness: Decimal = _TENTH) -> Decimal | None:
    """As fine as its column: lengths are charted to a tenth, an area is worked out."""
    return None if value is None else Decimal(str(value)).quantize(fineness)

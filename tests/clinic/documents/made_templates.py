"""Plans with outlines of known size, printed as cutting templates."""

from dataclasses import replace
from typing import Any

from django.template.loader import render_to_string

from clinic.documents.cutting_template.build import NoTemplate, Template, cutting_template
from clinic.documents.cutting_template.template_drawing import Side
from clinic.documents.patient_language.said import said
from clinic.documents.patient_language.unsaid import Unsaid
from clinic.visits.models import Assessment
from planning import Plan
from planning.geometry.opening import opening_for, rounded
from planning.geometry.outline import Outline, ellipse, traced
from planning.results.plan import Dimensions
from tests.clinic.documents import made_plans, made_visits
from tests.clinic.documents.set_once import set_once

GAP_MM = 2.0
ROUND = ellipse(30, 30)
OVAL = ellipse(30, 26)
TURNED = ellipse(44, 28, 60)
#: Wide towards 5 and 6 o'clock, as no ellipse is; from 1 o'clock to 12.
LOPSIDED = traced((14, 15, 16, 18, 20, 22, 20, 16, 13, 12, 13, 13.5))
PROLAPSED = ellipse(80, 70)
SHAPES = {
    "round": ROUND,
    "oval": OVAL,
    "turned": TURNED,
    "lopsided": LOPSIDED,
    "prolapsed": PROLAPSED,
}


def plan_of(outline: Outline, *supplies: str, **sizes: Any) -> Plan:
    """A plan whose opening lies 2 mm beyond ``outline``."""
    opening = opening_for(outline, GAP_MM)
    known = Dimensions(
        stoma_length_mm=outline.length_mm,
        stoma_width_mm=outline.width_mm,
        gap_mm=GAP_MM,
        opening_length_mm=opening.length_mm,
        opening_width_mm=opening.width_mm,
        stoma_outline=rounded(outline.points),
        opening_outline=opening.points,
    )
    return replace(
        made_plans.LEAK,
        supplies=supplies or ("cut_to_fit",),
        dimensions=replace(known, **sizes),
    )


def template_of(
    plan: Plan,
    made: Assessment,
    side: Side = Side.FRONT,
    paper: str = "a4",
    language: str = "",
    **changes: Any,
) -> Template[str]:
    """As printed: in the patient's language unless another is named."""
    found = asked(plan, made, side, paper)
    assert isinstance(found, Template)
    own = made.visit.patient.sheet_language
    template: Template[str] = said(replace(found, **changes), language or own)
    return template


def asked(
    plan: Plan,
    made: Assessment,
    side: Side = Side.FRONT,
    paper: str = "a4",
) -> Template[Unsaid] | NoTemplate:
    decided = made_visits.all_accepted(plan, made)
    return cutting_template(decided, side=side, paper=paper)


def printed(template: Template[str]) -> bytes:
    return set_once(render_to_string("documents/cutting_template/template.html", {"t": template}))

"""The cutting template of a decided plan at true scale, or in words why there is none.

It is built of ``Unsaid`` and printed as ``str`` (``patient_language.said``).
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date
from typing import Generic

from django.utils import timezone

from clinic.documents.cutting_template.template_drawing import (
    COLUMN_MM,
    ROW_MM,
    SIDE_MM,
    TOP_MM,
    Drawing,
    Side,
    drawing_of,
    reach_of,
)
from clinic.documents.patient_language.lay_terms import long_day
from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.unsaid import Phrase, Unsaid, W
from clinic.documents.printed.superseded import LaterVisit, measured_again
from clinic.documents.shared import Contact, Who, contact, stoma_words, who
from clinic.plans.decided_item import Decided
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency
from planning.results.message import Days, Length

OPENING = "opening"
#: By what the paper is used for: its name, and what its drawing shows.
TITLES = {"cut": "Cutting template", "check": "Check of the hole: nothing to cut"}
SHOWN = {"cut": "Line to cut along", "check": "Size of the hole"}
SEEN = {Side.FRONT: "seen from the front", Side.BACK: "mirrored, seen from the back"}
#: Widths and heights that print on, mm: the paper without its margins and the head of the page.
PRINTABLE = {"a4": (186.0, 225.0), "letter": (191.9, 207.0)}
#: A drawing no wider than this leaves room beside it for what its lines mean.
BESIDE_MM = 132.0


@dataclass(frozen=True)
class NoTemplate:
    """Why nothing can be cut from this plan, and what to do instead."""

    why: str
    instead: str = ""


@dataclass(frozen=True)
class Template(Localised, Generic[W]):
    """One stoma at one visit. ``use``: cut (a line to cut along), or check (a hole that comes
    ready cut or is rolled: only its size is shown)."""

    #: The paper's name; a hole that is not cut has another.
    title: W
    who: Who[W]
    contact: Contact[W]
    visit_day: W
    stoma: W
    #: What is printed beside the identifiers on every page.
    facts: tuple[W, ...]
    #: At the foot of every page.
    foot: W
    signed: bool
    side: Side
    paper: str
    use: str
    kind: str
    size: W
    stoma_size: W
    gap: W
    reach: W
    convex: bool
    drawing: Drawing[W] = field(compare=False)
    #: The drawing in words, for people who cannot see it.
    shows: W
    #: How long ago it was measured; "" while it may be cut to.
    old: W | str = ""
    #: The later visit that measured the stoma again, in words; "" where there is none.
    measured_again: W | str = ""

    @property
    def beside(self) -> bool:
        """Whether the meaning of the lines is printed beside the drawing."""
        return self.drawing.width <= BESIDE_MM

    @property
    def unsigned(self) -> bool:
        return not self.signed

    @property
    def long_name(self) -> bool:
        return len(self.who.name) > 60


def cutting_template(
    decided: DecidedPlan, *, side: Side, paper: str, today: date | None = None
) -> Template[Unsaid] | NoTemplate:
    """The plan's own outline, untouched. ``paper``: a4 or letter. ``today`` tells its age; the
    day it is printed, where not given. Why there is none is for the screen, in English."""
    none = _decided_otherwise(decided) or _nothing_to_draw(decided) or _too_large(decided, paper)
    return none or _template(decided, side, paper, today or timezone.localdate())


def _decided_otherwise(decided: DecidedPlan) -> NoTemplate | None:
    decision = _opening(decided)
    if decision is None or decision.as_planned or decision.choice is None:
        return None
    if decision.changed_to:
        return NoTemplate(
            f"The opening was changed from the plan: {decision.changed_to}",
            "The plan's outline would be the wrong one, and no other was measured out. Draw and "
            "cut by hand what was decided.",
        )
    return NoTemplate(
        "The planned opening was dropped, so there is no line to cut along.",
        f"Reason given: {decision.reason}" if decision.reason else "",
    )


def _opening(decided: DecidedPlan) -> Decided | None:
    return next((one for one in decided.recommendations if one.key == OPENING), None)


def _nothing_to_draw(decided: DecidedPlan) -> NoTemplate | None:
    """Why the plan holds no outline of an opening; None where it does."""
    plan, sizes = decided.plan, decided.plan.dimensions
    if not decided.for_adult:
        return NoTemplate(
            "Nothing is cut to this plan: there are no sizes for children in these rules.",
            "The paediatric stoma team says what size of hole to cut.",
        )
    if sizes.opening_outline:
        return None
    if plan.urgency.value == Urgency.EMERGENCY:
        return NoTemplate(
            "This is an emergency plan: it says what is safe until help comes, and nothing is "
            "cut to it."
        )
    if sizes.stoma_length_mm is None and not sizes.opening_length_mm:
        return NoTemplate(
            "The size of the stoma was not recorded at this visit, so there is no outline.",
            "Measure length and width at the base, or the distance to the edge at all twelve "
            "hours.",
        )
    if plan.leave_alone:
        return NoTemplate(
            "The opening in use stays as it is, and the plan proposes no other.",
            "Keep the template that is in use.",
        )
    if sizes.opening_length_mm:
        return NoTemplate("This plan was stored with the size of the opening but no outline.")
    return NoTemplate(
        "The stoma is prolapsed and its widest part was not recorded, so the opening cannot be "
        "known.",
        "Measure the widest part: it has to pass through the opening.",
    )


def _too_large(decided: DecidedPlan, paper: str) -> NoTemplate | None:
    across = 2 * reach_of(decided.plan.dimensions.opening_outline)
    width, height = PRINTABLE[paper]
    fits = across + 2 * SIDE_MM + COLUMN_MM <= width
    if fits and across + SIDE_MM + TOP_MM + ROW_MM <= height:
        return None
    name = "Letter" if paper == "letter" else "A4"
    return NoTemplate(
        f"The opening is {across:.0f} mm across with nothing beside it: {name} paper cannot show "
        "it at true scale, and a smaller picture of it would be dangerous.",
        "Measure and draw it by hand.",
    )


def _template(decided: DecidedPlan, side: Side, paper: str, today: date) -> Template[Unsaid]:
    assessment, sizes = decided.assessment, decided.plan.dimensions
    ready = next((one for one in ("pre_cut", "mouldable") if one in decided.plan.supplies), "")
    use = "check" if ready else "cut"
    visit_day = long_day(timezone.localdate(assessment.visit.happened_at))
    stoma = stoma_words(assessment.stoma)
    size = _pair(sizes.opening_length_mm, sizes.opening_width_mm)
    old = decided.too_old_to_cut(today)
    return Template(
        title=Phrase(TITLES[use]),
        who=who(assessment.visit.patient),
        # When we are open is not on it.
        contact=replace(contact(), hours=""),
        visit_day=visit_day,
        stoma=stoma,
        facts=(Phrase.of("Visit {day}", day=visit_day), stoma),
        foot=Phrase("Cutting template, print at 100 %"),
        signed=decided.signed,
        side=side,
        paper=paper,
        use=use,
        kind=ready,
        size=size,
        stoma_size=_pair(sizes.stoma_length_mm, sizes.stoma_width_mm),
        gap="" if sizes.gap_mm is None else _tenths(sizes.gap_mm),
        # Never below what the opening needs: a tenth of a millimetre up.
        reach=_tenths(2 * reach_of(sizes.opening_outline) + 0.049),
        convex=sizes.convex_depth_class is not None,
        drawing=drawing_of(sizes.opening_outline, sizes.stoma_outline, side),
        shows=_shows(use, size, side),
        old="" if old is None else Days(old),
        measured_again=_again(measured_again([assessment]).get(assessment.pk)),
    )


def _shows(use: str, size: Unsaid, side: Side) -> Unsaid:
    return Phrase.of(
        "{what}, {size}, {seen}, at true scale, with rulers of 100 mm",
        what=Phrase(SHOWN[use]),
        size=size,
        seen=Phrase(SEEN[side]),
    )


def _again(newer: LaterVisit | None) -> Unsaid:
    if newer is None:
        return ""
    day = long_day(newer.day)
    return day if newer.signed else Phrase.of("{day} (not signed yet)", day=day)


def _pair(length: float | None, width: float | None) -> Unsaid:
    if length is None or width is None:
        return ""
    if abs(length - width) < 0.05:
        return Phrase.of("{size} across", size=Length(round(length, 1)))
    return Length(round(length, 1), round(width, 1))


def _tenths(length: float) -> Unsaid:
    return Phrase.of("{number} mm", number=f"{length:.1f}")

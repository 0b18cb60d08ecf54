"""The cutting template of a decided plan at true scale, or in words why there is none."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date

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
from clinic.documents.patient_language.lay_terms import size as size_words
from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.translator import Translator, translator_for
from clinic.documents.printed.superseded import LaterVisit, measured_again
from clinic.documents.shared import Contact, Who, contact, reviewer, stoma_words, who
from clinic.formatting import number
from clinic.plans.decided_item import Decided
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency

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
class Template(Localised):
    """One stoma at one visit. ``use``: cut (a line to cut along), or check (a hole that comes
    ready cut or is rolled: only its size is shown)."""

    who: Who
    contact: Contact
    visit_day: str
    stoma: str
    signed: bool
    side: Side
    paper: str
    use: str
    kind: str
    size: str
    stoma_size: str
    gap: str
    reach: str
    convex: bool
    drawing: Drawing = field(compare=False)
    #: Days since it was measured, where that is too long ago to cut to; else None.
    old_days: int | None = None
    #: The later visit that measured the stoma again, in words; "" where there is none.
    measured_again: str = ""
    #: A code of ``SheetLanguage``.
    language: str = "en"
    #: Who read this translation over; "" while no one has, and for English.
    reviewer: str = ""

    @property
    def beside(self) -> bool:
        """Whether the meaning of the lines is printed beside the drawing."""
        return self.drawing.width <= BESIDE_MM

    @property
    def unsigned(self) -> bool:
        return not self.signed

    @property
    def facts(self) -> tuple[str, ...]:
        """What is printed beside the identifiers on every page."""
        return (self.translator.translate("Visit {day}", day=self.visit_day), self.stoma)

    @property
    def title(self) -> str:
        """The paper's name; a hole that is not cut has another."""
        return self.translator.translate(TITLES[self.use])

    @property
    def foot(self) -> str:
        """At the foot of every page."""
        return self.translator.translate("Cutting template, print at 100 %")

    @property
    def shows(self) -> str:
        """The drawing in words, for people who cannot see it."""
        return self.translator.translate(
            "{what}, {size}, {seen}, at true scale, with rulers of 100 mm",
            what=self.translator.translate(SHOWN[self.use]),
            size=self.size,
            seen=self.translator.translate(SEEN[self.side]),
        )

    @property
    def old(self) -> str:
        """How long ago it was measured; "" while it may be cut to."""
        if self.old_days is None:
            return ""
        return self.translator.count("{number} day", "{number} days", self.old_days)

    @property
    def long_name(self) -> bool:
        return len(self.who.name) > 60


def cutting_template(
    decided: DecidedPlan, *, side: Side, paper: str, today: date | None = None, language: str = ""
) -> Template | NoTemplate:
    """The plan's own outline, untouched. ``paper``: a4 or letter. ``today`` tells its age; the
    day it is printed, where not given. In the language of the patient's sheets unless another is
    named (``ValueError`` for one there is none of); why there is none is for the screen."""
    today = today or timezone.localdate()
    translator = translator_for(language or decided.assessment.visit.patient.sheet_language)
    none = _decided_otherwise(decided) or _nothing_to_draw(decided) or _too_large(decided, paper)
    return none or _template(decided, side, paper, today, translator)


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


def _template(
    decided: DecidedPlan, side: Side, paper: str, today: date, translator: Translator
) -> Template:
    assessment, sizes = decided.assessment, decided.plan.dimensions
    ready = next((one for one in ("pre_cut", "mouldable") if one in decided.plan.supplies), "")
    return Template(
        who=who(assessment.visit.patient, translator),
        # When we are open is not on it.
        contact=replace(contact(translator), hours=""),
        visit_day=long_day(timezone.localdate(assessment.visit.happened_at), translator),
        stoma=stoma_words(assessment.stoma, translator),
        signed=decided.signed,
        side=side,
        paper=paper,
        use="check" if ready else "cut",
        kind=ready,
        size=_pair(sizes.opening_length_mm, sizes.opening_width_mm, translator),
        stoma_size=_pair(sizes.stoma_length_mm, sizes.stoma_width_mm, translator),
        gap="" if sizes.gap_mm is None else _tenths(sizes.gap_mm, translator),
        # Never below what the opening needs: a tenth of a millimetre up.
        reach=_tenths(2 * reach_of(sizes.opening_outline) + 0.049, translator),
        convex=sizes.convex_depth_class is not None,
        drawing=drawing_of(sizes.opening_outline, sizes.stoma_outline, side, translator),
        old_days=decided.too_old_to_cut(today),
        measured_again=_again(measured_again([assessment]).get(assessment.pk), translator),
        language=translator.code,
        reviewer=reviewer(translator.code),
    )


def _again(newer: LaterVisit | None, translator: Translator) -> str:
    if newer is None:
        return ""
    day = long_day(newer.day, translator)
    return day if newer.signed else translator.translate("{day} (not signed yet)", day=day)


def _pair(length: float | None, width: float | None, translator: Translator) -> str:
    if length is None or width is None:
        return ""
    if abs(length - width) < 0.05:
        told = size_words(number(round(length, 1)), None, translator)
        return translator.translate("{size} across", size=told)
    return size_words(number(round(length, 1)), number(round(width, 1)), translator)


def _tenths(length: float, translator: Translator) -> str:
    return translator.translate("{number} mm", number=f"{length:.1f}")

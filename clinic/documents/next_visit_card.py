"""The next visit card: when, what to bring, and whom to call before then.

Half a sheet of the clinic's own paper, folded once to a quarter of it (A6 where that is A4): the
printer needs no other paper, and 14 pt has room. It says nothing clinical: it lies on tables.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Generic
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.utils import timezone
from django.views.decorators.http import require_GET

from clinic import formatting
from clinic.accounts.permissions import Right, needs
from clinic.documents.how_soon import comes_too_late, has_emergency, level_of, pressing
from clinic.documents.kinds import Kind
from clinic.documents.patient_language.lay_terms import long_day
from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.said import said
from clinic.documents.patient_language.unsaid import Phrase, Unsaid, W
from clinic.documents.printed.responses import (
    Paper,
    asked_large,
    decided_or_page,
    language_of,
    no_paper,
    paper_size,
    pdf_answer,
    printable,
)
from clinic.documents.printed.superseded import seen_again
from clinic.documents.shared import Contact, Who, contact, stoma_words, who
from clinic.plans.plan_with_decisions import DecidedPlan, decided_plan
from clinic.referrals.models import Alarm, Urgency
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts

EMERGENCY = "There is an emergency, so there is no card: nothing may say that a visit can wait."
CARE_SHEET = "Print the care sheet: it says what to do now."


@dataclass(frozen=True)
class Card(Localised, Generic[W]):
    """``day`` and ``time`` are "" where none is known; ``before``: what comes before the visit, ""
    for nothing. ``paper``: a4 or letter."""

    who: Who[W]
    contact: Contact[W]
    stoma: W
    day: W | str
    time: str
    before: W | str
    bring: tuple[W, ...]
    paper: str
    large: bool
    signed: bool


@require_GET
@needs(Right.PRINT)
def next_visit_card(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """``?print=large`` or ``normal``, ``?paper=a4`` or ``letter``, ``?language=`` with a code; else
    as the patient and the clinic have it."""
    stored = printable(request, assessment)
    paper = Paper(Kind.NEXT_VISIT_CARD, stored, paper_size(request))
    decided = decided_or_page(request, paper)
    if isinstance(decided, HttpResponse):
        return decided
    plans = (decided, *_beside(stored))
    if any(has_emergency(plan) for plan in plans) or _alarm(stored):
        return no_paper(request, paper, EMERGENCY, instead=CARE_SHEET)
    if why := _out_of_date(stored):
        return no_paper(request, paper, why)
    large = asked_large(request, paper.patient)
    built = card(plans, paper=paper.size, large=large)
    made: Card[str] = said(built, language_of(request, paper.patient))
    paper = Paper(paper.kind, stored, paper.size, language=made.language)
    template = "documents/next_visit_card/card.html"
    return pdf_answer(request, paper, template, {"card": made}, "large print" if large else "")


def card(plans: tuple[DecidedPlan, ...], *, paper: str, large: bool) -> Card[Unsaid]:
    """``plans``: of the stoma the card is for, then of the visit's others. A day that has passed
    is no next visit."""
    decided = plans[0]
    about, day = decided.assessment, decided.next_visit
    if day and day < timezone.localdate():
        day = None
    return Card(
        who=who(about.visit.patient),
        contact=contact(),
        stoma=stoma_words(about.stoma),
        day=long_day(day, weekday=True) if day else "",
        time=formatting.clock(decided.next_visit_at) if day else "",
        before=_before(plans, day),
        # Common practice, no source.
        bring=(
            Phrase("The last barrier you took off, in a closed bag."),
            Phrase("All you need for one change."),
            Phrase("The list of your medicines."),
        ),
        paper=paper,
        large=large,
        signed=decided.signed,
    )


def _before(plans: tuple[DecidedPlan, ...], day: date | None) -> Unsaid:
    """Without a time: the card is read for weeks, and *today* would be another day."""
    dangers = [(plan, level) for plan in plans if pressing(level := level_of(plan))]
    if not dangers:
        return ""
    if day is None or any(comes_too_late(day, plan, level) for plan, level in dangers):
        return Phrase("You need to be seen before this visit. Do not wait. Call us:")
    return Phrase("If anything gets worse before this visit, call us at once:")


def _beside(about: Assessment) -> tuple[DecidedPlan, ...]:
    """The plans of the visit's other stomas; what is undecided counts as the plan says."""
    others = with_parts().with_rows("decisions").filter(visit_id=about.visit_id)
    plans = (decided_plan(one) for one in others.exclude(pk=about.pk))
    return tuple(plan.accepted_by_default() for plan in plans if plan)


def _alarm(about: Assessment) -> bool:
    """Whether a visit not signed yet found an emergency in the same patient."""
    alarms = Alarm.objects.standing().filter(urgency=Urgency.EMERGENCY)
    return alarms.filter(assessment__stoma__patient_id=about.stoma.patient_id).exists()


def _out_of_date(about: Assessment) -> str:
    if not about.stoma.is_open:
        return "This stoma was reversed or removed: it has no next visit."
    if later := seen_again([about]).get(about.pk):
        return f"There is a later visit, of {later.words}: print the card of that one."
    return ""

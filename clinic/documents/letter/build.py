"""A letter to a colleague on one page: question, findings, trend, what was tried, plan."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from django.utils import timezone

from clinic import formatting
from clinic.clinic_details.current import current
from clinic.documents.letter.treatment_history import Course, Tried, course_of
from clinic.documents.patient_language.lay_terms import long_day
from clinic.documents.patient_language.said import english
from clinic.documents.printed.superseded import seen_again
from clinic.documents.shared import Who, who
from clinic.patients.models import Contacts, Patient
from clinic.plans.decided_item import Decided
from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.plans.presenters.answers import answers_for_colleagues
from clinic.referrals.models import Referral, Urgency
from clinic.visits.models import Assessment
from clinic.visits.presenters.findings_for_colleagues import finding_lines

CAUTION = "Supports, never replaces, a licensed clinician's judgement and local policy."
FOR_INFORMATION = "For your information: no question is asked."
ANSWERED = "This referral has been answered already; the answer is in the record."


@dataclass(frozen=True)
class Letter:
    """Everything the letter says, before it is fitted to the page. "" and () are left out."""

    who: Who[str]
    stoma: str
    visit_day: str
    signed: bool
    to: str
    sender: str
    sent: str
    urgency: str
    question: tuple[str, ...]
    findings: tuple[str, ...]
    trend: str
    trend_words: tuple[str, ...]
    tried: tuple[Tried, ...]
    tried_note: str
    #: Red flags and what was decided of each: never cut.
    flags: tuple[str, ...]
    plan: tuple[str, ...]
    #: Is the person well, does the pouch fit: never cut. () for plans that do not answer both.
    answers: tuple[str, ...] = ()
    clinic: str = ""
    phone: str = ""
    #: What is spoken with the patient, and whether with an interpreter.
    language: str = ""
    #: The day of a later visit of the stoma, so that this one is not mistaken for the last.
    later: str = ""

    @property
    def title(self) -> str:
        """What the file is called inside: it names no one."""
        return "Referral letter" if self.urgency else "Letter about a visit"


def referral_letter(referral: Referral, decided: DecidedPlan | None) -> Letter:
    """The letter that goes with ``referral``; without a plan where the findings contradict
    themselves."""
    assessment = referral.assessment
    findings = finding_lines(assessment)
    asked = _asked(referral.question, findings)
    urgency = Urgency(referral.urgency)
    return replace(
        _letter(assessment, decided, findings),
        answers=answers_for_colleagues(decided, asked=urgency) if decided else (),
        to=referral.to,
        sender=referral.made_by.display_name,
        sent=formatting.moment(referral.made_at),
        urgency=str(urgency.label),
        question=(*asked, ANSWERED) if referral.answered_at else asked,
    )


def visit_letter(assessment: Assessment, decided: DecidedPlan | None, *, to: str) -> Letter:
    """The letter about a visit that asks nothing."""
    return replace(_letter(assessment, decided, finding_lines(assessment)), to=to)


def _letter(
    assessment: Assessment, decided: DecidedPlan | None, findings: tuple[str, ...]
) -> Letter:
    course: Course = course_of(assessment)
    clinic = current()
    visit, later = assessment.visit, seen_again([assessment]).get(assessment.pk)
    return Letter(
        who=english(who(visit.patient)),
        stoma=_stoma(assessment),
        visit_day=english(long_day(timezone.localdate(visit.happened_at))),
        signed=visit.is_signed,
        to="",
        sender=(visit.signed_by or visit.clinician).display_name,
        sent=formatting.day(timezone.localdate()),
        urgency="",
        question=(FOR_INFORMATION,),
        findings=findings,
        trend=course.svg,
        trend_words=course.headline,
        tried=course.tried,
        tried_note=course.note,
        flags=_fates(decided.flags) if decided else (),
        plan=plan_lines(decided) if decided else (),
        answers=answers_for_colleagues(decided) if decided else (),
        clinic=clinic.name or "Stoma clinic",
        phone=clinic.phone,
        language=_language(visit.patient),
        later=later.long_words if later else "",
    )


def _language(patient: Patient) -> str:
    found = Contacts.objects.filter(patient=patient).first()
    return found.language_words if found else ""


def _stoma(assessment: Assessment) -> str:
    stoma = assessment.stoma
    made = formatting.day(stoma.surgery_date) if stoma.surgery_date else "on an unknown date"
    why = f", for {stoma.indication}" if stoma.indication else ""
    return f"{stoma.short_name}, made {made}{why}"


def _asked(question: str, findings: tuple[str, ...]) -> tuple[str, ...]:
    """The question without lines that the letter says under its findings anyway."""
    told = {f"- {line}" for line in findings}
    kept = [line.strip() for line in question.splitlines() if line.strip() not in told]
    lines = [line for line in kept if line]
    headed = [
        line
        for place, line in enumerate(lines)
        if not (line.endswith(":") and ", found on " in line and _heads_nothing(lines, place))
    ]
    return tuple(headed)


def _heads_nothing(lines: list[str], place: int) -> bool:
    after = lines[place + 1] if place + 1 < len(lines) else ""
    return not after.startswith("- ")


def plan_lines(decided: DecidedPlan) -> tuple[str, ...]:
    """What was decided besides red flags: what is corrected, what changes, the rest, and in one
    line what is kept. What was not taken up says so."""
    ordered = sorted(decided.recommendations, key=lambda one: one.turn)
    lines = _fates(one for one in ordered if not one.kept)
    lines += _fates(decided.left_off)
    if kept := [one.text.removeprefix("Keep: ") for one in ordered if one.kept]:
        lines += (f"Kept: {'; '.join(kept)}",)
    if decided.next_visit:
        when = formatting.day_and_time(decided.next_visit, decided.next_visit_at)
        lines += (f"Next visit {when}",)
    return lines


def _fates(decisions: Iterable[Decided]) -> tuple[str, ...]:
    return tuple(line for one in decisions if (line := _fate(one)))


def _fate(one: Decided) -> str:
    if one.choice is None:
        return f"{one.text} (not decided yet)"
    if one.choice == Choice.DROPPED:
        return f"Not taken up: {one.text} ({one.reason})"
    if one.chosen:
        return f"{one.text} (instead of: {one.instead_of}. {one.reason})"
    if one.choice == Choice.CHANGED:
        return f"{one.changed_words} (instead of: {one.text})"
    return one.text

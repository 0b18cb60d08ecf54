"""Danger on the sheet: an emergency replaces the plan, anything less is above it."""

from clinic.documents.care_sheet.patient_recommendations import (
    CLINICIAN_SAYS,
    recommendations,
    words_for_patient,
)
from clinic.documents.care_sheet.sheet import Emergency, Group
from clinic.documents.how_soon import LOOK_TITLES, has_emergency, level_of, without_later
from clinic.documents.patient_language.unsaid import Phrase, Unsaid
from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency
from planning.results.message import Text, to_patient

GET_HELP = "Get help now"
DO_FIRST = "Do this first"
NEEDS_A_DOCTOR = "A doctor needs to look at your stoma now."
#: Above what can wait longer than the most urgent: a second time on the page would contradict it.
ALSO = "Show this too when you are seen"
ONE_MORE = "There is one more thing to look at. Ask about it when you are seen."
#: Beside anything that names a later time.
TOP_FIRST = "What the top of this sheet says comes first."


def emergency_of(decided: DecidedPlan) -> Emergency[Unsaid] | None:
    """The emergency, or None: there is none, or the clinician dropped each sign of one.

    While there is one, the supply plan is not printed (rule R01 of the clinical files: common
    practice, no source); what is safe until help comes is.
    """
    if not has_emergency(decided):
        return None
    standing = [
        (flag, decision)
        for flag, decision in zip(decided.plan.red_flags, decided.flags, strict=True)
        if flag.urgency.value == Urgency.EMERGENCY and decision.choice != Choice.DROPPED
    ]
    lines = [words_for_patient(_now(flag.patient_text), decision) for flag, decision in standing]
    own_words = bool(standing) and not any(decision.as_planned for _, decision in standing)
    return Emergency(
        title=Phrase(DO_FIRST if own_words else GET_HELP),
        lines=tuple(dict.fromkeys(lines)) or (Phrase(NEEDS_A_DOCTOR),),
        meanwhile=tuple(one.words for one in recommendations(decided) if one.kind != "refer"),
    )


def _now(text: Text | None) -> Text:
    return without_later(text or Text(), Urgency.EMERGENCY) or to_patient(NEEDS_A_DOCTOR)


def look_at(decided: DecidedPlan) -> tuple[Group[Unsaid], ...]:
    """Lesser danger signs that were not dropped. Only the most urgent say how soon; what the
    clinician changed is in their words, and comes first where it was the most urgent."""
    level = level_of(decided)
    groups: dict[str, list[Unsaid]] = {}
    for flag, decision in zip(decided.plan.red_flags, decided.flags, strict=True):
        urgency = Urgency(flag.urgency.value)
        if level is None or flag.patient_text is None or urgency == Urgency.EMERGENCY:
            continue
        text = without_later(flag.patient_text, level) or to_patient(ONE_MORE)
        title = LOOK_TITLES[level] if urgency == level else ALSO
        title = CLINICIAN_SAYS if decision.choice == Choice.CHANGED else title
        if words := words_for_patient(text, decision):
            groups.setdefault(title, []).append(words)
    first = (LOOK_TITLES[level], CLINICIAN_SAYS, ALSO) if level else ()
    return tuple(
        Group(Phrase(title), tuple(dict.fromkeys(groups[title])))
        for title in first
        if title in groups
    )

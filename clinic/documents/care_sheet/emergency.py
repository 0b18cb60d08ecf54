"""Danger on the sheet: an emergency replaces the plan, anything less stands above it."""

from clinic.documents.care_sheet.how_soon import level_of, without_later
from clinic.documents.care_sheet.patient_recommendations import recommendations, words_for_patient
from clinic.documents.care_sheet.sheet import Emergency, Group
from clinic.documents.patient_language.translator import ENGLISH, Translator
from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency

GET_HELP = "Get help now"
DO_FIRST = "Do this first"
NEEDS_A_DOCTOR = "A doctor needs to look at your stoma now."
LOOK_TITLES = {
    Urgency.SAME_DAY: "You need to be seen today",
    Urgency.TELEPHONE: "A telephone call is needed today",
    Urgency.DAYS: "You need to be seen within 3 days",
    Urgency.TWO_WEEKS: "You need to be seen within 2 weeks",
    Urgency.ROUTINE: "We will look at this next time",
}
#: Above what can wait longer than the most urgent: a second time on the page would contradict it.
ALSO = "Show this too when you are seen"
ONE_MORE = "There is one more thing to look at. Ask about it when you are seen."
#: Beside whatever speaks of later.
TOP_FIRST = "What the top of this sheet says comes first."
CLINICIAN_SAYS = "Your nurse or doctor says"


def emergency_of(decided: DecidedPlan, translator: Translator = ENGLISH) -> Emergency | None:
    """The emergency, or None: there is none, or the clinician dropped each sign of one.

    While one stands, the supply plan is not printed (rule R01 of the clinical files: common
    practice, no source); what is safe until help comes is.
    """
    flags = [
        (flag, decision)
        for flag, decision in zip(decided.plan.red_flags, decided.flags, strict=True)
        if flag.urgency.value == Urgency.EMERGENCY
    ]
    if not flags and decided.plan.urgency.value != Urgency.EMERGENCY:
        return None
    standing = [(flag, decision) for flag, decision in flags if decision.choice != Choice.DROPPED]
    if flags and not standing:
        return None
    lines = [
        words_for_patient(_now(flag.patient_text), decision, translator)
        for flag, decision in standing
    ]
    own_words = bool(standing) and not any(decision.stands for _, decision in standing)
    return Emergency(
        title=translator.translate(DO_FIRST if own_words else GET_HELP),
        lines=tuple(dict.fromkeys(lines)) or (translator.translate(NEEDS_A_DOCTOR),),
        meanwhile=tuple(
            said.words for said in recommendations(decided, translator) if said.kind != "refer"
        ),
    )


def _now(patient_text: str | None) -> str:
    return without_later(patient_text or "", Urgency.EMERGENCY) or NEEDS_A_DOCTOR


def look_at(decided: DecidedPlan, translator: Translator = ENGLISH) -> tuple[Group, ...]:
    """Lesser danger signs that stand. Only the most urgent say how soon; what the clinician
    changed is in their words, and comes first where it was the most urgent."""
    level = level_of(decided)
    groups: dict[str, list[str]] = {}
    for flag, decision in zip(decided.plan.red_flags, decided.flags, strict=True):
        urgency = Urgency(flag.urgency.value)
        if level is None or flag.patient_text is None or urgency == Urgency.EMERGENCY:
            continue
        text = without_later(flag.patient_text, level) or ONE_MORE
        title = LOOK_TITLES[level] if urgency == level else ALSO
        title = CLINICIAN_SAYS if decision.choice == Choice.CHANGED else title
        if words := words_for_patient(text, decision, translator):
            groups.setdefault(title, []).append(words)
    first = (LOOK_TITLES[level], CLINICIAN_SAYS, ALSO) if level else ()
    return tuple(
        Group(translator.translate(title), tuple(dict.fromkeys(groups[title])))
        for title in first
        if title in groups
    )

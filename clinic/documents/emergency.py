"""Danger on the sheet: an emergency replaces the plan, anything less stands above it."""

from clinic.documents.how_soon import level_of, without_later
from clinic.documents.said import recommendations, words_for_patient
from clinic.documents.sheet import Emergency, Group
from clinic.documents.wording.tongue import ENGLISH, Tongue
from clinic.plans.decided import DecidedPlan
from clinic.plans.models import Choice, Urgency

GET_HELP = "Get help now"
DO_FIRST = "Do this first"
NEEDS_A_DOCTOR = "A doctor needs to look at your stoma now."
LOOK_TITLES = {
    Urgency.SAME_DAY: "You need to be seen today",
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


def emergency_of(decided: DecidedPlan, tongue: Tongue = ENGLISH) -> Emergency | None:
    """The emergency, or None: there is none, or the clinician dropped each sign of one.

    While one stands, the supply plan is not printed (rule R01 of the clinical files: common
    practice, no source); what is safe until help comes is.
    """
    flags = [
        (flag, fate)
        for flag, fate in zip(decided.plan.red_flags, decided.flags, strict=True)
        if flag.urgency.value == Urgency.EMERGENCY
    ]
    if not flags and decided.plan.urgency.value != Urgency.EMERGENCY:
        return None
    standing = [(flag, fate) for flag, fate in flags if fate.choice != Choice.DROPPED]
    if flags and not standing:
        return None
    lines = [words_for_patient(_now(flag.patient_text), fate, tongue) for flag, fate in standing]
    own_words = bool(standing) and not any(fate.stands for _, fate in standing)
    return Emergency(
        title=tongue.say(DO_FIRST if own_words else GET_HELP),
        lines=tuple(dict.fromkeys(lines)) or (tongue.say(NEEDS_A_DOCTOR),),
        meanwhile=tuple(
            said.words for said in recommendations(decided, tongue) if said.kind != "refer"
        ),
    )


def _now(patient_text: str | None) -> str:
    return without_later(patient_text or "", Urgency.EMERGENCY) or NEEDS_A_DOCTOR


def look_at(decided: DecidedPlan, tongue: Tongue = ENGLISH) -> tuple[Group, ...]:
    """Lesser danger signs that stand. Only the most urgent say how soon; what the clinician
    changed is in their words, and comes first where it was the most urgent."""
    level = level_of(decided)
    groups: dict[str, list[str]] = {}
    for flag, fate in zip(decided.plan.red_flags, decided.flags, strict=True):
        urgency = Urgency(flag.urgency.value)
        if level is None or flag.patient_text is None or urgency == Urgency.EMERGENCY:
            continue
        text = without_later(flag.patient_text, level) or ONE_MORE
        title = LOOK_TITLES[level] if urgency == level else ALSO
        title = CLINICIAN_SAYS if fate.choice == Choice.CHANGED else title
        if words := words_for_patient(text, fate, tongue):
            groups.setdefault(title, []).append(words)
    first = (LOOK_TITLES[level], CLINICIAN_SAYS, ALSO) if level else ()
    return tuple(
        Group(tongue.say(title), tuple(dict.fromkeys(groups[title])))
        for title in first
        if title in groups
    )

"""Danger on the sheet: an emergency replaces the plan, anything less stands above it."""

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
    lines = [
        words_for_patient(flag.patient_text or NEEDS_A_DOCTOR, fate, tongue)
        for flag, fate in standing
    ]
    own_words = bool(standing) and not any(fate.stands for _, fate in standing)
    return Emergency(
        title=tongue.say(DO_FIRST if own_words else GET_HELP),
        lines=tuple(dict.fromkeys(lines)) or (tongue.say(NEEDS_A_DOCTOR),),
        meanwhile=tuple(
            said.words for said in recommendations(decided, tongue) if said.kind != "refer"
        ),
    )


def look_at(decided: DecidedPlan, tongue: Tongue = ENGLISH) -> tuple[Group, ...]:
    """Lesser danger signs that stand, most urgent first; changed ones in the clinician's words."""
    groups: dict[str, list[str]] = {}
    ranked = sorted(
        zip(decided.plan.red_flags, decided.flags, strict=True),
        key=lambda pair: (pair[1].choice == Choice.CHANGED, pair[0].urgency.rank),
    )
    for flag, fate in ranked:
        words = words_for_patient(flag.patient_text, fate, tongue)
        title = LOOK_TITLES.get(Urgency(flag.urgency.value), "")
        title = CLINICIAN_SAYS if fate.choice == Choice.CHANGED else title
        if words and title:
            groups.setdefault(title, []).append(words)
    return tuple(Group(tongue.say(title), tuple(lines)) for title, lines in groups.items())

"""A decided plan as the person who wears the pouch needs it: what, how, when to call."""

from dataclasses import replace

from django.conf import settings
from django.utils import timezone

from clinic.documents.emergency import TOP_FIRST, emergency_of, look_at
from clinic.documents.how_soon import (
    comes_too_late,
    danger_stands,
    level_of,
    pressing,
    without_reassurance,
)
from clinic.documents.marks import marks_of, picture, skin_words
from clinic.documents.pictures import PICTURE, SHOWS, picture_of
from clinic.documents.plain import SITES, long_day
from clinic.documents.said import Said, recommendations
from clinic.documents.sheet import Contact, Group, Line, NextVisit, Sheet, Step, Use, Who
from clinic.documents.sizes import measure_again, size_to_use, stoma_size
from clinic.documents.wording.marking import in_english
from clinic.documents.wording.plan_words import danger_line, from_plan
from clinic.documents.wording.review import reviewer
from clinic.documents.wording.tongue import ENGLISH, Tongue, tongue
from clinic.patients.models import Patient, Site, Stoma, StomaKind
from clinic.plans.decided import DecidedPlan
from clinic.plans.models import Urgency

STOP = "stop"
#: Context of the catalogue: the two words of a row that say what it is and what is new about it.
ROW = "row"
#: What stands before each kind of thing to use or to keep in mind, in the order of the sheet.
LABELS = {
    "barrier": "Barrier",
    "opening": "Hole",
    "ring": "Ring",
    "filler": "Filler",
    "skin_care": "Skin care",
    "pouch": "Pouch",
    "support": "Support",
    "wear": "Change it",
    "teach": "Remember",
    "refer": "Next step",
    STOP: "Leave off",
}
NEWS = {"keep": "Same", "start": "New", "change": "Changed"}
#: Kinds that are advice, not a thing: *new* would say nothing.
ADVICE = {"wear", "teach", "refer"}
CALL_TITLES = {
    Urgency.EMERGENCY: "Get emergency help now",
    Urgency.SAME_DAY: "Call us the same day",
    Urgency.DAYS: "Call us within 3 days",
    Urgency.TWO_WEEKS: "Call us within 2 weeks",
    Urgency.ROUTINE: "Tell us at your next visit",
}
NO_CHILD_PLAN = "No plan for children is made here. A children's stoma team must make it."
LEAVE_ALONE = "Your pouch fits well. Keep doing what you do now."
ASK_HOW = "Ask your nurse to show you how."
NO_REASON = "To see how this works for you."
STILL_WELL = "To check that all is still well."


def care_sheet(decided: DecidedPlan, *, large: bool, language: str = "") -> Sheet:
    """The sheet of one assessment, in its patient's language unless another is named.

    Raises ``ValueError`` while anything is undecided, and for a language there is none of.
    """
    if decided.open_items:
        raise ValueError("A sheet is made of decisions; some are still open.")
    decided = decided.taken_as_said()
    assessment = decided.assessment
    spoken = tongue(language or assessment.visit.patient.sheet_language)
    head = Sheet(
        who=who(assessment.visit.patient, spoken),
        contact=contact(spoken),
        visit_day=long_day(timezone.localdate(assessment.visit.happened_at), spoken),
        stoma=stoma_words(assessment.stoma, spoken),
        large=large,
        signed=decided.signed,
        emergency=emergency_of(decided, spoken),
        language=spoken.code,
        reviewer=reviewer(spoken.code),
    )
    return head if head.emergency else _with_plan(head, decided, spoken)


def _with_plan(head: Sheet, decided: DecidedPlan, spoken: Tongue) -> Sheet:
    marks = marks_of(decided.assessment, spoken)
    level = level_of(decided)
    return replace(
        head,
        look_at=look_at(decided, spoken),
        keep=spoken.say(keep) if (keep := _keep(decided)) else "",
        uses=uses(decided, spoken),
        again=measure_again(decided, timezone.localdate(), spoken) if decided.for_adult else "",
        steps=steps(decided, spoken),
        skin=skin_words(decided.assessment, spoken, reassure=level is None),
        size=stoma_size(decided.assessment, spoken),
        marks=marks,
        face=picture(decided.assessment, marks, spoken),
        call=call_when(decided, spoken),
        call_after=spoken.say(TOP_FIRST) if pressing(level) else "",
        next_visit=next_visit(decided, spoken),
    )


def _keep(decided: DecidedPlan) -> str:
    if not decided.for_adult:
        return NO_CHILD_PLAN
    fits = decided.plan.leave_alone and not danger_stands(decided)
    return LEAVE_ALONE if fits else ""


def who(patient: Patient, spoken: Tongue = ENGLISH) -> Who:
    """Name and date of birth, with nothing shortened, and the record number."""
    return Who(patient.full_name, long_day(patient.date_of_birth, spoken), patient.record_number)


def stoma_words(stoma: Stoma, spoken: Tongue = ENGLISH) -> str:
    """Kind and place."""
    kind, site = spoken.say(StomaKind(stoma.kind).label), spoken.say(SITES[Site(stoma.site)])
    return spoken.say("{kind}, {site}", kind=kind, site=site)


def contact(spoken: Tongue = ENGLISH) -> Contact:
    """How to reach us, as the settings say; opening hours in English are marked as such."""
    hours = settings.CLINIC_HOURS
    if spoken != ENGLISH:
        hours = settings.CLINIC_HOURS_TRANSLATED.get(spoken.code) or in_english(hours)
    return Contact(
        clinic=settings.CLINIC_NAME,
        phone=settings.CLINIC_PHONE,
        hours=hours,
        emergency_number=settings.EMERGENCY_NUMBER,
    )


def uses(decided: DecidedPlan, spoken: Tongue = ENGLISH) -> tuple[Use, ...]:
    """What to use, one row a kind; what to leave off comes last."""
    rows: dict[str, list[Line]] = {label: [] for label in LABELS.values()}
    for one in recommendations(decided, spoken):
        label = LABELS.get(STOP if one.change == STOP else one.kind)
        if label:
            rows[label].append(_line(one, decided, spoken))
    return tuple(
        Use(spoken.say(label, ROW), tuple(lines)) for label, lines in rows.items() if lines
    )


def _line(said: Said, decided: DecidedPlan, spoken: Tongue) -> Line:
    """The steps do not cover what the clinician put in instead, so the nurse shows it."""
    more = size_to_use(said, decided, spoken)
    if said.by_clinician and said.kind not in ADVICE:
        more = spoken.say(ASK_HOW)
    silent = said.kind in ADVICE or said.change == STOP or decided.plan.leave_alone
    news = "" if silent else spoken.say(NEWS[said.change], ROW)
    return Line(f"{said.words} {more}".strip(), news)


def steps(decided: DecidedPlan, spoken: Tongue = ENGLISH) -> tuple[Step, ...]:
    """The technique in order, without steps that are not for the patient."""
    told = ((step.patient_text, step.key) for step in decided.steps() if step.patient_text)
    return tuple(_step(words, picture_of(key, decided), spoken) for words, key in told)


def _step(words: str, picture: str, spoken: Tongue) -> Step:
    shows = spoken.say(SHOWS[picture], PICTURE) if picture else ""
    return Step(from_plan(words, spoken), picture, shows)


def call_when(decided: DecidedPlan, spoken: Tongue = ENGLISH) -> tuple[Group, ...]:
    """What to look out for, most urgent first."""
    groups: dict[Urgency, list[str]] = {urgency: [] for urgency in CALL_TITLES}
    for line in decided.plan.call_when:
        groups[Urgency(line.urgency.value)].append(danger_line(line.patient_text, spoken))
    return tuple(
        Group(spoken.say(CALL_TITLES[urgency]), tuple(dict.fromkeys(lines)), key=urgency.value)
        for urgency, lines in groups.items()
        if lines
    )


def next_visit(decided: DecidedPlan, spoken: Tongue = ENGLISH) -> NextVisit:
    """Day and reason: the clinician's own words, else the plan's in plain words.

    While a danger stands nothing here says that all is well, and a day that comes too late for
    it says what comes first.
    """
    day, level = decided.next_visit, level_of(decided)
    told = [one.words for one in recommendations(decided, spoken) if one.kind == "follow_up"]
    plain = STILL_WELL if decided.plan.leave_alone else decided.plan.follow_up.patient_text
    if danger_stands(decided):
        plain = without_reassurance(plain or "")
    why = " ".join(told) or from_plan(plain or NO_REASON, spoken)
    if comes_too_late(day, decided, level):
        why = f"{spoken.say(TOP_FIRST)} {why}"
    return NextVisit(long_day(day, spoken, weekday=True) if day else "", why)

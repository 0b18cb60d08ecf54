"""A decided plan as the person who wears the pouch needs it: what, how, when to call."""

from dataclasses import replace

from django.conf import settings
from django.utils import timezone

from clinic.documents.emergency import emergency_of, look_at
from clinic.documents.marks import marks_of, picture, skin_words
from clinic.documents.pictures import SHOWS, picture_of
from clinic.documents.plain import SITES, long_day, sentence, with_inches
from clinic.documents.said import Said, recommendations
from clinic.documents.sheet import Contact, Group, Line, NextVisit, Sheet, Step, Use, Who
from clinic.documents.sizes import size_to_use, stoma_size
from clinic.patients.models import Patient, Site, StomaKind
from clinic.plans.decided import DecidedPlan
from clinic.plans.models import Urgency

STOP = "stop"
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
LEAVE_ALONE = "Your pouch fits well. Keep doing what you do now."
ASK_HOW = "Ask your nurse to show you how."
NO_REASON = "To see how this works for you."
STILL_WELL = "To check that all is still well."


def care_sheet(decided: DecidedPlan, *, large: bool) -> Sheet:
    """The sheet of one assessment. Raises ``ValueError`` while anything is undecided."""
    if decided.open_items:
        raise ValueError("A sheet is made of decisions; some are still open.")
    decided = decided.taken_as_said()
    assessment = decided.assessment
    kind, site = StomaKind(assessment.stoma.kind), SITES[Site(assessment.stoma.site)]
    head = Sheet(
        who=who(assessment.visit.patient),
        contact=contact(),
        visit_day=long_day(timezone.localdate(assessment.visit.happened_at)),
        stoma=f"{kind.label}, {site}",
        large=large,
        signed=decided.signed,
        emergency=emergency_of(decided),
    )
    return head if head.emergency else _with_plan(head, decided)


def _with_plan(head: Sheet, decided: DecidedPlan) -> Sheet:
    marks = marks_of(decided.assessment)
    return replace(
        head,
        look_at=look_at(decided),
        keep=LEAVE_ALONE if decided.plan.leave_alone else "",
        uses=uses(decided),
        steps=steps(decided),
        skin=skin_words(decided.assessment),
        size=stoma_size(decided.assessment),
        marks=marks,
        face=picture(decided.assessment, marks),
        call=call_when(decided),
        next_visit=next_visit(decided),
    )


def who(patient: Patient) -> Who:
    """Name and date of birth, with nothing shortened, and the record number."""
    return Who(patient.full_name, long_day(patient.date_of_birth), patient.record_number)


def contact() -> Contact:
    """How to reach us, as the settings say."""
    return Contact(
        clinic=settings.CLINIC_NAME,
        phone=settings.CLINIC_PHONE,
        hours=settings.CLINIC_HOURS,
        emergency_number=settings.EMERGENCY_NUMBER,
    )


def uses(decided: DecidedPlan) -> tuple[Use, ...]:
    """What to use, one row a kind; what to leave off comes last."""
    rows: dict[str, list[Line]] = {label: [] for label in LABELS.values()}
    for one in recommendations(decided):
        label = LABELS.get(STOP if one.change == STOP else one.kind)
        if label:
            rows[label].append(_line(one, decided))
    return tuple(Use(label, tuple(lines)) for label, lines in rows.items() if lines)


def _line(said: Said, decided: DecidedPlan) -> Line:
    """The steps do not cover what the clinician put in instead, so the nurse shows it."""
    more = size_to_use(said, decided)
    if said.by_clinician and said.kind not in ADVICE:
        more = ASK_HOW
    silent = said.kind in ADVICE or said.change == STOP or decided.plan.leave_alone
    news = "" if silent else NEWS[said.change]
    return Line(f"{said.words} {more}".strip(), news)


def steps(decided: DecidedPlan) -> tuple[Step, ...]:
    """The technique in order, without steps that are not for the patient."""
    told = ((step.patient_text, step.key) for step in decided.steps() if step.patient_text)
    return tuple(_step(words, picture_of(key, decided)) for words, key in told)


def _step(words: str, picture: str) -> Step:
    return Step(with_inches(sentence(words)), picture, SHOWS[picture] if picture else "")


def call_when(decided: DecidedPlan) -> tuple[Group, ...]:
    """What to look out for, most urgent first."""
    groups: dict[Urgency, list[str]] = {urgency: [] for urgency in CALL_TITLES}
    for line in decided.plan.call_when:
        groups[Urgency(line.urgency.value)].append(sentence(line.patient_text))
    return tuple(
        Group(CALL_TITLES[urgency], tuple(dict.fromkeys(lines)), key=urgency.value)
        for urgency, lines in groups.items()
        if lines
    )


def next_visit(decided: DecidedPlan) -> NextVisit:
    """Day and reason: the clinician's own words, else the plan's in plain words."""
    day = decided.next_visit
    told = [one.words for one in recommendations(decided) if one.kind == "follow_up"]
    plain = decided.plan.follow_up.patient_text or NO_REASON
    why = " ".join(told) or (STILL_WELL if decided.plan.leave_alone else plain)
    return NextVisit(long_day(day, weekday=True) if day else "", why)

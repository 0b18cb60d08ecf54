"""A decided plan as the person who wears the pouch needs it: what, how, when to call."""

from dataclasses import replace

from django.utils import timezone

from clinic.documents.care_sheet.clock_face_words import marks_of, picture, skin_words
from clinic.documents.care_sheet.emergency import TOP_FIRST, emergency_of, look_at
from clinic.documents.care_sheet.patient_recommendations import (
    PatientRecommendation,
    recommendations,
)
from clinic.documents.care_sheet.sheet import Group, Line, NextVisit, Sheet, Step, Use
from clinic.documents.care_sheet.sizes import measure_again, size_to_use, stoma_size
from clinic.documents.care_sheet.step_drawings import PICTURE, SHOWS, picture_of
from clinic.documents.how_soon import (
    comes_too_late,
    has_danger,
    level_of,
    pressing,
    without_reassurance,
)
from clinic.documents.patient_language.earlier_plans import as_of_today
from clinic.documents.patient_language.formatter import say
from clinic.documents.patient_language.lay_terms import long_day
from clinic.documents.patient_language.translator import ENGLISH, Translator, translator_for
from clinic.documents.shared import contact, reviewer, stoma_words, who
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency
from planning.results.message import Text, to_patient

STOP = "stop"
#: Context of the catalogue: the two words of a row that say what it is and what is new about it.
ROW = "row"
#: Words before each kind of thing to use or to keep in mind, in the order of the sheet.
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
    Urgency.SAME_DAY: "Call us, to be seen the same day",
    Urgency.TELEPHONE: "Call us the same day",
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
        raise ValueError("A sheet needs every decision; some are still open.")
    decided = as_of_today(decided.accepted_by_default())
    assessment = decided.assessment
    translator = translator_for(language or assessment.visit.patient.sheet_language)
    head = Sheet(
        who=who(assessment.visit.patient, translator),
        contact=contact(translator),
        visit_day=long_day(timezone.localdate(assessment.visit.happened_at), translator),
        stoma=stoma_words(assessment.stoma, translator),
        large=large,
        signed=decided.signed,
        emergency=emergency_of(decided, translator),
        language=translator.code,
        reviewer=reviewer(translator.code),
    )
    return head if head.emergency else _with_plan(head, decided, translator)


def _with_plan(head: Sheet, decided: DecidedPlan, translator: Translator) -> Sheet:
    marks = marks_of(decided.assessment, translator)
    level = level_of(decided)
    return replace(
        head,
        look_at=look_at(decided, translator),
        keep=translator.translate(keep) if (keep := _keep(decided)) else "",
        uses=uses(decided, translator),
        again=measure_again(decided, timezone.localdate(), translator) if decided.for_adult else "",
        steps=steps(decided, translator),
        skin=skin_words(decided.assessment, translator, reassure=level is None),
        size=stoma_size(decided.assessment, translator),
        marks=marks,
        face=picture(decided.assessment, marks, translator),
        call=call_when(decided, translator),
        call_after=translator.translate(TOP_FIRST) if pressing(level) else "",
        next_visit=next_visit(decided, translator),
    )


def _keep(decided: DecidedPlan) -> str:
    if not decided.for_adult:
        return NO_CHILD_PLAN
    fits = decided.plan.leave_alone and not has_danger(decided)
    return LEAVE_ALONE if fits else ""


def uses(decided: DecidedPlan, translator: Translator = ENGLISH) -> tuple[Use, ...]:
    """What to use, one row a kind; what to leave off comes last."""
    rows: dict[str, list[Line]] = {label: [] for label in LABELS.values()}
    for one in recommendations(decided, translator):
        label = LABELS.get(STOP if one.change == STOP else one.kind)
        if label:
            rows[label].append(_line(one, decided, translator))
    return tuple(
        Use(translator.translate(label, ROW), tuple(lines))
        for label, lines in rows.items()
        if lines
    )


def _line(said: PatientRecommendation, decided: DecidedPlan, translator: Translator) -> Line:
    """The steps do not cover what the clinician put in instead, so the nurse shows it."""
    more = size_to_use(said, decided, translator)
    if said.by_clinician and said.kind not in ADVICE:
        more = translator.translate(ASK_HOW)
    silent = said.kind in ADVICE or said.change == STOP or decided.plan.leave_alone
    news = "" if silent else translator.translate(NEWS[said.change], ROW)
    return Line(f"{said.words} {more}".strip(), news)


def steps(decided: DecidedPlan, translator: Translator = ENGLISH) -> tuple[Step, ...]:
    """The technique in order, without steps that are not for the patient."""
    told = ((step.patient_text, step.key) for step in decided.steps() if step.patient_text)
    return tuple(_step(words, picture_of(key, decided), translator) for words, key in told)


def _step(words: Text, picture: str, translator: Translator) -> Step:
    shows = translator.translate(SHOWS[picture], PICTURE) if picture else ""
    return Step(say(words, translator), picture, shows)


def call_when(decided: DecidedPlan, translator: Translator = ENGLISH) -> tuple[Group, ...]:
    """What to look out for, most urgent first."""
    groups: dict[Urgency, list[str]] = {urgency: [] for urgency in CALL_TITLES}
    for line in decided.plan.call_when:
        groups[Urgency(line.urgency.value)].append(say(line.patient_text, translator))
    return tuple(
        Group(
            translator.translate(CALL_TITLES[urgency]),
            tuple(dict.fromkeys(lines)),
            key=urgency.value,
        )
        for urgency, lines in groups.items()
        if lines
    )


def next_visit(decided: DecidedPlan, translator: Translator = ENGLISH) -> NextVisit:
    """Day and reason: the clinician's own words, else the plan's in plain words.

    While there is a danger, nothing here says that all is well, and a day that comes too late for
    it says what comes first.
    """
    day, level = decided.next_visit, level_of(decided)
    told = [one.words for one in recommendations(decided, translator) if one.kind == "follow_up"]
    well = to_patient(STILL_WELL) if decided.plan.leave_alone else None
    plain = well or decided.plan.follow_up.patient_text or Text()
    if has_danger(decided):
        plain = without_reassurance(plain)
    why = " ".join(told) or say(plain or to_patient(NO_REASON), translator)
    if comes_too_late(day, decided, level):
        why = f"{translator.translate(TOP_FIRST)} {why}"
    return NextVisit(long_day(day, translator, weekday=True) if day else "", why)

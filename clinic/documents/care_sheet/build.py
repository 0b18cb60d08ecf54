"""A decided plan as the person who wears the pouch needs it: what, how, when to call."""

from dataclasses import replace

from django.utils import timezone

from clinic import formatting
from clinic.documents.care_sheet.clock_face_words import (
    marks_of,
    picture,
    picture_words,
    skin_words,
)
from clinic.documents.care_sheet.emergency import TOP_FIRST, emergency_of, look_at
from clinic.documents.care_sheet.patient_recommendations import (
    PatientRecommendation,
    recommendations,
)
from clinic.documents.care_sheet.sheet import (
    CHANGED,
    LEAVE_OFF,
    NEW,
    Group,
    Line,
    NextVisit,
    Sheet,
    Step,
    Use,
)
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
from clinic.documents.patient_language.lay_terms import long_day
from clinic.documents.patient_language.unsaid import Joined, Phrase, Unsaid
from clinic.documents.shared import contact, stoma_words, who
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.plans.step_news import StepNews, news_of_steps
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
NEWS = {"keep": "Same", "start": "New", "change": "Changed", STOP: "Leave off"}
#: The same as a code; what is kept has none.
MARKS = {"start": NEW, "change": CHANGED, STOP: LEAVE_OFF}
#: Kinds that are advice, not a thing: *new* would say nothing. A changed day of change is news.
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
UNCHANGED = "What you use stays the same."
ASK_HOW = "Ask your nurse to show you how."
NO_REASON = "To see how this works for you."
STILL_WELL = "To check that all is still well."


def care_sheet(decided: DecidedPlan, *, large: bool) -> Sheet[Unsaid]:
    """The sheet of one assessment, not yet said in a language.

    Raises ``ValueError`` while anything is undecided.
    """
    if decided.open_items:
        raise ValueError("A sheet needs every decision; some are still open.")
    decided = as_of_today(decided.accepted_by_default())
    assessment = decided.assessment
    head: Sheet[Unsaid] = Sheet(
        who=who(assessment.visit.patient),
        contact=contact(),
        visit_day=long_day(timezone.localdate(assessment.visit.happened_at)),
        stoma=stoma_words(assessment.stoma),
        large=large,
        signed=decided.signed,
        emergency=emergency_of(decided),
    )
    return head if head.emergency else _with_plan(head, decided)


def _with_plan(head: Sheet[Unsaid], decided: DecidedPlan) -> Sheet[Unsaid]:
    marks = marks_of(decided.assessment)
    level = level_of(decided)
    used, keep = uses(decided), _keep(decided)
    return replace(
        head,
        look_at=look_at(decided),
        keep=keep,
        unchanged="" if keep else _unchanged(used),
        uses=used,
        again=measure_again(decided, timezone.localdate()) if decided.for_adult else "",
        steps=steps(decided),
        skin=skin_words(decided.assessment, reassure=level is None),
        size=stoma_size(decided.assessment),
        marks=marks,
        face=picture(decided.assessment, marks),
        face_words=picture_words(marks),
        call=call_when(decided),
        call_after=Phrase(TOP_FIRST) if pressing(level) else "",
        next_visit=next_visit(decided),
    )


def _keep(decided: DecidedPlan) -> Unsaid:
    if not decided.for_adult:
        return Phrase(NO_CHILD_PLAN)
    fits = decided.plan.leave_alone and not has_danger(decided)
    return Phrase(LEAVE_ALONE) if fits else ""


def _unchanged(used: tuple[Use[Unsaid], ...]) -> Unsaid:
    """Only where something is used, and nothing of it is news."""
    kept = any(not use.advice for use in used)
    news = any(line.mark for use in used for line in use.lines)
    return Phrase(UNCHANGED) if kept and not news else ""


def uses(decided: DecidedPlan) -> tuple[Use[Unsaid], ...]:
    """What to use, one row a kind; what to leave off comes last."""
    rows: dict[str, list[Line[Unsaid]]] = {label: [] for label in LABELS.values()}
    for one in recommendations(decided):
        label = LABELS.get(STOP if one.change == STOP else one.kind)
        if label:
            rows[label].append(_line(one, decided))
    advice = {LABELS[kind] for kind in ADVICE}
    return tuple(
        Use(Phrase(label, ROW), tuple(lines), advice=label in advice)
        for label, lines in rows.items()
        if lines
    )


def _line(told: PatientRecommendation, decided: DecidedPlan) -> Line[Unsaid]:
    """The steps do not cover what the clinician put in instead, so the nurse shows it."""
    more = size_to_use(told, decided)
    if told.by_clinician and told.kind not in ADVICE:
        more = Phrase(ASK_HOW)
    silent = _is_advice(told) or decided.plan.leave_alone
    news = "" if silent else Phrase(NEWS[told.change], ROW)
    return Line(Joined((told.words, more)), news, "" if silent else MARKS.get(told.change, ""))


def _is_advice(told: PatientRecommendation) -> bool:
    changes_day = told.kind == "wear" and told.change == "change"
    return told.kind in ADVICE and told.change != STOP and not changes_day


def steps(decided: DecidedPlan) -> tuple[Step[Unsaid], ...]:
    """The technique in order, without steps that are not for the patient."""
    news = news_of_steps(decided)
    told = ((step.patient_text, step.key) for step in decided.steps() if step.patient_text)
    return tuple(_step(words, picture_of(key, decided), news[key]) for words, key in told)


def _step(words: Text, picture: str, news: StepNews) -> Step[Unsaid]:
    shows = Phrase(SHOWS[picture], PICTURE) if picture else ""
    said = Phrase(NEWS[news.change], ROW) if news.change else ""
    return Step(words, picture, shows, said, MARKS.get(news.change, ""), news.known)


def call_when(decided: DecidedPlan) -> tuple[Group[Unsaid], ...]:
    """What to look out for, most urgent first."""
    groups: dict[Urgency, list[Text]] = {urgency: [] for urgency in CALL_TITLES}
    for line in decided.plan.call_when:
        groups[Urgency(line.urgency.value)].append(line.patient_text)
    return tuple(
        Group(Phrase(CALL_TITLES[urgency]), tuple(dict.fromkeys(lines)), key=urgency.value)
        for urgency, lines in groups.items()
        if lines
    )


def next_visit(decided: DecidedPlan) -> NextVisit[Unsaid]:
    """Day and reason: the clinician's own words, else the plan's in plain words.

    While there is a danger, nothing here says that all is well, and a day that comes too late for
    it says what comes first.
    """
    day, level = decided.next_visit, level_of(decided)
    told = tuple(one.words for one in recommendations(decided) if one.kind == "follow_up")
    well = to_patient(STILL_WELL) if decided.plan.leave_alone else None
    plain = well or decided.plan.follow_up.patient_text or Text()
    if has_danger(decided):
        plain = without_reassurance(plain)
    why = Joined(told) if told else plain or to_patient(NO_REASON)
    if comes_too_late(day, decided, level):
        why = Joined((Phrase(TOP_FIRST), why))
    time = formatting.clock(decided.next_visit_at) if day else ""
    return NextVisit(long_day(day, weekday=True) if day else "", why, time)

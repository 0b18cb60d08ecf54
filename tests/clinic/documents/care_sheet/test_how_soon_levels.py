"""One page says one urgency, the highest, and nothing beside it that reads as leave to wait."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations

import pytest

from clinic.documents.care_sheet.build import LEAVE_ALONE, STILL_WELL
from clinic.documents.care_sheet.clock_face_words import SKIN_WELL
from clinic.documents.care_sheet.emergency import (
    ALSO,
    CLINICIAN_SAYS,
    NEEDS_A_DOCTOR,
    ONE_MORE,
    TOP_FIRST,
)
from clinic.documents.care_sheet.pages import html_of
from clinic.documents.care_sheet.sheet import Sheet
from clinic.documents.how_soon import LOOK_TITLES
from clinic.documents.patient_language.english_marks import english_in
from clinic.documents.patient_language.localised import texts
from clinic.documents.patient_language.translator import translator_for
from clinic.patients.models import SheetLanguage
from clinic.plans.draft_plan import draft_plan
from clinic.visits.models import Assessment
from planning import Plan
from planning.results.message import to_patient
from planning.results.plan import FitAnswer, Urgency
from planning.safety.red_flags import RULES
from tests.clinic.documents import made_plans, made_visits
from tests.clinic.documents.made_plans import flag
from tests.clinic.documents.patient_language.test_languages import plans
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db
CUT = "Your stoma has a deep cut. The team must look today."
VEINS = "There are wide veins round your stoma. A doctor will look within days."
LUMP = "There is a lump that a surgeon must look at within two weeks."
OPENED = "The edge of your stoma has opened."
WELL = "To check that all is well."
_LOOKED_AT = (Urgency.SAME_DAY, Urgency.TELEPHONE, Urgency.DAYS, Urgency.TWO_WEEKS)
LANGUAGES = [language.value for language in SheetLanguage]
#: How a later time is said in each language, as flags and headings say it.
LATER = {
    "en": ("within days", "within 3 days", "within two weeks", "within 2 weeks", "next time"),
    "es": ("unos días", "3 días", "dos semanas", "2 semanas", "próxima vez"),
    "ar": ("خلال أيام", "خلال 3 أيام", "خلال أسبوعين", "المرة القادمة"),
}


def sheet_with(
    monkeypatch: pytest.MonkeyPatch,
    *flags: tuple[Urgency, str],
    language: str = "en",
    in_days: int = 14,
    **decisions: object,
) -> Sheet:
    raised = tuple(flag(urgency, text, f"f{n}") for n, (urgency, text) in enumerate(flags))
    again = replace(made_plans.BARE.follow_up, in_days=in_days, patient_text=to_patient(WELL))
    plan = replace(made_plans.LEAK, red_flags=raised, follow_up=again)
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan, **decisions)  # type: ignore[arg-type]
    return made_visits.sheet_of(made, language=language)


def above(sheet: Sheet) -> str:
    return " ".join(texts(sheet.look_at))


@pytest.mark.parametrize("language", LANGUAGES)
def test_the_highest_alone_says_how_soon(monkeypatch: pytest.MonkeyPatch, language: str) -> None:
    sheet = sheet_with(
        monkeypatch,
        (Urgency.SAME_DAY, CUT),
        (Urgency.DAYS, VEINS),
        (Urgency.TWO_WEEKS, LUMP),
        language=language,
    )
    say = translator_for(language).translate
    assert [group.title for group in sheet.look_at] == [
        say(LOOK_TITLES[Urgency.SAME_DAY]),  # type: ignore[index]
        say(ALSO),
    ]
    assert not [words for words in LATER[language] if words in above(sheet)]
    # The finding itself stays; a sentence that holds nothing else gives way to a word about it.
    first, other = sheet.look_at[1].lines
    assert first == say("There are wide veins round your stoma.")
    assert other == say(ONE_MORE)
    assert not english_in(above(sheet))


@pytest.mark.parametrize("language", LANGUAGES)
def test_over_every_pair_of_flags(swept: Assessment, language: str) -> None:
    """As the planner words them, the first of a pair the more urgent: all in English, and of the
    other languages, whose sentences are those of the same messages, every third."""
    told = [text for rule in RULES for text in (rule.patient_text, *rule.told_at.values()) if text]
    titles = {translator_for(language).translate(words) for words in LOOK_TITLES.values()}
    for high, low in combinations(_LOOKED_AT, 2):
        for text in told[:: 1 if language == "en" else 3]:
            raised = (flag(high, "You have a sore.", "high"), flag(low, text, "low"))
            plan = replace(made_plans.BARE, red_flags=raised)
            sheet = care(plan, swept, language)
            assert len([g for g in sheet.look_at if g.title in titles]) == 1
            later = LATER[language][0 if high in (Urgency.SAME_DAY, Urgency.TELEPHONE) else 2 :]
            said = " ".join(texts(sheet.look_at[1:]))
            assert not [words for words in later if words in said], (high, text)


def care(plan: Plan, made: Assessment, language: str) -> Sheet:
    """As if everything was accepted."""
    decided = made_visits.all_accepted(plan, made)
    return made_visits.sheet_from(decided, language=language)


@pytest.mark.parametrize("language", LANGUAGES)
def test_over_the_sweep_one_level_and_no_reassurance(swept: Assessment, language: str) -> None:
    say = translator_for(language).translate
    titles = {say(words) for words in LOOK_TITLES.values()}
    flagged = 0
    for name, plan in plans():
        sheet = care(plan, swept, language)
        if sheet.emergency or not sheet.look_at:
            continue
        flagged += 1
        assert len([g for g in sheet.look_at if g.title in titles]) == 1, name
        said = set(texts(sheet))
        assert not {say(LEAVE_ALONE), say(STILL_WELL), say(WELL), say(SKIN_WELL)} & said, name
    assert flagged > 10


def test_an_emergency_page_does_not_say_today(swept: Assessment) -> None:
    plan = replace(
        made_plans.EMERGENCY,
        red_flags=(
            flag(
                Urgency.EMERGENCY, "The edge of your stoma has opened. A surgeon must look today."
            ),
            flag(Urgency.EMERGENCY, LUMP, "lump"),
            flag(Urgency.DAYS, VEINS, "veins"),
        ),
    )
    for language in LANGUAGES:
        found = care(plan, swept, language).emergency
        assert found is not None
        say = translator_for(language).translate
        assert found.lines == (say(OPENED), say(NEEDS_A_DOCTOR))


def test_the_next_visit_and_the_calls_come_after_it(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_with(monkeypatch, (Urgency.SAME_DAY, CUT))
    assert sheet.next_visit is not None
    assert sheet.next_visit.why.startswith(TOP_FIRST)
    assert sheet.call_after == TOP_FIRST
    page = html_of(sheet)
    assert WELL not in page
    assert page.count(TOP_FIRST) == 2
    calm = sheet_with(monkeypatch)
    assert calm.next_visit is not None
    assert (calm.next_visit.why, calm.call_after) == (WELL, "")


def test_a_danger_not_shown_to_the_patient_still_takes_reassurance_away(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    raised = (flag(Urgency.DAYS, None, "hidden"),)
    again = replace(
        made_plans.BARE.follow_up, patient_text=to_patient("To look at your skin.", WELL)
    )
    plan = replace(made_plans.LEAK, red_flags=raised, follow_up=again)
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    sheet = made_visits.sheet_of(made)
    assert sheet.next_visit is not None
    assert sheet.next_visit.why == "To look at your skin."


@pytest.mark.parametrize(("in_days", "late"), [(3, False), (4, True)])
def test_a_visit_in_time_does_not_repeat_it(
    monkeypatch: pytest.MonkeyPatch, in_days: int, late: bool
) -> None:
    """Monday 2 March 2026 and the days after it are open."""
    sheet = sheet_with(monkeypatch, (Urgency.DAYS, VEINS), in_days=in_days)
    assert sheet.next_visit is not None
    assert (TOP_FIRST in sheet.next_visit.why) is late


def test_the_clinicians_words_for_the_highest_come_first(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_with(
        monkeypatch,
        (Urgency.SAME_DAY, CUT),
        (Urgency.DAYS, VEINS),
        changed={"refer:f0": "go to the surgeon at four"},
    )
    assert [group.title for group in sheet.look_at] == [CLINICIAN_SAYS, ALSO]
    assert not [words for words in LATER["en"] if words in above(sheet)]


def test_a_dropped_flag_sets_no_level(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_with(
        monkeypatch, (Urgency.SAME_DAY, CUT), (Urgency.DAYS, VEINS), dropped=("refer:f0",)
    )
    assert [(group.title, group.lines) for group in sheet.look_at] == [
        ("You need to be seen within 3 days", (VEINS,))
    ]


def test_what_waits_for_the_next_visit_calls_no_one_first(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    sheet = sheet_with(monkeypatch, (Urgency.ROUTINE, "You have a small sore."))
    assert sheet.call_after == ""


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_danger_beside_a_good_fit_is_all_the_sheet_says_of_how_it_is(language: str) -> None:
    """A possible blockage in a system that fits: one level, and no word that the pouch is fine."""
    made = AssessmentFactory.create(
        well_fitting=True,
        output__symptoms=["mild_cramps", "nausea"],
        output__others_absent=True,
        output__hours_without_output=5,
    )
    plan = draft_plan(made_visits.fresh(made)).plan
    assert plan is not None
    assert plan.fit is not None
    assert plan.fit.answer is FitAnswer.FITS
    say = translator_for(language).translate
    sheet = care(plan, made, language)
    titles = {say(words) for words in LOOK_TITLES.values()}
    assert [g.title for g in sheet.look_at if g.title in titles] == [
        say(LOOK_TITLES[Urgency.SAME_DAY])  # type: ignore[index]
    ]
    said = " ".join(texts(sheet))
    for words in (LEAVE_ALONE, STILL_WELL, SKIN_WELL, WELL):
        assert say(words) not in said
    if language == "en":
        assert " fit" not in said

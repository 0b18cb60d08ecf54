"""An emergency replaces the plan on paper, as it does on screen."""

from dataclasses import replace

import pytest
from pytest_django import Settings

from clinic.documents.care_sheet.emergency import DO_FIRST, GET_HELP, NEEDS_A_DOCTOR
from clinic.documents.care_sheet.sheet import Emergency, Sheet
from planning import Plan
from planning.results.plan import ItemKind, Urgency
from tests.clinic.documents import made_plans, made_visits, paper
from tests.clinic.documents.made_plans import CALLS, EMERGENCY, LEAK, flag, item

pytestmark = pytest.mark.django_db
DARK = "Your stoma is very dark. A surgeon must look at it now. Do not eat or drink."
#: A plan that wrongly still carries supplies: the sheet still leaves them out.
FULL = replace(LEAK, urgency=Urgency.EMERGENCY, red_flags=EMERGENCY.red_flags)


def sheet_for(monkeypatch: pytest.MonkeyPatch, plan: Plan, **decisions: object) -> Sheet:
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.sore_low_down(made)
    made_visits.decide(made, plan, **decisions)  # type: ignore[arg-type]
    return made_visits.sheet_of(made)


def emergency(sheet: Sheet) -> Emergency:
    assert sheet.emergency is not None
    return sheet.emergency


def test_only_the_emergency_action_is_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_for(monkeypatch, FULL)
    assert emergency(sheet).title == GET_HELP
    assert emergency(sheet).lines == (DARK,)
    assert not sheet.uses
    assert not sheet.steps
    assert not sheet.call
    assert not sheet.marks
    assert sheet.face is None
    assert sheet.next_visit is None
    text = paper.whole_text(made_visits.printed(sheet))
    for words in (GET_HELP, DARK, "This sheet is for you alone", "How to reach us"):
        assert words in text
    for words in ("What to use", "step by step", "When to call", "Your next visit"):
        assert words not in text


def test_one_page_and_the_number_to_call(
    monkeypatch: pytest.MonkeyPatch, settings: Settings
) -> None:
    settings.EMERGENCY_NUMBER = "112"
    for large in (False, True):
        sheet = replace(sheet_for(monkeypatch, EMERGENCY), large=large)
        pages = paper.page_texts(made_visits.printed(sheet))
        assert len(pages) == 1
        assert "Emergency number: 112" in pages[0]


def test_what_is_safe_in_the_meantime_is_shown(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = replace(
        EMERGENCY,
        recommendations=(
            *EMERGENCY.recommendations,
            item("refer_dark", ItemKind.REFER, DARK),
        ),
    )
    assert emergency(sheet_for(monkeypatch, plan)).meanwhile == (
        "Keep a clear pouch on. Wear nothing that presses on it.",
    )


def test_a_flag_without_patient_words_still_sends_for_help(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    plan = replace(EMERGENCY, red_flags=(flag(Urgency.EMERGENCY, None),))
    assert emergency(sheet_for(monkeypatch, plan)).lines == (NEEDS_A_DOCTOR,)


def test_urgency_alone_is_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = replace(EMERGENCY, red_flags=())
    assert emergency(sheet_for(monkeypatch, plan)).lines == (NEEDS_A_DOCTOR,)


def test_a_flag_alone_is_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = replace(EMERGENCY, urgency=Urgency.ROUTINE)
    assert emergency(sheet_for(monkeypatch, plan)).lines == (DARK,)


def test_changed_by_the_clinician(monkeypatch: pytest.MonkeyPatch) -> None:
    changed = sheet_for(monkeypatch, EMERGENCY, changed={"refer:dark": "wait here for the surgeon"})
    assert emergency(changed).title == DO_FIRST
    assert emergency(changed).lines == ("Wait here for the surgeon.",)


def test_dropped_by_the_clinician(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_for(monkeypatch, replace(FULL, call_when=CALLS), dropped=("refer:dark",))
    assert sheet.emergency is None
    assert sheet.uses
    assert not sheet.look_at


def test_one_of_two_dropped(monkeypatch: pytest.MonkeyPatch) -> None:
    second = flag(Urgency.EMERGENCY, "You bleed. Press on it.", "bleeds")
    plan = replace(EMERGENCY, red_flags=(*EMERGENCY.red_flags, second))
    assert emergency(sheet_for(monkeypatch, plan, dropped=("refer:dark",))).lines == (
        "You bleed. Press on it.",
    )


def test_lesser_flags_changed_or_dropped(monkeypatch: pytest.MonkeyPatch) -> None:
    flags = (
        flag(Urgency.TWO_WEEKS, "A lump needs a look.", "lump"),
        flag(Urgency.SAME_DAY, "You have a deep cut.", "cut"),
        flag(Urgency.DAYS, "Your skin is very sore.", "sore"),
        flag(Urgency.DAYS, None, "hidden"),
    )
    plan = replace(made_plans.LEAK, red_flags=flags)
    sheet = sheet_for(
        monkeypatch, plan, changed={"refer:sore": "Show it at your own doctor"}, dropped=()
    )
    assert [(group.title, group.lines) for group in sheet.look_at] == [
        ("You need to be seen today", ("You have a deep cut.",)),
        ("Your nurse or doctor says", ("Show it at your own doctor.",)),
        ("Show this too when you are seen", ("A lump needs a look.",)),
    ]
    gone = sheet_for(monkeypatch, plan, dropped=("refer:cut", "refer:lump", "refer:sore"))
    assert gone.look_at == ()


def test_what_a_flag_says_is_not_said_twice(monkeypatch: pytest.MonkeyPatch) -> None:
    same = item("refer_long", ItemKind.REFER, made_plans.PROLAPSE.red_flags[0].patient_text)
    plan = replace(
        made_plans.PROLAPSE,
        recommendations=(*made_plans.PROLAPSE.recommendations, same),
    )
    sheet = sheet_for(monkeypatch, plan)
    assert "Next step" not in {use.label for use in sheet.uses}

"""What of a decided plan reaches the sheet, and what does not."""

from dataclasses import replace
from datetime import date

import pytest
from pytest_django import Settings

from clinic.documents.care_sheet.build import (
    ASK_HOW,
    LEAVE_ALONE,
    NO_REASON,
    STILL_WELL,
    care_sheet,
)
from clinic.documents.care_sheet.sheet import Sheet
from clinic.visits.models import PouchingSystem
from planning import Plan
from planning.results.plan import Change, ItemKind, Urgency
from tests.clinic.documents import made_plans, made_visits
from tests.clinic.documents.made_plans import LEAK, PROLAPSE
from tests.clinic.documents.made_plans import LEAVE_ALONE as KEPT

pytestmark = pytest.mark.django_db


def sheet_for(monkeypatch: pytest.MonkeyPatch, plan: Plan, **decisions: object) -> Sheet:
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan, **decisions)  # type: ignore[arg-type]
    return made_visits.sheet_of(made)


def rows(sheet: Sheet) -> dict[str, list[str]]:
    return {use.label: [plain(line.words) for line in use.lines] for use in sheet.uses}


def plain(words: str) -> str:
    return words.replace("\N{NO-BREAK SPACE}", " ")


def everything(sheet: Sheet) -> str:
    return plain(repr(sheet))


def test_accepted_items_are_in_patient_words(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_for(monkeypatch, LEAK)
    assert rows(sheet) == {
        "Barrier": [
            "A soft barrier with a low dome. The dome is 3 mm (about 1/8 inch) deep.",
        ],
        "Hole": [
            "Cut the hole along the line of your template. "
            "The hole is 34 mm by 30 mm (about 1 5/16 by 1 3/16 inches).",
        ],
        "Ring": ["A soft ring round the stoma. Stretch it until it just touches."],
        "Skin care": ["Powder, on wet skin only. Stop when the skin is dry."],
        "Pouch": ["A pouch you can empty."],
        "Change it": ["Change it every 3 days. Change at once if it leaks or itches."],
        "Leave off": ["Do not use paste any more."],
    }
    news = {use.label: use.lines[0].news for use in sheet.uses}
    assert news == {
        "Barrier": "Changed",
        "Hole": "New",
        "Ring": "New",
        "Skin care": "New",
        "Pouch": "Same",
        "Change it": "",
        "Leave off": "Leave off",
    }


def test_nothing_written_for_clinicians_is_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    for plan in made_plans.ALL.values():
        assert "For the clinician" not in everything(sheet_for(monkeypatch, plan))


def test_dropped_items_are_absent_and_so_are_their_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_for(monkeypatch, LEAK, dropped=("powder", "ring"))
    assert not {"Skin care", "Ring"} & set(rows(sheet))
    told = [step.words for step in sheet.steps]
    assert not [words for words in told if "owder" in words or "ring" in words]
    assert "Press all round with a finger." not in told  # it carried out the ring too
    assert told[-1] == "Write down the date."


def test_changed_items_are_in_the_clinicians_words(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_for(
        monkeypatch,
        LEAK,
        changed={"opening": "cut the hole 36 mm round", "paste": "paste in the dip only"},
    )
    assert rows(sheet)["Hole"] == [
        f"Cut the hole 36 mm (about 1 7/16 inches) round. {ASK_HOW}",
    ]
    # No longer something to leave off, and the old size is gone.
    assert rows(sheet)["Filler"] == [f"Paste in the dip only. {ASK_HOW}"]
    assert "Leave off" not in rows(sheet)
    assert "34 mm" not in everything(sheet)


def test_what_is_not_for_the_patient_stays_so_when_changed(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_for(monkeypatch, LEAK, changed={"refer": "Refer to a different clinic"})
    assert "different clinic" not in everything(sheet)


def test_steps_are_in_order_without_those_for_clinicians(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_for(monkeypatch, LEAK)
    told = [step.words for step in sheet.steps]
    assert told == [str(step.patient_text) for step in LEAK.steps if step.patient_text]


def test_calls_are_grouped_by_urgency(monkeypatch: pytest.MonkeyPatch) -> None:
    calls = (
        made_plans.call(Urgency.ROUTINE, "It smells."),
        made_plans.call(Urgency.DAYS, "It leaks."),
        made_plans.call(Urgency.EMERGENCY, "It is black."),
        made_plans.call(Urgency.SAME_DAY, "It bleeds."),
        made_plans.call(Urgency.EMERGENCY, "It is black."),
        made_plans.call(Urgency.TWO_WEEKS, "It itches."),
        made_plans.call(Urgency.TELEPHONE, "It is watery."),
    )
    sheet = sheet_for(monkeypatch, replace(LEAK, call_when=calls))
    assert [(group.title, group.lines) for group in sheet.call] == [
        ("Get emergency help now", ("It is black.",)),
        ("Call us, to be seen the same day", ("It bleeds.",)),
        ("Call us the same day", ("It is watery.",)),
        ("Call us within 3 days", ("It leaks.",)),
        ("Call us within 2 weeks", ("It itches.",)),
        ("Tell us at your next visit", ("It smells.",)),
    ]


def test_next_visit(monkeypatch: pytest.MonkeyPatch) -> None:
    accepted = sheet_for(monkeypatch, LEAK).next_visit
    changed = sheet_for(monkeypatch, LEAK, changed={"follow_up": "2026-03-05"}).next_visit
    dropped = sheet_for(monkeypatch, LEAK, dropped=("follow_up",)).next_visit
    assert accepted
    assert changed
    assert dropped
    assert (accepted.day, accepted.why) == ("Monday, 16 March 2026", NO_REASON)
    assert changed.day == "Thursday, 5 March 2026"
    assert dropped.day == ""


def test_reason_of_the_next_visit_in_the_plans_patient_words(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    told = made_plans.item("see", ItemKind.FOLLOW_UP, "We look at the sore spot again.")
    plan = replace(LEAK, recommendations=(*LEAK.recommendations, told))
    visit = sheet_for(monkeypatch, plan).next_visit
    assert visit
    assert visit.why == "We look at the sore spot again."


def test_a_system_left_alone_keeps_the_sizes_it_was_worn_with(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    kept = replace(
        KEPT,
        recommendations=(
            made_plans.item(
                "cut_to_fit", ItemKind.OPENING, "Keep using: hole you cut.", Change.KEEP
            ),
        ),
        dimensions=replace(KEPT.dimensions, opening_length_mm=34.0, opening_width_mm=30.0),
    )
    made_visits.use_plan(monkeypatch, kept)
    made = made_visits.assessed()
    PouchingSystem.objects.create(assessment=made, opening_length_mm=35)
    made_visits.decide(made, kept)
    sheet = made_visits.sheet_of(made)
    assert sheet.keep == LEAVE_ALONE
    assert rows(sheet)["Hole"] == [
        "Keep using: hole you cut. The hole is 35 mm (about 1 3/8 inches) wide."
    ]
    assert sheet.uses[0].lines[0].news == ""
    assert sheet.next_visit
    assert sheet.next_visit.why == STILL_WELL


def test_a_hole_that_is_rolled_has_no_size_to_cut(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_for(monkeypatch, replace(LEAK, supplies=("mouldable",)))
    assert "34 mm" not in everything(sheet)


def test_sizes_that_are_not_known_are_not_printed(monkeypatch: pytest.MonkeyPatch) -> None:
    bare = replace(LEAK, dimensions=made_plans.BARE.dimensions)
    sheet = sheet_for(monkeypatch, bare)
    assert rows(sheet)["Hole"] == ["Cut the hole along the line of your template."]
    assert "None" not in str(rows(sheet))


def test_lesser_dangers_are_above_the_plan(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = sheet_for(monkeypatch, PROLAPSE)
    assert [(group.title, group.lines) for group in sheet.look_at] == [
        (
            "You need to be seen within 3 days",
            ("Your stoma is longer than it was. A surgeon will look at it.",),
        )
    ]
    assert sheet.steps


def test_undecided_makes_no_sheet(monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed()
    with pytest.raises(ValueError, match="still open"):
        care_sheet(made_visits.decided(made), large=False)


def test_a_decision_about_other_words_does_not_count(monkeypatch: pytest.MonkeyPatch) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed()
    made_visits.decide(made, LEAK)
    first = replace(LEAK.recommendations[0], text="Other words")
    made_visits.use_plan(
        monkeypatch, replace(LEAK, recommendations=(first, *LEAK.recommendations[1:]))
    )
    with pytest.raises(ValueError, match="still open"):
        care_sheet(made_visits.decided(made), large=False)


def test_whose_sheet_and_whom_to_call(monkeypatch: pytest.MonkeyPatch, settings: Settings) -> None:
    settings.CLINIC_NAME, settings.CLINIC_PHONE = "Elm Row", "555-0199"
    settings.CLINIC_HOURS, settings.EMERGENCY_NUMBER = "Always", "112"
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed(
        given_name="Imogen",
        family_name="Owlsworth",
        date_of_birth=date(1940, 2, 29),
        record_number="T77",
    )
    made_visits.decide(made, LEAK)
    sheet = made_visits.sheet_of(made)
    assert sheet.who.name == "Imogen Owlsworth"
    assert (sheet.who.born, sheet.who.record_number) == ("29 February 1940", "T77")
    assert (sheet.visit_day, sheet.stoma) == ("2 March 2026", "Ileostomy, low on your right side")
    assert sheet.contact.clinic == "Elm Row"
    assert (sheet.contact.phone, sheet.contact.hours) == ("555-0199", "Always")
    assert sheet.contact.emergency_number == "112"
    assert not sheet.signed
    made_visits.sign(made)
    assert made_visits.sheet_of(made).signed


def test_a_signed_sheet_is_the_snapshot_whatever_the_rules_say_now(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    made_visits.use_plan(monkeypatch, LEAK)
    made = made_visits.assessed()
    made_visits.decide(made, LEAK)
    made_visits.sign(made)
    before = made_visits.sheet_of(made)
    made_visits.use_plan(monkeypatch, PROLAPSE)
    assert made_visits.sheet_of(made) == before

"""What is new or changed is marked by a word, first in its box and then on its steps."""

from dataclasses import replace
from datetime import timedelta

import pytest
from django.utils import timezone

from clinic.documents.care_sheet.pages import html_of
from clinic.documents.care_sheet.sheet import CHANGED, LEAVE_OFF, NEW, Sheet, Step
from clinic.documents.care_sheet.sheet_edit import edited_sheet
from clinic.documents.care_sheet.sheet_edit_actions import Change, edit_sheet
from clinic.documents.care_sheet.taught_steps import STEPS_OF
from clinic.documents.models import SheetEdit
from clinic.documents.patient_language.said import said
from clinic.plans.step_order import is_safety, words_of
from clinic.teaching.choices import Item, Level
from clinic.visits.models import Assessment
from planning import Plan
from planning.results.plan import Change as Against
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.made_plans import LEAK, LEAVE_ALONE, PROLAPSE, step
from tests.factories.teaching import TaughtPointFactory
from tests.factories.visits import AssessmentFactory, VisitFactory

pytestmark = pytest.mark.django_db


def made_of(monkeypatch: pytest.MonkeyPatch, plan: Plan) -> Assessment:
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    return made


def again(monkeypatch: pytest.MonkeyPatch, first: Assessment, plan: Plan) -> Assessment:
    """A later visit of the same stoma, with ``plan``."""
    made_visits.sign(first)
    made_visits.use_plan(monkeypatch, plan)
    visit = VisitFactory.create(
        patient=first.stoma.patient, happened_at=first.visit.happened_at + timedelta(days=7)
    )
    made = AssessmentFactory.create(stoma=first.stoma, visit=visit)
    made_visits.decide(made, plan)
    return made


def marks(sheet: Sheet[str]) -> dict[str, str]:
    return {one.words.partition(".")[0]: one.mark for one in sheet.steps}


def test_changes_come_first_with_their_word(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = made_visits.sheet_of(made_of(monkeypatch, LEAK))
    assert [(one.label, one.line.mark, one.line.news) for one in sheet.changes] == [
        ("Barrier", CHANGED, "Changed"),
        ("Hole", NEW, "New"),
        ("Ring", NEW, "New"),
        ("Skin care", NEW, "New"),
        ("Leave off", LEAVE_OFF, "Leave off"),
    ]
    assert [use.label for use in sheet.unmarked] == ["Pouch", "Change it"]
    text = paper.whole_text(made_visits.printed(sheet))
    order = ("What changes today", "How to change it", "What stays", "When to call")
    places = [text.index(words) for words in order]
    assert places == sorted(places)


def test_danger_is_before_what_changes(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = made_visits.sheet_of(made_of(monkeypatch, PROLAPSE))
    html = html_of(sheet)
    assert sheet.changes
    assert html.index(sheet.look_at[0].title) < html.index("What changes today")


def test_steps_done_with_what_is_new_say_so(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = made_visits.sheet_of(made_of(monkeypatch, LEAK))
    told = marks(sheet)
    assert told["Dust powder on the wet skin"] == NEW
    assert told["Lie back, so that your belly is flat"] == CHANGED
    assert told["Press all round with a finger"] == NEW
    assert told["Clean the skin with warm water"] == ""
    html = html_of(sheet)
    assert html.count('class="news new"') == 3 + 4
    assert html.count("marked") == sum(bool(mark) for mark in told.values())


def test_a_step_that_the_last_sheet_did_not_have_is_new(monkeypatch: pytest.MonkeyPatch) -> None:
    first = made_of(monkeypatch, LEAK)
    plan = replace(LEAK, steps=(*LEAK.steps, step("weigh", "Weigh yourself.")))
    told = made_visits.sheet_of(again(monkeypatch, first, plan))
    assert marks(told)["Weigh yourself"] == NEW
    known = {one.words: one.known for one in told.steps}
    assert known["Clean the skin with warm water. Pat it dry."]
    assert not known["Weigh yourself."]


def test_what_stays_the_same_brings_no_new_step(monkeypatch: pytest.MonkeyPatch) -> None:
    kept = tuple(
        replace(one, change=Against.KEEP)
        for one in LEAK.recommendations
        if one.change != Against.STOP
    )
    same = replace(
        LEAK, recommendations=kept, steps=(*LEAK.steps, step("weigh", "Weigh yourself."))
    )
    told = made_visits.sheet_of(again(monkeypatch, made_of(monkeypatch, LEAK), same))
    assert not told.changes
    assert told.unchanged == "What you use stays the same."
    assert not any(marks(told).values())


def test_where_all_fits_nothing_is_new(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = made_visits.sheet_of(made_of(monkeypatch, LEAVE_ALONE))
    assert sheet.keep
    assert not sheet.unchanged
    assert not sheet.changes


def only_changes(made: Assessment) -> Sheet[str]:
    edit = SheetEdit(only_changes=True)
    found: Sheet[str] = said(edited_sheet(made_visits.decided(made), edit), "en").sheet
    return found


def test_only_changes_leaves_out_what_is_done_as_now(monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = only_changes(made_of(monkeypatch, LEAK))
    keys = [one.key for one in LEAK.steps if one.patient_text]
    every = dict(zip(keys, made_visits.sheet_of(Assessment.objects.get()).steps, strict=True))
    wanted = [one.words for key, one in every.items() if one.mark or is_safety(key)]
    assert [one.words for one in sheet.steps] == wanted
    assert "Clean the skin with warm water. Pat it dry." in wanted  # it guards against harm
    assert "Change it as you do now, with these changes" in html_of(sheet)
    assert sheet.changes
    assert sheet.call


def test_what_no_one_does_alone_is_explained_on_the_shorter_sheet(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(STEPS_OF, Item.LOOK, ("look",))
    made = made_of(monkeypatch, LEAK)
    before = only_changes(made).steps
    for item in STEPS_OF:
        TaughtPointFactory(stoma=made.stoma, item=item, level=Level.ALONE)
    assert only_changes(made).steps == before
    TaughtPointFactory(stoma=made.stoma, item=Item.LOOK, level=Level.WITH_HELP)
    (more,) = [one.words for one in only_changes(made).steps if one not in before]
    assert more == "Look at the back of the old barrier. See where it has melted."


def test_every_taught_step_is_one_of_the_plan() -> None:
    assert [key for keys in STEPS_OF.values() for key in keys if not words_of(key)] == []


def test_only_changes_is_stored_with_the_edit(monkeypatch: pytest.MonkeyPatch) -> None:
    made = made_of(monkeypatch, LEAK)
    change = Change("", "", None, only_changes=True, seen=0, press="save")
    by = made.visit.clinician
    edit_sheet(decided=made_visits.decided(made), change=change, by=by, at=timezone.now())
    stored = SheetEdit.objects.get(assessment=made)
    assert stored.only_changes
    edited = said(edited_sheet(made_visits.decided(made), stored), "en")
    left = [one for one in edited.steps if one.as_now]
    assert left
    assert not any(one.hidden or one.printed for one in left)


def test_steps_are_one_column_in_order(sheet: Sheet[str], tmp_path: object) -> None:
    """Each step begins below the one before it, at the same distance from the edge."""
    told = replace(
        sheet, steps=tuple(Step(f"Stepword{n} and more.", "peel", "A.") for n in range(6))
    )
    found = paper.boxes(made_visits.printed(told), tmp_path)  # type: ignore[arg-type]
    begun = [box for box in found if box.word.startswith("Stepword")]
    assert len(begun) == 6
    assert [box.word for box in begun] == [f"Stepword{n}" for n in range(6)]
    assert len({round(box.left) for box in begun}) == 1
    assert [box.top for box in begun] == sorted(box.top for box in begun)


@pytest.mark.parametrize(
    ("pictures", "beside"),
    [
        (("peel", "", "", ""), (2, 2, 1, 0)),
        (("peel", "ring", ""), (0, 1, 0)),
        (("", "peel"), (0, 0)),
    ],
)
def test_words_alone_lie_beside_the_drawing_above(
    sheet: Sheet[str], pictures: tuple[str, ...], beside: tuple[int, ...]
) -> None:
    told = replace(sheet, steps=tuple(Step("Do it.", name) for name in pictures))
    assert tuple(one.after for one in told.placed_steps) == beside


def test_a_marked_step_and_an_unmarked_share_no_drawing(sheet: Sheet[str]) -> None:
    steps = (Step("Do it.", "peel", "A.", "New", NEW), Step("Then this."))
    assert replace(sheet, steps=steps).placed_steps[0].after == 0

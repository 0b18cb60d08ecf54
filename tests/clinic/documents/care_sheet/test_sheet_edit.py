"""What a nurse may make of a sheet before it prints, and what stays as it is."""

from dataclasses import replace
from typing import Any

import pytest
from django.utils import timezone

from clinic.accounts.models import User
from clinic.audit.models import AccessLog
from clinic.documents.care_sheet import sheet_edit_actions
from clinic.documents.care_sheet.emergency import CLINICIAN_SAYS
from clinic.documents.care_sheet.pages import html_of
from clinic.documents.care_sheet.sheet import Sheet
from clinic.documents.care_sheet.sheet_edit import (
    EMERGENCY_AS_IT_IS,
    EditedSheet,
    arrange,
    edit_of,
    edited_sheet,
)
from clinic.documents.care_sheet.sheet_edit_actions import Change, EditRefusedError, edit_sheet
from clinic.documents.models import SheetEdit
from clinic.documents.patient_language.said import said
from clinic.plans.step_order import is_safety, refused, sheet_steps
from clinic.visits.models import Assessment
from planning import Plan
from planning.technique import RULES
from planning.technique.order import SAFETY, broken
from tests.clinic.documents import made_visits
from tests.clinic.documents.made_plans import BARE, LEAK, flag, step
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db

#: Two neighbouring steps that no rule ties to each other: trim, measure.
STEPS = ("empty", "peel", "clean", "check", "measure", "trim", "powder", "brush_off", "seal_powder")
PLAN = replace(
    LEAK, steps=tuple(step(key, f"Plain words of {key}.") for key in STEPS), recommendations=()
)


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> Assessment:
    return visit_of(monkeypatch, PLAN)


def visit_of(monkeypatch: pytest.MonkeyPatch, plan: Plan) -> Assessment:
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    return made


def press(
    made: Assessment, press: str, key: str = "", *, by: User | None = None, **more: Any
) -> None:
    stored = edit_of(made)
    posted = {
        "after_uses": stored.after_uses if stored else "",
        "after_steps": stored.after_steps if stored else "",
        "large": stored.large if stored else None,
        "only_changes": stored.only_changes if stored else False,
        "seen": stored.version if stored else 0,
    }
    edit_sheet(
        decided=made_visits.decided(made),
        change=Change(**{**posted, **more}, press=press, key=key),
        by=by or made.visit.clinician,
        at=timezone.now(),
    )


def edited_of(made: Assessment, *, large: bool | None = None) -> EditedSheet[str]:
    built = edited_sheet(made_visits.decided(made), edit_of(made), large=large)
    found: EditedSheet[str] = said(built, made.visit.patient.sheet_language)
    return found


def sheet(made: Assessment) -> Sheet[str]:
    return edited_of(made).sheet


def printed_steps(made: Assessment) -> list[str]:
    return [one.words for one in sheet(made).steps]


def words(*keys: str) -> list[str]:
    return [f"Plain words of {key}." for key in keys]


def test_without_an_edit_it_prints_as_planned(made: Assessment) -> None:
    assert sheet(made) == made_visits.sheet_of(made)
    assert printed_steps(made) == words(*STEPS)


def test_a_hidden_step_is_off_the_sheet_and_comes_back(made: Assessment) -> None:
    press(made, sheet_edit_actions.HIDE, "peel")
    assert printed_steps(made) == words(*(key for key in STEPS if key != "peel"))
    press(made, sheet_edit_actions.SHOW, "peel")
    assert printed_steps(made) == words(*STEPS)


@pytest.mark.parametrize("key", [key for key in STEPS if key in SAFETY])
def test_a_step_that_guards_against_harm_cannot_be_hidden(made: Assessment, key: str) -> None:
    with pytest.raises(EditRefusedError) as refusal:
        press(made, sheet_edit_actions.HIDE, key)
    assert "can't be hidden" in refusal.value.problems["steps"]
    assert edit_of(made) is None


def test_not_even_by_a_row_written_past_the_form(made: Assessment) -> None:
    SheetEdit.objects.create(
        assessment=made,
        hidden=["seal_powder"],
        changed_by=made.visit.clinician,
        changed_at=timezone.now(),
    )
    edited = edited_of(made)
    assert [one.words for one in edited.sheet.steps] == words(*STEPS)
    assert "guards against harm stays" in edited.notices[0]


def test_steps_without_a_tie_change_places(made: Assessment) -> None:
    press(made, sheet_edit_actions.RISE, "trim")
    assert printed_steps(made)[4:6] == words("trim", "measure")
    press(made, sheet_edit_actions.SINK, "trim")
    assert printed_steps(made) == words(*STEPS)
    stored = edit_of(made)
    assert stored is not None
    assert stored.order == []


def test_an_order_the_technique_does_not_allow_is_refused_in_words(made: Assessment) -> None:
    with pytest.raises(EditRefusedError) as refusal:
        press(made, sheet_edit_actions.SINK, "brush_off")
    assert refusal.value.problems["steps"] == (
        "\N{LEFT DOUBLE QUOTATION MARK}Dab the skin film over the powder. Let it dry until it is "
        "not sticky.\N{RIGHT DOUBLE QUOTATION MARK} must come after "
        "\N{LEFT DOUBLE QUOTATION MARK}Brush off all loose powder.\N{RIGHT DOUBLE QUOTATION MARK}"
    )
    assert printed_steps(made) == words(*STEPS)


def test_hidden_steps_still_hold_the_order(made: Assessment) -> None:
    """Peel is hidden; clean must not slip past it to before the pouch is emptied."""
    press(made, sheet_edit_actions.HIDE, "peel")
    with pytest.raises(EditRefusedError):
        press(made, sheet_edit_actions.RISE, "clean")


def test_a_tie_holds_by_way_of_a_step_that_is_not_there() -> None:
    """seal_powder is tied to brush_off, brush_off to powder."""
    assert broken(["seal_powder", "powder"]) == (("powder", "seal_powder"),)
    assert broken(["powder", "seal_powder"]) == ()


def test_the_plans_own_order_breaks_no_tie() -> None:
    from planning.technique import in_order

    assert refused([rule.key for rule in in_order()]) == ()


def test_every_safety_step_is_a_step_for_the_patient() -> None:
    told = {rule.key for rule in RULES if rule.patient}
    assert set(SAFETY) <= told
    assert is_safety("seal_powder")
    assert is_safety("check_imprint")
    assert is_safety("lie_down")
    assert not is_safety("note_date")


def test_sentences_are_printed_where_they_were_added(made: Assessment) -> None:
    press(made, "save", after_uses="ask for <b>two</b> rings", after_steps="call me on Friday")
    found = sheet(made)
    assert found.uses[-1].label == CLINICIAN_SAYS
    assert found.uses[-1].lines[0].words == "Ask for <b>two</b> rings."
    assert found.steps[-1].words == "Call me on Friday."
    assert "&lt;b&gt;two" in html_of(found)


def test_too_long_is_said_at_its_field(made: Assessment) -> None:
    with pytest.raises(EditRefusedError) as refusal:
        press(made, "save", after_steps="x" * 403)
    assert refusal.value.problems == {"after_steps": "At most 400 letters: 3 too many."}


@pytest.mark.parametrize(
    ("own", "chosen", "large"), [(True, None, True), (True, False, False), (False, True, True)]
)
def test_large_print(made: Assessment, own: bool, chosen: bool | None, large: bool) -> None:
    type(made.visit.patient).objects.filter(pk=made.visit.patient.pk).update(large_print=own)
    press(made, "save", large=chosen)
    assert sheet(made).large is large
    asked = edited_of(made, large=not large)
    assert asked.sheet.large is not large


def test_steps_as_planned_keeps_the_sentences(made: Assessment) -> None:
    press(made, sheet_edit_actions.HIDE, "peel", after_steps="Call me.")
    press(made, sheet_edit_actions.AS_PLANNED)
    assert printed_steps(made) == [*words(*STEPS), "Call me."]


def test_a_step_no_longer_in_the_plan_is_dropped_with_a_notice(
    made: Assessment, monkeypatch: pytest.MonkeyPatch
) -> None:
    press(made, sheet_edit_actions.RISE, "trim")
    press(made, sheet_edit_actions.HIDE, "peel")
    without = replace(PLAN, steps=tuple(s for s in PLAN.steps if s.key not in {"peel", "trim"}))
    made_visits.use_plan(monkeypatch, without)
    edited = edited_of(made)
    left = [key for key in STEPS if key not in {"peel", "trim"}]
    assert [one.words for one in edited.sheet.steps] == words(*left)
    assert edited.notices == (
        "A step you had changed is no longer in the plan: Peel from the top down. Hold the skin "
        "with your other hand. Go slowly.",
        "A step you had changed is no longer in the plan: Trim the hair. Do not shave it dry.",
    )
    press(made, "save")
    assert edited_of(made).notices == ()


def test_a_new_step_is_where_the_plan_has_it(made: Assessment) -> None:
    stored = SheetEdit(order=["empty", "peel", "trim", "measure"], hidden=[])
    arranged = arrange(["empty", "peel", "clean", "measure", "trim"], stored)
    assert arranged.order == ("empty", "peel", "clean", "trim", "measure")
    assert "gained a step" in arranged.notices[0]


def test_an_order_that_became_wrong_is_the_plans_own_again(made: Assessment) -> None:
    stored = SheetEdit(order=["peel", "empty"], hidden=[])
    arranged = arrange(["empty", "peel"], stored)
    assert arranged.order == ("empty", "peel")
    assert arranged.notices[0].startswith("The steps are back in the plan's order.")


def test_an_emergency_sheet_is_as_it_is(made: Assessment, monkeypatch: pytest.MonkeyPatch) -> None:
    from planning.results.plan import Urgency

    press(made, sheet_edit_actions.HIDE, "peel", after_steps="Call me.")
    danger = replace(
        BARE, urgency=Urgency.EMERGENCY, red_flags=(flag(Urgency.EMERGENCY, "It is black."),)
    )
    made_visits.use_plan(monkeypatch, danger)
    edited = edited_of(made)
    assert edited.sheet.steps == ()
    assert "Call me." not in html_of(edited.sheet)
    assert edited.notices == (EMERGENCY_AS_IT_IS,)


def test_somebody_elses_change_is_not_written_over(made: Assessment) -> None:
    press(made, "save", after_steps="Call me.")
    other = UserFactory.create()
    with pytest.raises(EditRefusedError) as refusal:
        press(made, "save", after_steps="Call us.", by=other, seen=0)
    assert made.visit.clinician.display_name in refusal.value.problems["seen"]
    assert printed_steps(made)[-1] == "Call me."
    press(made, "save", after_steps="Call us.", by=other)
    assert printed_steps(made)[-1] == "Call us."


def test_every_change_is_on_record_also_after_signing(made: Assessment) -> None:
    press(made, "save", after_steps="Call me.")
    made_visits.sign(made)
    press(made, "save", after_steps="Call us.")
    press(made, "save")
    stored = edit_of(made)
    assert stored is not None
    history = stored.events.order_by("pgh_id")  # type: ignore[attr-defined]
    assert [row.after_steps for row in history] == ["Call me.", "Call us."]
    assert AccessLog.objects.filter(action="edited care sheet").count() == 2


def test_the_keys_of_a_sheet_are_those_of_its_steps(made: Assessment) -> None:
    assert sheet_steps(made_visits.decided(made)) == STEPS

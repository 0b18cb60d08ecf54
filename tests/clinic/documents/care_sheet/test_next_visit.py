"""Why the next visit, in the plan's own plain words."""

from dataclasses import replace

import pytest

from clinic.documents.care_sheet.build import NO_REASON
from planning.results.message import to_patient
from tests.clinic.documents import made_plans, made_visits, paper
from tests.clinic.documents.made_plans import LEAK

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("plain", ["To see if the sore spot has healed.", None])
def test_the_plans_own_plain_words_reach_the_paper(
    monkeypatch: pytest.MonkeyPatch, plain: str | None
) -> None:
    """The clinician's wording of the same reason stays off it."""
    plan = replace(
        LEAK, follow_up=replace(LEAK.follow_up, text="Review", patient_text=to_patient(plain))
    )
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    sheet = made_visits.sheet_of(made)
    assert sheet.next_visit is not None
    assert sheet.next_visit.why == (plain or NO_REASON)
    assert (plain or NO_REASON) in paper.whole_text(made_visits.printed(sheet))


def test_the_planner_says_it_in_plain_words_for_every_worked_situation() -> None:
    for situation in ("leaking", "well_fitting", "hernia"):
        made = made_visits.signed_as_planned(situation)
        decided = made_visits.decided(made)
        told = decided.plan.follow_up.patient_text
        assert told
        if not decided.plan.leave_alone:
            assert str(told) in paper.whole_text(made_visits.printed(made_visits.sheet_of(made)))


def test_what_is_shown_when_nothing_was_planned() -> None:
    assert made_plans.BARE.follow_up.patient_text is None

"""The plan's panel: both answers first, then what is done in its order."""

from dataclasses import replace
from html import unescape

import pytest
from django.test import Client
from django.urls import reverse

from clinic.plans.decision_forms import Decisions
from clinic.plans.draft_plan import draft_plan
from clinic.plans.plan_with_decisions import decided_plan
from clinic.plans.presenters.answers import (
    FIT,
    NOT_TAKEN_UP,
    WELL,
    answers_for_colleagues,
    answers_of,
)
from clinic.plans.presenters.cards import cards_of_draft
from clinic.plans.presenters.plan_groups import TITLES, UNTIL_HELP, Group, count_words, groups_of
from clinic.visits.choices import SkinState
from clinic.visits.models import Assessment
from planning import Plan
from planning.results.plan import Stage
from tests.clinic.plans.signed_visits import accept, reread, sign
from tests.factories.visits import AssessmentFactory, SkinFindingFactory

pytestmark = pytest.mark.django_db

NEXT = "Next, if this does not hold"


@pytest.fixture
def step_and_correction() -> Assessment:
    """A low stoma that leaks, and raw skin: powder now, a half ring today, a ladder after."""
    draft: Assessment = AssessmentFactory(retracted=True, skin__state=SkinState.FINDINGS)
    SkinFindingFactory(assessment=draft, kind="erosion", hours=[5, 6], burning=True, moist=True)
    return draft


def plan_of(draft: Assessment) -> Plan:
    plan = draft_plan(reread(draft)).plan
    assert plan is not None
    return plan


def groups(plan: Plan, draft: Assessment) -> tuple[Group, ...]:
    return groups_of(plan, cards_of_draft(plan, Decisions(plan, reread(draft))), signed=False)


def in_order(html: str, *words: str) -> None:
    places = [html.index(one) for one in words]
    assert places == sorted(places)


def test_the_order_on_the_visit_page_and_once_signed(
    client: Client, step_and_correction: Assessment
) -> None:
    draft = step_and_correction
    client.force_login(draft.visit.clinician)
    stages = ("correct_now", "today", "next", "keep", "also", "when", "back")
    titles = [f'stage-{key}">{TITLES[key]}' for key in stages]
    page = client.get(reverse("charting:chart", args=[draft.uuid])).content.decode()
    in_order(page, WELL, FIT, *titles)
    in_order(page, NEXT, "Steps after that", TITLES["keep"], "Accept this plan")
    assert "2 of at most 2 changes" in page
    accept(draft)
    sign(draft)
    signed = client.get(reverse("charting:visit", args=[draft.visit.uuid])).content.decode()
    in_order(signed, WELL, FIT, *titles)
    assert signed.count("Accepted</b>") == draft.decisions.count()


def test_each_step_has_its_trigger_and_one_is_unfolded(
    client: Client, step_and_correction: Assessment
) -> None:
    client.force_login(step_and_correction.visit.clinician)
    url = reverse("charting:chart", args=[step_and_correction.uuid])
    page = client.get(url).content.decode()
    steps = plan_of(step_and_correction).next_steps
    assert len(steps) > 1
    shown, folded = page.split("Steps after that")
    for place, step in enumerate(steps):
        assert f"<b>{step.text}</b>, {step.trigger}" in unescape(shown if place < 1 else folded)


def test_every_card_is_in_one_group(step_and_correction: Assessment) -> None:
    plan = plan_of(step_and_correction)
    found = [card.key for group in groups(plan, step_and_correction) for card in group.cards]
    decisions = Decisions(plan, reread(step_and_correction))
    assert sorted(found) == sorted(decisions.by_key)
    stages = {
        group.key: {card.stage for card in group.cards}
        for group in groups(plan, step_and_correction)
    }
    assert stages["today"] == {"today"}
    assert stages["also"] == {""}


def test_an_emergency_leads_and_says_what_to_do_meanwhile() -> None:
    draft = AssessmentFactory(leaking=True, measurement__colour="black_brown_grey")
    plan = plan_of(draft)
    well, fit = answers_of(plan)
    assert (well.question, well.urgency, well.tag) == (WELL, "emergency", "Emergency, now")
    assert "Not judged now" in fit.text
    titles = [group.title for group in groups(plan, draft)]
    assert titles == [TITLES["danger"], UNTIL_HELP, TITLES["back"]]


def test_a_danger_beside_a_good_fit_is_said_first() -> None:
    draft = AssessmentFactory(
        well_fitting=True,
        output__symptoms=["mild_cramps", "nausea"],
        output__others_absent=True,
        output__hours_without_output=5,
    )
    well, fit = answers_of(plan_of(draft))
    assert well.urgency == "same_day"
    assert fit.text == "It seals and the skin is sound: keep it as it is"
    assert fit.urgency == ""


def test_open_danger_questions_are_named(client: Client) -> None:
    draft = AssessmentFactory(well_fitting=True, output__symptoms=None)
    open_ = answers_of(plan_of(draft))[0].open
    assert "Fever was not asked." in open_
    client.force_login(draft.visit.clinician)
    page = client.get(reverse("charting:chart", args=[draft.uuid])).content.decode()
    answer = page[page.index(WELL) : page.index(FIT)]
    assert all(question in answer for question in open_)


def test_a_plan_made_before_both_were_answered_is_one_list(
    step_and_correction: Assessment,
) -> None:
    plan = replace(plan_of(step_and_correction), well=None, fit=None, next_steps=())
    assert answers_of(plan) == ()
    (only,) = groups(plan, step_and_correction)
    assert (only.title, only.note) == ("", "")
    assert len(only.cards) == len(Decisions(plan, reread(step_and_correction)).forms)


def test_a_dropped_danger_is_not_said_in_a_letter() -> None:
    draft = AssessmentFactory(leaking=True, measurement__colour="black_brown_grey")
    accept(draft)
    decided = decided_plan(reread(draft))
    assert decided is not None
    said = answers_for_colleagues(decided)
    assert said[0] == f"{WELL} No. {decided.plan.red_flags[0].text} (emergency, now)."
    draft.decisions.filter(key__startswith="refer:").update(choice="dropped", reason="Seen.")
    dropped = decided_plan(reread(draft))
    assert dropped is not None
    assert answers_for_colleagues(dropped)[0] == f"{WELL} {NOT_TAKEN_UP}."


def test_changes_are_counted_once(step_and_correction: Assessment) -> None:
    plan = plan_of(step_and_correction)
    notes = {group.key: group.note for group in groups(plan, step_and_correction)}
    assert notes["today"] == count_words(2, with_corrections=True)
    assert notes["correct_now"] == ""
    assert {item.stage for item in plan.recommendations} >= {Stage.CORRECT_NOW, Stage.TODAY}

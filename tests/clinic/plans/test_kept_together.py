"""What is kept as it is worn needs no decision of its own: the signature accepts it, on record."""

import pytest

from clinic.audit.models import AccessLog
from clinic.charting.page import save_page
from clinic.plans.actions.decide import accept_all, save_decisions
from clinic.plans.actions.sign import NotReadyError
from clinic.plans.decidables import decidables
from clinic.plans.decided_item import is_kept
from clinic.plans.decision_forms import Decisions
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Choice, Decision
from clinic.plans.plan_with_decisions import decided_plan
from clinic.visits.actions.save import Turn
from clinic.visits.models import Assessment, PendingEntry
from planning import Plan
from tests.clinic.plans.signed_visits import posted_page, reread, sign
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

BARRIER = "flat_flexible"


@pytest.fixture
def leaking() -> Assessment:
    return AssessmentFactory(leaking=True)


def plan_of(draft: Assessment) -> Plan:
    plan = draft_plan(reread(draft)).plan
    assert plan is not None
    return plan


def kept(draft: Assessment) -> set[str]:
    return {one.key for one in decidables(plan_of(draft), draft) if is_kept(one.source)}


def accept_the_rest(draft: Assessment) -> None:
    """As the button does."""
    data = posted_page(draft)
    save_decisions(plan=plan_of(draft), assessment=reread(draft), data=data, accept_rest=True)


def decide(draft: Assessment, key: str, choice: Choice, text: str = "") -> None:
    item = next(one for one in decidables(plan_of(draft), draft) if one.key == key)
    Decision.objects.create(
        assessment=draft,
        key=key,
        text=text or item.text,
        choice=choice,
        changed_to="Another one" if choice == Choice.CHANGED else "",
        reason="" if choice == Choice.ACCEPTED else "Asked for it.",
    )


def test_a_leak_asks_for_no_decision_on_what_is_kept(leaking: Assessment) -> None:
    asked = {one.key for one in Decisions(plan_of(leaking), reread(leaking)).undecided()}
    assert len(kept(leaking)) >= 3
    assert not kept(leaking) & asked
    assert asked >= {"opening", "powder", "follow_up"}


def test_the_signature_accepts_it_with_a_row_each(leaking: Assessment) -> None:
    accept_the_rest(leaking)
    before = set(leaking.decisions.values_list("key", flat=True))
    assert not before & kept(leaking)
    keys = kept(leaking)
    sign(leaking)
    made = leaking.decisions.filter(key__in=keys)
    assert {one.key: one.choice for one in made} == dict.fromkeys(keys, Choice.ACCEPTED)
    signed = AccessLog.objects.get(action="signed")
    assert signed.actor_words == leaking.visit.clinician.display_name
    assert signed.detail == f"accepted together: {len(keys)} kept"


def test_changed_it_is_not_accepted(leaking: Assessment) -> None:
    decide(leaking, BARRIER, Choice.CHANGED)
    accept_the_rest(leaking)
    sign(leaking)
    assert leaking.decisions.get(key=BARRIER).choice == Choice.CHANGED


def test_half_decided_it_is_asked_for(leaking: Assessment) -> None:
    accept_the_rest(leaking)
    item = next(one for one in decidables(plan_of(leaking), leaking) if one.key == BARRIER)
    prefix = f"decision-{BARRIER}"
    raw = {f"{prefix}-about": [item.about], f"{prefix}-choice": ["dropped"]}
    PendingEntry.objects.create(assessment=leaking, prefix=prefix, data=raw)
    with pytest.raises(NotReadyError) as raised:
        sign(leaking)
    assert [problem.field for problem in raised.value.problems] == [prefix]


@pytest.mark.parametrize(
    ("choice", "asked"),
    [(Choice.ACCEPTED, False), (Choice.CHANGED, True), (Choice.DROPPED, True)],
)
def test_decided_about_other_words_it_is_asked_for_again(
    leaking: Assessment, choice: Choice, asked: bool
) -> None:
    """Not where it was accepted: it is kept still."""
    decide(leaking, BARRIER, choice, text="Convex barrier")
    undecided = {one.key for one in Decisions(plan_of(leaking), reread(leaking)).undecided()}
    assert (BARRIER in undecided) is asked


def test_a_paper_of_a_draft_waits_for_what_is_changed_alone(leaking: Assessment) -> None:
    first = decided_plan(reread(leaking))
    assert first is not None
    assert not {one.key for one in first.open_items} & kept(leaking)
    assert first.open_items
    accept_the_rest(leaking)
    now = decided_plan(reread(leaking))
    assert now is not None
    assert now.open_items == ()


def test_what_is_kept_in_other_words_than_were_on_the_page_is_looked_at(
    leaking: Assessment,
) -> None:
    data = posted_page(leaking)
    data[f"decision-{BARRIER}-about"] = "0" * 16
    turn = Turn(reread(leaking).visit.version, None, 0)
    page = save_page(reread(leaking), data=data, turn=turn, by=leaking.visit.clinician)
    assert [one.key for one in page.unseen] == [BARRIER]


def test_records_made_by_a_program_hold_every_decision(leaking: Assessment) -> None:
    """What was decided about other words, or only begun, gives way."""
    plan = plan_of(leaking)
    items = {one.key: one for one in decidables(plan, leaking)}
    old, begun = [key for key, one in items.items() if not is_kept(one.source)][:2]
    decide(leaking, old, Choice.DROPPED)
    leaking.decisions.update(text="In other words", about="0" * 16)
    typed = {f"decision-{begun}-choice": ["dropped"], f"decision-{begun}-reason": [""]}
    PendingEntry.objects.create(assessment=leaking, prefix=f"decision-{begun}", data=typed)
    accept_all(plan, reread(leaking))
    stored = {one.key: (one.choice, one.about) for one in leaking.decisions.all()}
    assert stored == {key: (Choice.ACCEPTED, one.about) for key, one in items.items()}
    assert not leaking.pending.exists()

"""What is chosen instead: the plan is made again round it, and everything printed follows."""

from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.audit.models import AccessLog
from clinic.charting.page import ChartPage, save_page
from clinic.documents.care_sheet.build import care_sheet
from clinic.documents.cutting_template.build import NoTemplate, cutting_template
from clinic.documents.cutting_template.template_drawing import Side
from clinic.documents.letter.build import plan_lines
from clinic.documents.patient_language.localised import texts
from clinic.documents.patient_language.said import said
from clinic.documents.supply_list.build import supply_list
from clinic.plans.actions.sign import NotReadyError
from clinic.plans.course import course_of
from clinic.plans.decision_forms import Decisions
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Choice, Decision, PlanSnapshot
from clinic.plans.plan_with_decisions import DecidedPlan, decided_plan
from clinic.plans.planned import Planned
from clinic.visits.actions.save import Turn
from clinic.visits.choices import SkinState
from clinic.visits.models import Assessment
from planning import FixedKind, recommend
from planning.results.snapshot import (
    findings_from_dict,
    history_from_dict,
    plan_from_dict,
    plan_to_dict,
)
from tests.clinic.plans.signed_visits import accept, posted_page, reread, sign
from tests.factories.visits import AssessmentFactory, SkinFindingFactory

pytestmark = pytest.mark.django_db

ENGLISH = ("Change", "latest", "at once", "barrier")


@pytest.fixture
def draft() -> Assessment:
    """A low stoma that leaks, and raw skin, which asks for a change day."""
    found: Assessment = AssessmentFactory(retracted=True, skin__state=SkinState.FINDINGS)
    SkinFindingFactory(assessment=found, kind="erosion", hours=[5, 6], burning=True, moist=True)
    return found


def planned(draft: Assessment) -> Planned:
    found = draft_plan(reread(draft)).planned
    assert found is not None
    return found


def save(draft: Assessment, *, accept_rest: bool = False, **changes: Any) -> ChartPage:
    """As the page posts it, with some of its fields changed."""
    data = posted_page(draft)
    for name, value in changes.items():
        data[name.replace("__", "-")] = value
    turn = Turn(reread(draft).visit.version, None, 0)
    by = draft.visit.clinician
    return save_page(reread(draft), data=data, turn=turn, by=by, accept_rest=accept_rest)


def choose(draft: Assessment, key: str, code: str, why: str = "It suits her.") -> ChartPage:
    given: dict[str, Any] = {
        f"decision__{key}__choice": "changed",
        f"decision__{key}__instead": code,
        f"decision__{key}__reason": why,
    }
    page = save(draft, **given)
    assert {name: m for name, m in page.all_errors.items() if name.startswith("decision-")} == {}
    return page


def offered(draft: Assessment, kind: FixedKind, key: str = "") -> tuple[str, str]:
    """The key and code of the first alternative of a kind."""
    for name, several in planned(draft).offers.items():
        for one in several:
            if one.fixed.kind is kind and name.startswith(key):
                return name, one.fixed.code
    raise AssertionError(kind)


def decided(draft: Assessment) -> DecidedPlan:
    found = decided_plan(reread(draft))
    assert found is not None
    return found


def barrier(draft: Assessment) -> str:
    keys = planned(draft).proposed.supplies
    return next(key for key in keys if key.startswith(("flat_", "soft_", "firm_")))


# --- one press ---------------------------------------------------------------------------------
def test_one_press_accepts_what_is_proposed_a_row_each_by_the_person_then(
    draft: Assessment,
) -> None:
    before = draft_plan(reread(draft))
    asked = {one.key for one in Decisions(before.planned, reread(draft)).undecided()}  # type: ignore[arg-type]
    page = save(draft, accept_rest=True)
    rows = list(draft.decisions.all())
    assert {row.key for row in rows} == asked
    assert {row.choice for row in rows} == {Choice.ACCEPTED}
    assert {row.decided_by for row in rows} == {draft.visit.clinician}
    assert None not in {row.decided_at for row in rows}
    assert page.decisions is not None
    assert page.decisions.undecided() == []
    assert AccessLog.objects.get(action="accepted plan").detail == f"as proposed: {len(asked)}"
    sign(draft)  # what is kept asked for nothing: two presses from the plan to the signature


def test_what_changed_since_the_page_was_sent_is_not_accepted_unseen(draft: Assessment) -> None:
    other_words: dict[str, Any] = {"decision__powder__about": "0" * 16}
    save(draft, accept_rest=True, **other_words)
    keys = set(draft.decisions.values_list("key", flat=True))
    assert "powder" not in keys
    assert {"protectant", "follow_up"} <= keys


def test_a_danger_that_came_with_the_last_entry_is_not_accepted_with_the_rest(
    draft: Assessment,
) -> None:
    data = posted_page(draft)
    draft.measurement.colour = "dusky"
    draft.measurement.save()
    data["stoma-colour"] = "dusky"
    turn = Turn(reread(draft).visit.version, None, 0)
    page = save_page(
        reread(draft), data=data, turn=turn, by=draft.visit.clinician, accept_rest=True
    )
    assert page.decisions is not None
    left = {one.key for one in page.decisions.undecided()}
    assert any(key.startswith("refer:") for key in left)
    assert page.plan_changed.startswith("Plan changed: danger: ")
    assert page.plan_changed.endswith(f"{len(left)} to decide")


def test_with_the_rest_only_what_a_choice_leaves_as_it_was_shown_is_accepted(
    draft: Assessment,
) -> None:
    key = barrier(draft)
    page = save(
        draft,
        accept_rest=True,
        **{
            f"decision__{key}__choice": "changed",
            f"decision__{key}__instead": "supply:soft_convex_shallow",
            f"decision__{key}__reason": "She asked for a dome.",
        },
    )
    assert page.decisions is not None
    undecided = {one.key for one in page.decisions.undecided()}
    assert key not in undecided
    rows = {row.key: row for row in draft.decisions.all()}
    assert rows[key].chosen == "supply:soft_convex_shallow"
    # The next visit is another without a new dome; what the page did not show is not accepted.
    shown = {form.decidable.key: form.decidable.about for form in page.decisions}
    assert all(rows[k].about == shown[k] for k in rows if k != key and k not in undecided)


def test_decided_on_something_that_changed_since_it_is_asked_again_by_name(
    draft: Assessment, client: Client
) -> None:
    save(draft, accept_rest=True)
    draft.skin_findings.update(hours=[1, 2])
    client.force_login(draft.visit.clinician)
    page = client.get(reverse("charting:chart", args=[draft.uuid])).content.decode()
    assert "Changed since you decided:" in page
    assert "The powder changed since you decided: decide again." in page
    with pytest.raises(NotReadyError) as raised:
        sign(draft)
    messages = [problem.message for problem in raised.value.problems]
    assert any(m.startswith("The powder changed since you decided") for m in messages)


# --- typed choices -----------------------------------------------------------------------------
def test_another_barrier_is_another_plan_everywhere(draft: Assessment) -> None:
    old = barrier(draft)
    page = choose(draft, old, "supply:soft_convex_shallow", "She asked for a dome.")
    assert page.live.plan is not None
    assert "soft_convex_shallow" in page.live.plan.supplies
    row = draft.decisions.get(key=old)
    assert (row.choice, row.chosen) == (Choice.CHANGED, "supply:soft_convex_shallow")
    assert row.changed_to == "Soft convex barrier, shallow"
    assert row.text == next(r.text for r in planned(draft).proposed.recommendations if r.key == old)
    accept(draft)
    sign(draft)
    found = decided(draft)
    assert old not in found.plan.supplies
    assert not any(old in step.belongs_to for step in found.steps())
    assert found.plan.dimensions.convex_depth_class == "shallow"
    listed = supply_list(found)
    assert any("convex" in item.text for item in listed.items)
    assert not any(item.by_hand for item in listed.items)
    assert "dome shallow" in " ".join(item.size for item in listed.items)
    sheet = said(care_sheet(found, large=False), "en")
    told = " ".join(line.words for use in sheet.uses for line in use.lines)
    assert "Soft barrier with a dome" in told
    assert "Flat, soft barrier" not in told
    spanish = said(care_sheet(found, large=False), "es")
    assert "barrier" not in " ".join(line.words for use in spanish.uses for line in use.lines)
    assert any("instead of: " in line and "asked for a dome" in line for line in plan_lines(found))


def test_a_chosen_day_orders_and_prints_for_that_day_in_every_language(
    draft: Assessment,
) -> None:
    draft.visit.patient.sheet_language = "es"
    draft.visit.patient.save()
    key, code = offered(draft, FixedKind.DAY)
    assert code.startswith("day:")
    before = {item.text: item.per_month for item in supply_list(_accepted(draft)).items}
    choose(draft, key, code)
    days = int(code.removeprefix("day:"))
    accept(draft)
    sign(draft)
    found = decided(draft)
    listed = supply_list(found)
    assert f"for a change every {days} days, as the clinician decided." in listed.change_day
    after = {item.text: item.per_month for item in listed.items}
    barrier_line = listed.items[0]
    assert barrier_line.per_month == 30 // days
    assert not barrier_line.uncounted
    assert after.keys() == before.keys()
    for language in ("es", "ar"):
        sheet = said(care_sheet(found, large=False), language)
        rows = [line.words for use in sheet.uses for line in use.lines]
        assert rows
        assert not any(word in row for row in rows for word in ENGLISH)
    spanish = " ".join(texts(said(care_sheet(found, large=False), "es")))
    assert str(days) in spanish


def _accepted(draft: Assessment) -> DecidedPlan:
    found = decided_plan(reread(draft))
    assert found is not None
    return found.accepted_by_default()


def test_a_chosen_size_is_the_line_of_the_template(draft: Assessment) -> None:
    before = planned(draft).proposed.dimensions
    choose(draft, "opening", "gap:2.5")
    accept(draft)
    sign(draft)
    found = decided(draft)
    made = cutting_template(found, side=Side.FRONT, paper="a4")
    assert not isinstance(made, NoTemplate)
    assert found.plan.dimensions.gap_mm == 2.5
    assert found.plan.dimensions.opening_length_mm == (before.stoma_length_mm or 0) + 5
    shown = said(made, "en")
    assert shown.gap == "2.5 mm"
    assert f"{found.plan.dimensions.opening_length_mm:g}" in shown.size
    assert "opening to cut" in supply_list(found).items[0].size
    assert f"{found.plan.dimensions.opening_length_mm:g}" in supply_list(found).items[0].size


def test_none_leaves_no_line_no_step_and_says_so_in_the_letter(draft: Assessment) -> None:
    key, code = offered(draft, FixedKind.NONE)
    choose(draft, key, code, "She will not have it.")
    accept(draft)
    sign(draft)
    found = decided(draft)
    assert key not in found.plan.supplies
    assert key not in {line.quantity.supply_key for line in _lines(found)}
    assert not any(key in step.belongs_to for step in found.steps())
    if found.left_off:
        assert any("Left off:" in line for line in plan_lines(found))


def _lines(found: DecidedPlan) -> Any:
    from clinic.plans.order_lines import order_lines

    return order_lines(found)


def test_a_choice_that_a_danger_forbids_later_is_asked_again_with_its_reason(
    draft: Assessment, client: Client
) -> None:
    old = barrier(draft)
    choose(draft, old, "supply:soft_convex_deep")
    SkinFindingFactory(assessment=draft, kind="dilated_veins", hours=[3, 4])
    found = planned(draft)
    assert found.chosen == ()
    assert "soft_convex_deep" not in found.plan.supplies
    row = draft.decisions.get(key=old)
    if row.text == next((r.text for r in found.proposed.recommendations if r.key == old), ""):
        assert "varices" in found.refused[old]
    with pytest.raises(NotReadyError):
        sign(draft)


def test_what_is_not_offered_is_not_chosen(draft: Assessment) -> None:
    given: dict[str, Any] = {
        "decision__wear_interval__choice": "changed",
        "decision__wear_interval__instead": "day:6",
        "decision__wear_interval__reason": "It holds.",
    }
    page = save(draft, **given)
    assert page.all_errors["decision-wear_interval-instead"] == [
        "This cannot be chosen here any more: choose again."
    ]
    assert not draft.decisions.exists()
    assert page.live.planned is not None
    assert page.live.planned.chosen == ()


def test_a_note_drives_no_figure_and_is_marked_as_one(draft: Assessment) -> None:
    words = "every 2 days, but daily when it is hot"
    save(
        draft,
        decision__wear_interval__choice="changed",
        decision__wear_interval__instead="words",
        decision__wear_interval__changed_to=words,
        decision__wear_interval__reason="Hot flat.",
    )
    assert draft.decisions.get().chosen == "words"
    accept(draft)
    sign(draft)
    found = decided(draft)
    assert found.wear_decided is not None
    assert found.wear_decided.days is None
    assert supply_list(found).items[0].uncounted
    told = " ".join(texts(said(care_sheet(found, large=False), "en")))
    assert "Your nurse or doctor says: Every 2 days, but daily when it is hot." in told


def test_every_two_days_as_a_note_counts_nothing_either(draft: Assessment) -> None:
    save(
        draft,
        decision__wear_interval__choice="changed",
        decision__wear_interval__changed_to="every 2 days",
        decision__wear_interval__reason="Hot flat.",
    )
    assert draft.decisions.get().chosen == "words"
    wear = decided(draft).wear_decided
    assert wear is not None
    assert wear.days is None


def test_back_to_what_was_proposed(draft: Assessment) -> None:
    old = barrier(draft)
    choose(draft, old, "supply:soft_convex_shallow")
    assert planned(draft).chosen
    back: dict[str, Any] = {f"decision__{old}__choice": "accepted"}
    page = save(draft, **back)
    assert page.live.planned is not None
    assert page.live.planned.chosen == ()
    row = draft.decisions.get(key=old)
    assert (row.choice, row.chosen, row.changed_to) == (Choice.ACCEPTED, "", "")
    assert page.decisions is not None
    assert page.decisions.by_key[old].decided


def test_the_same_page_sent_again_changes_nothing(draft: Assessment) -> None:
    choose(draft, barrier(draft), "supply:soft_convex_shallow")
    version = reread(draft).visit.version
    save(draft)
    assert reread(draft).visit.version == version


# --- signed ------------------------------------------------------------------------------------
def test_signed_both_plans_are_kept_and_can_be_made_again(draft: Assessment) -> None:
    old = barrier(draft)
    choose(draft, old, "supply:soft_convex_shallow")
    accept(draft)
    chosen = planned(draft).chosen
    sign(draft)
    snapshot = PlanSnapshot.objects.get()
    findings = findings_from_dict(snapshot.findings)
    history = history_from_dict(snapshot.history)
    assert plan_to_dict(recommend(findings, history)) == snapshot.plan
    assert plan_to_dict(recommend(findings, history, chosen)) == snapshot.with_choices
    assert plan_from_dict(snapshot.decided).supplies != plan_from_dict(snapshot.plan).supplies
    supplies = course_of(draft.stoma).visits[-1].supplies
    assert "soft_convex_shallow" in supplies
    assert old not in supplies


def test_where_nothing_was_chosen_there_is_one_plan(draft: Assessment) -> None:
    accept(draft)
    sign(draft)
    assert PlanSnapshot.objects.get().with_choices is None


def test_the_next_plan_knows_what_was_chosen(draft: Assessment) -> None:
    choose(draft, barrier(draft), "supply:soft_convex_shallow")
    accept(draft)
    sign(draft)
    later = AssessmentFactory(
        well_fitting=True,
        stoma=draft.stoma,
        last_plan_helped=True,
        visit__happened_at=draft.visit.happened_at + timedelta(days=14),
    )
    history = draft_plan(reread(later)).history
    assert "soft_convex_shallow" in history.trials[-1].supplies


def test_a_signed_visit_says_what_was_chosen_and_why(draft: Assessment, client: Client) -> None:
    choose(draft, barrier(draft), "supply:soft_convex_shallow", "She asked for a dome.")
    accept(draft)
    sign(draft)
    client.force_login(draft.visit.clinician)
    page = client.get(reverse("charting:visit", args=[draft.visit.uuid])).content.decode()
    assert "Chosen</b> instead of: Flat, flexible" in page
    assert "Why: She asked for a dome." in page


# --- before anything is charted ----------------------------------------------------------------
def test_nothing_is_asked_before_anything_is_charted(client: Client) -> None:
    empty = AssessmentFactory()
    client.force_login(empty.visit.clinician)
    url = reverse("charting:chart", args=[empty.uuid])
    page = client.get(url).content.decode()
    assert "Nothing is charted yet." in page
    assert 'name="decision-' not in page
    assert "accept-rest" not in page
    empty.visit.note = "Came for supplies alone."
    empty.visit.save()
    assert 'name="decision-' in client.get(url).content.decode()


def test_old_decisions_in_words_are_kept_as_they_were(draft: Assessment) -> None:
    item = next(one for one in planned(draft).plan.recommendations if one.key == "wear_interval")
    Decision.objects.create(
        assessment=draft,
        key="wear_interval",
        text=item.text,
        choice=Choice.CHANGED,
        changed_to="every 2 days",
        reason="Known to suit",
    )
    accept(draft)
    sign(draft)
    found = decided(draft)
    assert found.wear_decided is not None
    assert found.wear_decided.days == 2
    told = " ".join(texts(said(care_sheet(found, large=False), "en")))
    assert "Every 2 days." in told
    assert "says: Every 2 days" not in told

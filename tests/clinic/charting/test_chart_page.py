"""The visit page over HTTP: with and without scripts, alone and with someone else."""

import json
from datetime import date, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from clinic.audit.models import AccessLog
from clinic.charting.page import open_page, save_page
from clinic.charting.plan_panel import panel_context
from clinic.plans.draft_plan import draft_plan
from clinic.plans.models import Decision, PlanSnapshot
from clinic.visits.actions.save import Turn
from clinic.visits.models import Assessment, BegunProduct, ColourPart, ConflictCopy
from tests.clinic.charting.conflict_posts import chosen
from tests.clinic.plans.signed_visits import accept, posted_page, reread
from tests.clinic.visits.posting import posted
from tests.factories.accounts import UserFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


def save(client: Client, assessment: Assessment, *, quiet: bool = False, **changes: Any) -> Any:
    data = posted_page(assessment, **changes)
    headers = {"X-Autosave": "1"} if quiet else {}
    return client.post(
        reverse("charting:save", args=[assessment.uuid]),
        data.urlencode(),
        content_type="application/x-www-form-urlencoded",
        headers=headers,
    )


def is_open(html: str, question: str) -> bool:
    """Whether the fields of a question are in sight."""
    fold = html.split(f'id="q-{question}"')[1].split("<details")[1]
    return fold.startswith(' class="fold" open')


@pytest.mark.parametrize("stoma", [{"kind": "urostomy"}, {"construction": "loop"}, {}])
def test_the_page_shows_every_field_of_the_model(client: Client, stoma: dict[str, str]) -> None:
    """Urine signs are asked of a urostomy, a rod and two heights of a loop, signs of dehydration of
    a child, whether the last plan helped where there was one; nothing else is ever left out."""
    found = AssessmentFactory(leaking=True, **{f"stoma__{k}": v for k, v in stoma.items()})
    client.force_login(found.visit.clinician)
    html = client.get(reverse("charting:chart", args=[found.uuid])).content.decode()
    missing = {name for name in posted(found) if f'name="{name}"' not in html}
    asked_elsewhere = {"person-child_signs", "person-child_others_absent"}
    # There was no plan yet.
    asked_elsewhere |= {"whole-last_plan_helped"}
    if stoma.get("kind") == "urostomy":
        asked_elsewhere |= {"person-blood_tests"}
        asked_elsewhere |= {"output-urine_ml_24h", "output-hours_without_urine"}
    else:
        asked_elsewhere |= {"output-urine_signs", "output-urine_looks", "output-urine_ph"}
        asked_elsewhere |= {"output-stents", "output-stent_out_early"}
    if stoma.get("construction") != "loop":
        asked_elsewhere |= {"stoma-working_mm", "stoma-working_hour", "stoma-resting_mm"}
        asked_elsewhere |= {"whole-rod_in_place"}
    assert missing == asked_elsewhere


def test_a_childs_signs_are_asked_of_a_child(client: Client) -> None:
    found = AssessmentFactory(
        stoma__patient__date_of_birth=date(2024, 6, 1), stoma__surgery_date=date(2024, 7, 1)
    )
    client.force_login(found.visit.clinician)
    html = client.get(reverse("charting:chart", args=[found.uuid])).content.decode()
    assert is_open(html, "child")
    assert 'name="person-child_signs"' in html


def test_a_fold_opens_where_something_in_it_is_wrong_and_says_what_is_charted(
    nurse: Client, assessment: Assessment
) -> None:
    page = reverse("charting:chart", args=[assessment.uuid])
    assert not is_open(nurse.get(page).content.decode(), "vital-signs")
    wrong = save(nurse, assessment, person__temperature_c="100").content.decode()
    assert is_open(wrong, "vital-signs")
    assert "At most 45" in wrong
    save(nurse, assessment, person__temperature_c="38.4")
    charted = nurse.get(page).content.decode()
    assert not is_open(charted, "vital-signs")
    assert "Temperature: 38.4 °C" in charted
    assert float(reread(assessment).person_today.temperature_c) == 38.4


def test_an_answer_opens_what_it_makes_matter(nurse: Client, assessment: Assessment) -> None:
    page = reverse("charting:chart", args=[assessment.uuid])
    assert not is_open(nurse.get(page).content.decode(), "vital-signs")
    save(nurse, assessment, output__symptoms=["fever"])
    assert is_open(nurse.get(page).content.decode(), "vital-signs")


def test_rows_behind_a_line_are_counted_in_it(nurse: Client, assessment: Assessment) -> None:
    page = reverse("charting:chart", args=[assessment.uuid])
    ColourPart.objects.create(assessment=assessment, colour="dusky", hours=[3])
    BegunProduct.objects.create(assessment=assessment, product="ring")
    html = nurse.get(page).content.decode()
    assert "1 part of another colour" in html
    assert "1 product started" in html


def test_what_is_charted_is_shown_though_its_fold_is_for_others(client: Client) -> None:
    """A stoma whose kind was corrected since: what was charted stays, in sight."""
    found = AssessmentFactory(leaking=True)
    found.output.stents = 2
    found.output.save()
    client.force_login(found.visit.clinician)
    html = client.get(reverse("charting:chart", args=[found.uuid])).content.decode()
    assert 'name="output-stents" value="2"' in html


def test_identity_and_the_plan_are_in_view(nurse: Client, assessment: Assessment) -> None:
    html = nurse.get(reverse("charting:chart", args=[assessment.uuid])).content.decode()
    patient = assessment.visit.patient
    for words in (patient.family_name, patient.record_number, "5 Apr 1961", "Why</summary>"):
        assert words in html


def test_the_quiet_answer_has_version_errors_and_plan(
    nurse: Client, assessment: Assessment
) -> None:
    answer = save(nurse, assessment, quiet=True, stoma__length_mm="44", output__pain_0_10="x")
    reply = json.loads(answer.content)
    assert reply["version"] == assessment.visit.version + 1
    assert reply["errors"]["output-pain_0_10"]
    assert reply["labels"]["output-pain_0_10"].startswith("Output and symptoms: Pain")
    assert "Plan" in reply["panel"]


def test_a_changed_day_counts_in_the_plan_that_comes_back(assessment: Assessment) -> None:
    """The visit is stored last, with its version; the plan is made before."""
    before = draft_plan(reread(assessment)).findings.stoma.days_since_surgery
    assert before is not None
    day = (assessment.visit.happened_at - timedelta(days=3)).strftime("%Y-%m-%dT%H:%M")
    stored = reread(assessment)
    data = posted_page(stored, visit__happened_at=day)
    turn = Turn(stored.visit.version, None, 0)
    page = save_page(stored, data=data, turn=turn, by=UserFactory())
    assert page.live.findings.stoma.days_since_surgery == before - 3
    assert page.assessment.visit.version == stored.visit.version + 1


def test_errors_come_back_beside_the_field_with_what_was_typed(
    nurse: Client, assessment: Assessment
) -> None:
    answer = save(nurse, assessment, output__volume_ml_24h="a lot")
    html = answer.content.decode()
    assert answer.status_code == 422
    assert 'value="a lot"' in html
    assert "Write a number, such as 25." in html
    assert 'href="#div_id_output-volume_ml_24h"' in html


def test_a_contradiction_found_by_the_planner_is_beside_its_field(
    nurse: Client, assessment: Assessment
) -> None:
    answer = save(nurse, assessment, stoma__prolapse="present", stoma__protrusion_mm="-5")
    html = answer.content.decode()
    assert answer.status_code == 422
    assert "field-error" in html


def test_adding_a_row_without_scripts(nurse: Client, assessment: Assessment) -> None:
    before = nurse.get(reverse("charting:chart", args=[assessment.uuid])).content.decode()
    after = save(nurse, assessment, press="add-finding").content.decode()
    assert after.count('name="finding-row"') == before.count('name="finding-row"') + 1


def test_the_second_save_is_led_to_both_versions(nurse: Client, assessment: Assessment) -> None:
    stale = posted(assessment, stoma__length_mm="41")
    save(nurse, assessment, stoma__length_mm="42")
    other = Client()
    other.force_login(UserFactory(role="nurse"))
    quiet = other.post(
        reverse("charting:save", args=[assessment.uuid]),
        stale.urlencode(),
        content_type="application/x-www-form-urlencoded",
        headers={"X-Autosave": "1"},
    )
    assert quiet.status_code == 409
    url = json.loads(quiet.content)["conflict"]
    page = other.get(url).content.decode()
    assert "41" in page
    assert "42" in page
    unchosen = other.post(url, chosen(page))
    assert unchosen.status_code == 422
    other.post(url, chosen(page, stoma__length_mm="mine"))
    assert float(reread(assessment).measurement.length_mm) == 41
    assert not ConflictCopy.objects.exists()


def test_choosing_what_is_stored_keeps_it(nurse: Client, assessment: Assessment) -> None:
    stale = posted(assessment, stoma__length_mm="41", visit__note="Mine alone")
    save(nurse, assessment, stoma__length_mm="42")
    other = Client()
    other.force_login(UserFactory(role="nurse"))
    url = reverse("charting:save", args=[assessment.uuid])
    shown = other.post(url, stale.urlencode(), "application/x-www-form-urlencoded", follow=True)
    assert "Mine alone" in shown.content.decode()
    other.post(
        shown.request["PATH_INFO"],
        chosen(shown.content.decode(), stoma__length_mm="theirs", visit__note="mine"),
    )
    stored = reread(assessment)
    assert float(stored.measurement.length_mm) == 42
    assert stored.visit.note == "Mine alone"


def test_accepting_the_rest_and_signing(nurse: Client, assessment: Assessment) -> None:
    refused = save(nurse, assessment, press="sign")
    assert refused.status_code == 422
    assert "Decide:" in refused.content.decode()
    save(nurse, assessment, press="accept-rest")
    answer = save(nurse, assessment, press="sign")
    assert answer.status_code == 302
    assert PlanSnapshot.objects.filter(assessment=assessment).exists()
    page = nurse.get(answer["Location"]).content.decode()
    assert "Signed by" in page
    assert "Accepted" in page


def test_what_was_not_before_their_eyes_is_not_accepted(
    nurse: Client, assessment: Assessment
) -> None:
    """The plan changes with the very press: its new words wait for a look."""
    answer = save(
        nurse,
        assessment,
        press="accept-rest",
        stoma__colour="black_brown_grey",
    )
    assert answer.status_code in {302, 422}
    decided = set(assessment.decisions.values_list("key", flat=True))
    flags = {f.key for f in draft_plan(reread(assessment)).plan.red_flags}  # type: ignore[union-attr]
    assert flags
    assert not {f"refer:{key}" for key in flags} & decided


def test_signing_asks_again_when_the_press_itself_changes_the_plan(
    nurse: Client, assessment: Assessment
) -> None:
    save(nurse, assessment, press="accept-rest")
    answer = save(nurse, assessment, press="sign", stoma__length_mm="44", stoma__width_mm="44")
    assert answer.status_code == 422
    assert not PlanSnapshot.objects.exists()


def test_an_emergency_counts_though_another_entry_is_wrong(
    nurse: Client, assessment: Assessment
) -> None:
    answer = save(
        nurse,
        assessment,
        quiet=True,
        stoma__length_mm="3O",
        stoma__colour="black_brown_grey",
    )
    reply = json.loads(answer.content)
    assert reply["errors"]["stoma-length_mm"]
    assert reply["urgency"] == "emergency"
    shown = nurse.get(reverse("charting:chart", args=[assessment.uuid])).content.decode()
    assert 'value="3O"' in shown


def test_what_is_typed_after_the_signature_is_kept_for_its_author(
    nurse: Client, assessment: Assessment
) -> None:
    stale = posted(assessment, visit__note="Also told me about a fall.")
    save(nurse, assessment, press="accept-rest")
    save(nurse, assessment, press="sign")
    url = reverse("charting:save", args=[assessment.uuid])
    page = nurse.post(url, stale.urlencode(), "application/x-www-form-urlencoded", follow=True)
    assert "Also told me about a fall." in page.content.decode()
    other = Client()
    other.force_login(UserFactory(role="nurse"))
    visit = reverse("charting:visit", args=[assessment.visit.uuid])
    assert "a fall" not in other.get(visit).content.decode()


def test_a_version_no_database_could_hold_is_no_error(
    nurse: Client, assessment: Assessment
) -> None:
    answer = save(nurse, assessment, version="99999999999", stoma__length_mm="30")
    assert answer.status_code == 302


def test_a_page_still_open_hears_that_the_visit_was_signed(
    nurse: Client, assessment: Assessment
) -> None:
    stale = posted(assessment, stoma__length_mm="41")
    save(nurse, assessment, press="accept-rest")
    save(nurse, assessment, press="sign")
    answer = nurse.post(
        reverse("charting:save", args=[assessment.uuid]),
        stale.urlencode(),
        content_type="application/x-www-form-urlencoded",
        headers={"X-Autosave": "1"},
    )
    assert answer.status_code == 409
    assert "signed" in json.loads(answer.content)["message"]


def test_opening_and_saving_are_on_record(nurse: Client, assessment: Assessment) -> None:
    nurse.get(reverse("charting:chart", args=[assessment.uuid]))
    save(nurse, assessment, stoma__length_mm="44")
    done = set(AccessLog.objects.values_list("action", flat=True))
    assert {"opened draft", "saved"} <= done
    assert not any("44" in row.detail for row in AccessLog.objects.all())


def test_the_live_plan_costs_at_most_eight_queries(assessment: Assessment) -> None:
    accept(assessment)
    stored = reread(assessment)
    with CaptureQueriesContext(
        connection,
    ) as queries:
        assert draft_plan(stored).plan is not None
    assert len(queries) <= 8


def test_saving_asks_the_database_only_about_what_changed(
    nurse: Client, assessment: Assessment
) -> None:
    def asked(**changes: str) -> int:
        with CaptureQueriesContext(connection) as queries:
            save(nurse, assessment, quiet=True, **changes)
        return sum('AS "_check"' in query["sql"] for query in queries.captured_queries)

    assert asked() == 0
    assert asked(stoma__length_mm="33") > 0


def test_the_page_costs_the_same_however_much_is_charted(
    nurse: Client, assessment: Assessment
) -> None:
    def cost() -> int:
        with CaptureQueriesContext(connection) as queries:
            nurse.get(reverse("charting:chart", args=[assessment.uuid]))
        return len(queries)

    cost()  # the first request also renews the session
    little = cost()
    for hour in range(1, 9):
        assessment.skin_findings.create(kind="erythema", hours=[hour])
    assert cost() == little


def test_what_is_dropped_leaves_technique_and_supplies_of_the_panel() -> None:
    assessment = AssessmentFactory(leaking=True)
    page = open_page(reread(assessment))
    assert page.live.plan is not None
    before = panel_context(page)
    carried = next(step for step in page.live.plan.steps if step.belongs_to)
    key = carried.belongs_to[0]
    accept(assessment)
    decision = Decision.objects.get(assessment=assessment, key=key)
    decision.choice, decision.reason = "dropped", "Not wanted."
    decision.save()
    after = panel_context(open_page(reread(assessment)))
    assert carried.text in [step["text"] for step in before["steps"]]
    assert carried.text not in [step["text"] for step in after["steps"]]
    assert key not in [one.supply_key for one in after["quantities"]]

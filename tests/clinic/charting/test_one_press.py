"""Several values by one press: each is explicit, none overwrites what is charted."""

from datetime import UTC, date, datetime
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.plans.draft_plan import draft_plan
from clinic.visits.models import Assessment, Confirmation
from tests.clinic.plans.signed_visits import accept, posted_page, reread, sign, signed
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory, CreaseFactory, WearEpisodeFactory

pytestmark = pytest.mark.django_db
LATER = datetime(2025, 5, 20, 10, 15, tzinfo=UTC)


def press(client: Client, assessment: Assessment, button: str, **changes: Any) -> Any:
    data = posted_page(assessment, press=button, **changes)
    url = reverse("charting:save", args=[assessment.uuid])
    return client.post(url, data.urlencode(), "application/x-www-form-urlencoded")


def next_visit(client: Client, last: Assessment) -> Assessment:
    """An empty draft of the same stoma two weeks later, its nurse signed in."""
    nurse = last.visit.clinician
    client.force_login(nurse)
    return AssessmentFactory(
        stoma=last.stoma,
        visit__patient=last.visit.patient,
        visit__clinician=nurse,
        visit__happened_at=LATER,
    )


def test_a_quick_answer_records_each_of_its_findings(client: Client) -> None:
    empty = AssessmentFactory()
    client.force_login(empty.visit.clinician)
    answer = press(client, empty, "quick-looks")
    assert answer["Location"].endswith("#q-looks")
    stoma = reread(empty).measurement
    found = (stoma.colour, stoma.turgor, stoma.oedema, stoma.bleeding, stoma.junction)
    assert found == ("pink_red", "moist_soft", "none", "none", "intact")
    assert stoma.prolapse == "none"
    assert stoma.lumen == ""
    assert stoma.deep_cut is None


def test_a_quick_answer_leaves_alone_what_was_found_otherwise(client: Client) -> None:
    empty = AssessmentFactory()
    client.force_login(empty.visit.clinician)
    press(client, empty, "quick-looks", stoma__colour="dusky")
    stoma = reread(empty).measurement
    assert (stoma.colour, stoma.turgor) == ("dusky", "")


def test_none_of_these_is_asked_and_absent(client: Client) -> None:
    empty = AssessmentFactory()
    client.force_login(empty.visit.clinician)
    press(client, empty, "quick-danger")
    output = reread(empty).output
    assert output.symptoms == []
    assert output.pouch_blood == "none"
    assert output.fluid_symptoms is None


def test_a_section_as_last_time_with_who_and_against_what(client: Client) -> None:
    last = signed(leaking=True)
    today = next_visit(client, last)
    answer = press(client, today, "as-last-system")
    assert answer["Location"].endswith("#system")
    stored = reread(today)
    assert stored.system.opening_length_mm == last.system.opening_length_mm
    assert stored.system.profile == last.system.profile
    # The used barrier's back is read at every visit.
    assert stored.system.leak_hours is None
    assert last.system.leak_hours
    confirmation = Confirmation.objects.get(assessment=today)
    assert confirmation.against == last
    assert confirmation.by == today.visit.clinician
    assert "system-profile" in confirmation.fields
    assert not hasattr(stored, "measurement")
    page = client.get(reverse("charting:chart", args=[today.uuid])).content.decode()
    assert "As on 6 May 2025: looked at by" in page


def test_rows_come_along_as_rows_of_today(client: Client) -> None:
    last = AssessmentFactory(leaking=True, abdomen__creases="present")
    CreaseFactory(assessment=last)
    accept(last)
    sign(last)
    today = next_visit(client, reread(last))
    press(client, today, "as-last-skin")
    press(client, today, "as-last-abdomen")
    stored = reread(today)
    was, now = last.skin_findings.get(), stored.skin_findings.get()
    assert (now.kind, now.hours, now.outer_mm) == (was.kind, was.hours, was.outer_mm)
    assert now.pk != was.pk
    assert now.days is None
    assert stored.crease_rows.get().hours == [3, 9]


def test_what_is_charted_today_stays(client: Client) -> None:
    today = next_visit(client, signed(leaking=True))
    press(client, today, "as-last-skin", skin__state="intact")
    stored = reread(today)
    assert stored.skin_assessment.state == "intact"
    assert not stored.skin_findings.exists()


def test_the_size_of_a_settled_stoma_is_confirmed_once_then_measured(client: Client) -> None:
    last = signed(leaking=True)
    today = next_visit(client, last)
    press(client, today, "as-last-stoma")
    assert reread(today).measurement.length_mm == last.measurement.length_mm
    press(client, today, "as-last-all")
    accept(today)
    sign(today)
    shown = client.get(reverse("charting:visit", args=[today.visit.uuid])).content.decode()
    assert shown.count("As on 6 May 2025: looked at by") >= 4
    again = AssessmentFactory(
        stoma=last.stoma,
        visit__patient=last.visit.patient,
        visit__clinician=last.visit.clinician,
        visit__happened_at=datetime(2025, 6, 20, tzinfo=UTC),
    )
    page = client.get(reverse("charting:chart", args=[again.uuid])).content.decode()
    assert "Measure size: it was not measured last time" in page
    press(client, again, "as-last-stoma")
    stored = reread(again).measurement
    assert stored.length_mm is None
    assert stored.colour


@pytest.mark.parametrize("surgery", [date(2025, 4, 10), None])
def test_a_stoma_that_may_still_shrink_is_measured(client: Client, surgery: date | None) -> None:
    last = signed(
        leaking=True, stoma__surgery_date=surgery, stoma__surgery_date_unknown=surgery is None
    )
    today = next_visit(client, last)
    page = client.get(reverse("charting:chart", args=[today.uuid])).content.decode()
    assert "Measure size: " in page
    press(client, today, "as-last-all")
    stored = reread(today).measurement
    assert stored.length_mm is None
    assert stored.protrusion_mm is None
    assert stored.colour == last.measurement.colour


def test_unpressed_is_unrecorded(client: Client) -> None:
    today = next_visit(client, signed(leaking=True))
    press(client, today, "save")
    stored = reread(today)
    assert not hasattr(stored, "system")
    assert not Confirmation.objects.exists()


def test_a_first_visit_has_nothing_to_confirm(client: Client) -> None:
    empty = AssessmentFactory()
    client.force_login(empty.visit.clinician)
    page = client.get(reverse("charting:chart", args=[empty.uuid])).content.decode()
    assert "As last time" not in page
    assert press(client, empty, "as-last-all").status_code == 302
    assert not Confirmation.objects.exists()


def test_by_telephone_nothing_is_seen(client: Client) -> None:
    today = next_visit(client, signed(leaking=True))
    press(client, today, "by-telephone", output__symptoms=["none"])
    stored = reread(today)
    assert stored.visit.held == "telephone"
    assert stored.not_looked_at == ["stoma", "skin", "abdomen"]
    live = draft_plan(stored)
    assert live.findings.remote is True
    assert live.plan is not None
    assert any("own eyes" in notice.text for notice in live.plan.notices)


@pytest.mark.parametrize(
    ("surgery", "offered"), [(date(2025, 5, 12), True), (date(2024, 5, 12), False)]
)
def test_on_the_ward_the_pouch_stays_on(client: Client, surgery: date, offered: bool) -> None:
    """What it covers is not looked at; the stoma is seen through it and charted."""
    stoma = StomaFactory(surgery_date=surgery)
    today = AssessmentFactory(stoma=stoma, visit__happened_at=LATER)
    client.force_login(today.visit.clinician)
    page = client.get(reverse("charting:chart", args=[today.uuid])).content.decode()
    assert ('value="on-the-ward"' in page) is offered
    press(client, today, "on-the-ward", stoma__colour="pink_red")
    stored = reread(today)
    assert stored.visit.held == "ward"
    assert set(stored.not_looked_at) == {"wear", "skin"}
    live = draft_plan(stored)
    assert live.findings.remote is False
    assert live.findings.skin is None


def test_what_is_charted_stays_open_on_the_telephone(client: Client) -> None:
    """A size that the person measured is not marked as not looked at."""
    today = next_visit(client, signed(leaking=True))
    press(client, today, "by-telephone", stoma__length_mm="30")
    stored = reread(today)
    assert stored.not_looked_at == ["skin", "abdomen"]
    assert stored.measurement.length_mm == 30


def still_worn(client: Client) -> Assessment:
    """The visit after one at which a barrier was put on."""
    last = AssessmentFactory(leaking=True)
    last.wear_rows.all().delete()
    WearEpisodeFactory(assessment=last, off=None, reason="")
    accept(last)
    sign(last)
    return next_visit(client, reread(last))


def test_the_barrier_that_was_on_is_closed_by_its_reason(client: Client) -> None:
    today = still_worn(client)
    url = reverse("charting:chart", args=[today.uuid])
    assert "On since 2 May 2025" in client.get(url).content.decode()
    press(client, today, "came-off-leak")
    row = today.wear_rows.get()
    assert (row.on, row.off, row.reason) == (date(2025, 5, 2), date(2025, 5, 20), "leak")
    assert "On since 2 May 2025" not in client.get(url).content.decode()
    press(client, today, "came-off-leak")
    assert today.wear_rows.count() == 1


def test_another_day_asks_for_it(client: Client) -> None:
    today = still_worn(client)
    press(client, today, "came-off-another-day")
    row = today.wear_rows.get()
    assert (row.on, row.off) == (date(2025, 5, 2), None)

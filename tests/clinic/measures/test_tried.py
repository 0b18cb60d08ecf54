"""What was tried for which need, and what came of it."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from datetime import date, timedelta
from io import StringIO
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from clinic.measures import tried
from clinic.measures.group import Group
from clinic.measures.measure_types import Line
from clinic.measures.period import Period
from clinic.measures.tried import Tally, before_record, by_need
from clinic.patients.models import Patient, Stoma
from clinic.plans.tried_by_need import Trial
from clinic.trends.tried import tried_of
from clinic.trials.choices import Outcome, Supply
from clinic.visits.models import WornBarrier
from tests.clinic.measures.clinic_builders import lead
from tests.clinic.trends.seen_stomas import seen
from tests.factories.patients import StomaFactory
from tests.factories.trials import EarlierTrialFactory

pytestmark = pytest.mark.django_db

YEAR, TODAY = Period(date(2025, 1, 1), date(2025, 12, 31)), date(2026, 1, 10)
ASKED = {"since": "Jan 2025", "until": "Dec 2025"}
PAGE, FILE, PEOPLE = (reverse(f"measures:{name}") for name in ("tried", "tried_csv", "people"))
LOW = "lift_rim soft_convex_moderate"


@pytest.fixture
def signed_in(client: Client) -> Client:
    client.force_login(lead())
    return client


def tally(**said: int | list[int]) -> Tally:
    """So many stomas a verdict, or these stomas."""
    found, last = Tally(), 0
    for verdict, stomas in said.items():
        for one in range(last, last + stomas) if isinstance(stomas, int) else stomas:
            found.add(verdict, one)
            last = one + 1
    return found


def line(found: Mapping[str, Tally]) -> Line:
    (one,) = by_need(found).lines
    return one


def test_not_shown_yet_is_in_no_share() -> None:
    """9 of the 14 with an answer. Clopper and Pearson, by SciPy's ``binomtest(9, 14)``: 35.1 to
    87.2 %."""
    found = line({LOW: tally(helped=9, no_different=5, cannot_tell=20)})
    assert found.about == (
        "Press the skin back round a stoma that is too low: soft convex barrier, moderate"
    )
    assert found.counts == ("34", "14", "9", "5", "0", "20")
    assert found.figures[0].words == "64.3 (35.1 to 87.2)"
    nothing_said = line({LOW: tally(cannot_tell=20)})
    assert nothing_said.figures[0].words == "none yet"


def test_small_numbers_are_those_of_stomas_not_of_trials() -> None:
    found = line({LOW: tally(helped=[1, 1, 1, 2, 2, 2], no_different=[3, 4, 5, 6, 7])})
    assert set(found.counts) == {"not shown"}
    assert found.figures[0].words == "not shown"
    assert found.inside == ("11", "11", "6", "5", "0", "0", "54.5 (23.4 to 83.3)")


def test_what_is_tried_most_comes_first() -> None:
    found = by_need({LOW: tally(helped=5), "seal_edge ring": tally(helped=6)})
    assert [one.counts[0] for one in found.lines] == ["6", "5"]


def test_before_this_record_what_is_not_known_is_in_no_share() -> None:
    for outcome, many in ((Outcome.HELPED, 5), (Outcome.PARTLY, 5), (Outcome.UNKNOWN, 6)):
        for _ in range(many):
            EarlierTrialFactory(
                outcome=outcome, profile="convex", feel="soft", supplies=[Supply.RING]
            )
    found = before_record(tried.tried(YEAR, TODAY).earlier)
    assert [one.about for one in found.lines] == ["Convex barrier, soft or flexible", "Ring"]
    for one in found.lines:
        assert one.counts == ("16", "10", "5", "5", "0", "0", "6")
        assert one.figures[0].words == "50.0 (18.7 to 81.3)"


@pytest.fixture
def stoma() -> Stoma:
    made: Stoma = StomaFactory()
    seen(made, 3)
    return made


def test_the_verdict_is_that_of_the_page_of_the_stoma(stoma: Stoma) -> None:
    found = tried.tried(YEAR, TODAY)
    assert found.plans is not None
    said = {verdict for one in found.plans.values() for verdict in one.stomas}
    judged = {row.verdict.key for row in tried_of(stoma).rows if row.what != "Nothing new"}
    assert said
    assert said <= judged
    assert {pk for one in found.plans.values() for v in one.stomas.values() for pk in v} == {
        stoma.pk
    }


def test_only_plans_of_these_months_and_of_the_group(stoma: Stoma) -> None:
    later = Period(date(2025, 8, 1), date(2025, 12, 31))
    assert tried.tried(later, TODAY).plans == {}
    other = "urostomy" if stoma.kind != "urostomy" else "ileostomy"
    assert tried.tried(YEAR, TODAY, Group(stoma=other)).plans == {}
    assert tried.tried(YEAR, TODAY, Group(stoma=stoma.kind)).plans


def test_page_list_and_file(signed_in: Client, stoma: Stoma) -> None:
    answer = signed_in.get(PAGE, ASKED)
    assert "The planner does not change from these figures." in answer.content.decode()
    cells = [cell for m in answer.context["measures"] for row in m.rows for cell in row.cells]
    lists = [cell for cell in cells if cell.list]
    assert lists
    for cell in lists:
        there = signed_in.get(f"{PEOPLE}?{cell.list}&since=Jan+2025&until=Dec+2025")
        assert [one.patient for one in there.context["found"].people] == [stoma.patient]
    text = signed_in.get(FILE, ASKED).content.decode("utf-8-sig")
    rows = list(csv.DictReader(StringIO(text)))
    assert {row["value"] for row in rows} == {"not shown"}
    patient: Patient = stoma.patient
    assert patient.record_number not in text
    # Of a part of the stomas there is no file: it would give away small numbers of the rest.
    group = {**ASKED, "stoma": stoma.kind}
    assert signed_in.get(FILE, group).status_code == 302
    assert FILE not in signed_in.get(PAGE, group).content.decode()
    assert signed_in.get(f"{PEOPLE}?of=tried&kind=x&which=helped").status_code == 404


def test_so_many_at_once_and_what_is_judged_is_kept(
    signed_in: Client, stoma: Stoma, monkeypatch: pytest.MonkeyPatch
) -> None:
    seen(StomaFactory(), 1)
    monkeypatch.setattr(tried, "AT_ONCE", 1)
    page = signed_in.get(PAGE, ASKED)
    assert "Judged so far: 1 of 2 stomas." in page.content.decode()
    assert FILE not in page.content.decode()
    # A list is of those that the page counts; the file waits for all of them.
    again = tried.tried(YEAR, timezone.localdate(), go_on=False)
    assert (again.judged, again.stomas, again.whole) == (1, 2, False)
    assert signed_in.get(FILE, ASKED).status_code == 200  # it judged the second
    assert "Judged so far" not in signed_in.get(PAGE, ASKED).content.decode()


def test_what_changed_on_record_is_judged_again(
    stoma: Stoma, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked_for: list[list[int]] = []
    real = tried.trials_of

    def noted(stomas: list[int], *more: Any) -> list[Trial]:
        asked_for.append(list(stomas))
        return real(stomas, *more)

    monkeypatch.setattr(tried, "trials_of", noted)
    first = tried.tried(YEAR, TODAY)
    assert tried.tried(YEAR, TODAY).plans == first.plans
    assert asked_for == [[stoma.pk], []]
    # Of another day it is judged again; so it is where the wear log was added to.
    tried.tried(YEAR, TODAY + timedelta(1))
    WornBarrier.objects.create(stoma=stoma, on=date(2025, 9, 1), entered_by=lead())
    tried.tried(YEAR, TODAY)
    assert asked_for[2:] == [[stoma.pk], [stoma.pk]]


def test_as_many_queries_for_one_stoma_as_for_four(signed_in: Client, stoma: Stoma) -> None:
    def asked() -> int:
        with CaptureQueriesContext(connection) as queries:
            assert signed_in.get(PAGE, ASKED).status_code == 200
        return len(queries)

    few = asked()
    for _ in range(3):
        seen(StomaFactory(), 2)
        EarlierTrialFactory()
    assert asked() == few

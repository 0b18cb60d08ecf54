"""Trials from before this record: typed in, dated as far as known, corrected, removed, planned
with."""

from datetime import timedelta
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse

from clinic.audit.models import AccessLog
from clinic.documents.letter.treatment_history import course_of
from clinic.plans.bridge import history_of
from clinic.trends.tried import tried_of
from clinic.trials.choices import Outcome, Supply
from clinic.trials.forms import EarlierTrialForm
from clinic.trials.models import EarlierTrial
from clinic.trials.queries import earlier_trials_of
from planning.inputs.findings import Trial
from planning.supplies.catalogue import SUPPLIES
from planning.supplies.earlier_trials import EarlierOutcome
from tests.clinic.plans.signed_visits import signed
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory
from tests.factories.trials import EarlierTrialFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory

pytestmark = pytest.mark.django_db

TYPED: dict[str, Any] = {
    "profile": "convex",
    "feel": "soft",
    "depth": "",
    "supplies": ["ring"],
    "size": "opening 35 mm",
    "technique": "",
    "began": "2024",
    "ended": "Jan 2025",
    "outcome": "no_help",
    "ended_because": "leaked within a day",
    "known_from": "letter",
}


def test_the_words_are_the_planners() -> None:
    """A supply that can be typed in is one of the catalogue, and every outcome is known to it."""
    assert set(Supply.values) <= set(SUPPLIES)
    assert set(Outcome.values) == {one.value for one in EarlierOutcome}


def test_typed_in_once_though_sent_twice(client: Client) -> None:
    stoma, nurse = StomaFactory(), UserFactory()
    client.force_login(nurse)
    url = reverse("trials:add", args=[stoma.uuid])
    sent = {**TYPED, "once": str(uuid4())}
    for _ in range(2):
        answer = client.post(url, sent)
        assert answer.status_code == 302, answer.content.decode()
        assert answer.headers["Location"] == reverse("trends:tried", args=[stoma.uuid])
    row = EarlierTrial.objects.get()
    assert (row.began, row.ended, row.supplies) == ("2024", "2025-01", ["ring"])
    assert (row.depth, row.recorded_by) == ("", nurse)
    assert AccessLog.objects.filter(action="added", subject_uuid=row.uuid).count() == 1


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"profile": "", "feel": "", "supplies": [], "size": ""}, "supplies"),
        ({"profile": "flat", "depth": "deep"}, "depth"),
        ({"profile": "", "feel": "soft"}, "feel"),
        ({"outcome": ""}, "outcome"),
        ({"known_from": ""}, "known_from"),
        ({"outcome": "harmed"}, "outcome"),
        ({"outcome": "harmed", "profile": "", "feel": ""}, None),
        ({"began": "spring"}, "began"),
        ({"began": "2099"}, "began"),
        # The stoma of the factories was made on 14 March 2024.
        ({"began": "Feb 2024"}, "began"),
        ({"began": "Mar 2024"}, None),
        ({"began": "", "ended": ""}, None),
        ({"began": "Feb 2025", "ended": "Jan 2025"}, "ended"),
        ({"began": "Jan 2025", "ended": "2025"}, None),
        # The first visit on record was on 6 May 2025.
        ({"ended": "May 2025"}, None),
        ({"ended": "7 May 2025"}, "ended"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(
    changed: dict[str, Any], field: str | None
) -> None:
    stoma = signed().stoma
    form = EarlierTrialForm({**TYPED, **changed}, instance=EarlierTrial(stoma=stoma))
    assert list(form.errors) == ([] if field is None else [field])


@pytest.mark.parametrize(
    "wrong",
    [
        {"supplies": []},
        {"supplies": ["glue"]},
        {"depth": "deep"},
        {"feel": "soft"},
        {"began": "14 Mar 2021"},
        {"outcome": ""},
    ],
)
def test_the_database_refuses_it_too(wrong: dict[str, Any]) -> None:
    with pytest.raises((DatabaseError, ValidationError)), transaction.atomic():
        EarlierTrialFactory(**wrong)


@pytest.mark.parametrize(
    ("dates", "words"),
    [
        (("", ""), "when is not known"),
        (("2019", ""), "from 2019 (end not known)"),
        (("", "2021-03"), "until Mar 2021 (start not known)"),
        (("2019", "2021-03-14"), "2019 to 14 Mar 2021"),
    ],
)
def test_a_date_is_shown_as_far_as_it_is_known(dates: tuple[str, str], words: str) -> None:
    began, ended = dates
    assert EarlierTrial(began=began, ended=ended).when_words == words


def test_corrected_and_removed_leave_a_history(client: Client) -> None:
    row = EarlierTrialFactory()
    client.force_login(UserFactory(first_name="Ada", last_name="Marlowe-Test"))
    url = reverse("trials:correct", args=[row.uuid])
    page = client.get(url)
    seen = page.context["form"].fields["seen"].initial
    assert client.post(url, {**TYPED, "seen": seen}).status_code == 302
    row.refresh_from_db()
    assert row.ended == "2025-01"
    logged = AccessLog.objects.get(action="corrected", subject_uuid=row.uuid)
    assert "ended" in logged.detail
    assert "leaked" not in logged.detail
    assert client.post(reverse("trials:remove", args=[row.uuid]), {}).status_code == 200
    client.post(reverse("trials:remove", args=[row.uuid]), {"why": "mistake"})
    assert not EarlierTrial.objects.exists()
    shown = client.get(reverse("trends:tried", args=[row.stoma.uuid])).content.decode()
    assert "Corrected to: Convex barrier, soft or flexible, depth not known; ring" in shown
    assert "Removed:" in shown
    assert "Ada Marlowe-Test" in shown


def test_the_oldest_comes_first_and_what_has_no_date_before_it() -> None:
    stoma = StomaFactory()
    dates = [("2025-02", ""), ("", ""), ("2024", "2024-12-31"), ("", "2024-11")]
    rows = [EarlierTrialFactory(stoma=stoma, began=b, ended=e) for b, e in dates]
    EarlierTrialFactory()
    assert earlier_trials_of(stoma.pk) == [rows[1], rows[3], rows[2], rows[0]]


def test_the_planner_reads_them_before_its_own_plans() -> None:
    first = signed()
    EarlierTrialFactory(stoma=first.stoma, profile="convex", supplies=["belt"])
    EarlierTrialFactory(stoma=first.stoma, supplies=["paste"], outcome="harmed", began="2025")
    now = AssessmentFactory(
        leaking=True, stoma=first.stoma, visit__happened_at=HAPPENED_AT + timedelta(30)
    )
    trials = history_of(now).trials
    assert [trial.before_record for trial in trials] == [True, True, False]
    assert trials[0] == Trial(
        frozenset({"belt", "soft_convex_shallow"}), helped=False, before_record=True
    )
    assert trials[1].hurt == {"paste"}


def test_one_list_of_what_was_tried_the_newest_first() -> None:
    assessment = signed()
    EarlierTrialFactory(stoma=assessment.stoma, ended="2025-01", ended_because="Leaked at once")
    rows = tried_of(assessment.stoma).rows
    assert [row.visit for row in rows] == [assessment.visit.uuid, None]
    assert (rows[1].what, rows[1].ended) == ("Ring", "Leaked at once")
    assert rows[1].verdict.word == "Did not help"
    assert "From: the patient or carer" in rows[1].source


def test_the_letter_says_them_after_the_plans() -> None:
    assessment = signed()
    EarlierTrialFactory(stoma=assessment.stoma, ended="2025-01", ended_because="Leaked at once")
    tried = course_of(assessment).tried
    assert len(tried) == 2
    assert tried[1].when == "Before this record, until Jan 2025 (start not known)"
    assert tried[1].how == "Did not help. Ended: Leaked at once (from: the patient or carer)"

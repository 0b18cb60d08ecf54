"""Teaching: recorded as pressed, kept, withdrawn; what is missing, what a sheet explains."""

from datetime import date
from typing import Any
from uuid import uuid4

import pytest
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.audit.models import AccessLog
from clinic.patients.models import Stoma
from clinic.teaching.choices import GOING_HOME, ON_THE_SHEET, Item, Learner, Level
from clinic.teaching.forms import TeachingForm
from clinic.teaching.missing import missing_on_sheet, teaching_of
from clinic.teaching.models import TaughtPoint
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory
from tests.factories.teaching import TaughtPointFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db

CARER = {"learner": Learner.CARER, "learner_name": "Ana, his wife"}
TYPED: dict[str, Any] = {
    "learner": "patient",
    "when": "today",
    "by": "me",
    "level_empty": "4",
    "back_empty": "showed",
    "level_put_on": "2",
    "words_put_on": "Warm it first",
}


def missing(stoma: Stoma) -> dict[Item, str]:
    return {point.item: point.missing_words for point in teaching_of(stoma).missing}


def test_nothing_is_filled_in_beforehand(client: Client) -> None:
    client.force_login(UserFactory())
    page = client.get(reverse("teaching:add", args=[StomaFactory().uuid])).content.decode()
    checked = [part for part in page.split("<input")[1:] if " checked" in part.partition(">")[0]]
    assert all('value=""' in one for one in checked)
    assert len(checked) == len(Item)


def test_only_what_was_pressed_is_recorded_and_only_once(client: Client) -> None:
    stoma, nurse = StomaFactory(), UserFactory()
    client.force_login(nurse)
    sent = {**TYPED, "once": str(uuid4())}
    for _ in range(2):
        answer = client.post(reverse("teaching:add", args=[stoma.uuid]), sent)
        assert answer.status_code == 302, answer.content.decode()
    rows = {row.item: row for row in TaughtPoint.objects.all()}
    assert set(rows) == {"empty", "put_on"}
    assert (rows["empty"].level, rows["empty"].teach_back) == (Level.ALONE, "showed")
    assert (rows["put_on"].words, rows["put_on"].teach_back) == ("Warm it first", "")
    assert rows["empty"].on == timezone.localdate()
    assert (rows["empty"].who_taught, rows["empty"].visit) == (nurse.display_name, None)
    assert AccessLog.objects.filter(action="recorded teaching").count() == 1


def test_at_a_visit_it_has_the_visits_day(client: Client) -> None:
    one = AssessmentFactory()
    client.force_login(UserFactory())
    url = reverse("teaching:add_at_visit", args=[one.stoma.uuid, one.visit.uuid])
    assert client.post(url, TYPED).status_code == 302
    row = TaughtPoint.objects.filter(item="empty").get()
    assert (row.visit, row.on) == (one.visit, date(2025, 5, 6))
    other = reverse("teaching:add_at_visit", args=[StomaFactory().uuid, one.visit.uuid])
    assert client.get(other).status_code == 404


@pytest.mark.parametrize(
    ("changed", "field"),
    [
        ({"learner": ""}, "learner"),
        ({"when": ""}, "when"),
        ({"by": ""}, "by"),
        ({"learner": "carer"}, "learner_name"),
        ({"learner_name": "Ana"}, "learner_name"),
        ({"learner": "carer", "learner_name": "Ana"}, None),
        ({"when": "other"}, "day"),
        ({"when": "other", "day": "1 Jan 2099"}, "day"),
        ({"when": "other", "day": "1 Jan 1950"}, "day"),
        ({"when": "other", "day": "1 May 2025"}, None),
        ({"day": "1 May 2025"}, "day"),
        ({"by": "someone"}, "taught_by"),
        ({"taught_by": "Ward nurse"}, "taught_by"),
        ({"by": "someone", "taught_by": "Ward nurse"}, None),
        ({"level_put_on": ""}, "level_put_on"),
        ({"level_put_on": "7"}, "level_put_on"),
        ({"level_empty": "", "back_empty": "said"}, "level_empty"),
        ({"learner": "carer", "learner_name": "Ana", "level_empty": "9"}, "level_empty"),
        ({"level_empty": "", "back_empty": "", "level_put_on": "", "words_put_on": ""}, "__all__"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(
    changed: dict[str, Any], field: str | None
) -> None:
    stoma = StomaFactory()
    form = TeachingForm({**TYPED, **changed}, stoma=stoma, teaching=teaching_of(stoma))
    assert list(form.errors) == ([] if field is None else [field])


@pytest.mark.parametrize(
    ("levels", "words"),
    [
        ((), "not recorded"),
        ((Level.NOT_SHOWN,), "not shown"),
        ((Level.SHOWN,), "shown"),
        ((Level.WITH_HELP,), "with help"),
        # From here on it is no longer missing.
        ((Level.ALONE_WITH_WORDS,), None),
        ((Level.ALONE,), None),
        ((Level.NOT_APPLICABLE,), None),
        # The newest entry counts, also where it is a step back.
        ((Level.ALONE, Level.WITH_HELP), "with help"),
        ((Level.NOT_APPLICABLE, Level.SHOWN), "shown"),
        ((Level.CARER_DOES,), "the carer does it, teaching not recorded"),
    ],
)
def test_what_is_missing(levels: tuple[Level, ...], words: str | None) -> None:
    stoma = StomaFactory()
    for day, level in enumerate(levels, start=1):
        TaughtPointFactory(stoma=stoma, level=level, on=date(2025, 5, day))
    assert missing(stoma).get(Item.EMPTY) == words


def test_a_carer_who_does_it_alone_is_enough() -> None:
    stoma = StomaFactory()
    TaughtPointFactory(stoma=stoma, level=Level.CARER_DOES)
    TaughtPointFactory(stoma=stoma, level=Level.SHOWN, **CARER)
    assert missing(stoma)[Item.EMPTY] == "shown"
    TaughtPointFactory(stoma=stoma, level=Level.ALONE, **CARER)
    assert Item.EMPTY not in missing(stoma)


def test_what_is_missing_before_going_home() -> None:
    stoma = StomaFactory()
    before = teaching_of(stoma).before_home
    assert tuple(point.item for point in before) == GOING_HOME
    for item in GOING_HOME:
        TaughtPointFactory(stoma=stoma, item=item, level=Level.ALONE_WITH_WORDS)
    assert teaching_of(stoma).before_home == ()
    assert teaching_of(stoma).missing


def test_a_shorter_sheet_will_do_once_every_step_is_done_alone() -> None:
    stoma = StomaFactory()
    for item in ON_THE_SHEET:
        assert missing_on_sheet(stoma)
        level = Level.NOT_APPLICABLE if item is Item.CUT else Level.ALONE
        TaughtPointFactory(stoma=stoma, item=item, level=level)
    assert missing_on_sheet(stoma) == ()
    TaughtPointFactory(stoma=stoma, level=Level.ALONE_WITH_WORDS, on=date(2025, 6, 1))
    assert missing_on_sheet(stoma) == ("Empty the pouch: alone, with prompting",)


def test_a_withdrawn_entry_stays_and_no_longer_counts(client: Client) -> None:
    one = TaughtPointFactory()
    client.force_login(nurse := UserFactory())
    url = reverse("teaching:withdraw", args=[one.uuid])
    assert client.post(url, {}).status_code == 200
    assert client.post(url, {"why": "mistake"}).status_code == 302
    assert client.post(url, {"why": "mistake"}).status_code == 404
    assert missing(one.stoma)[Item.EMPTY] == "not recorded"
    page = client.get(reverse("teaching:show", args=[one.stoma.uuid])).content.decode()
    assert f"(recorded by mistake) by {nurse.display_name}" in page
    assert AccessLog.objects.filter(action="withdrew", subject_uuid=one.uuid).count() == 1


@pytest.mark.parametrize(
    "wrong", [{"level": 7}, {"item": "dance"}, {"learner": "carer"}, {"learner_name": "Ana"}]
)
def test_the_database_refuses_it_too(wrong: dict[str, Any]) -> None:
    with pytest.raises(DatabaseError), transaction.atomic():
        TaughtPointFactory(**wrong)


def test_an_entry_never_changes() -> None:
    one = TaughtPointFactory()
    with pytest.raises(DatabaseError), transaction.atomic():
        TaughtPoint.objects.update(level=Level.SHOWN)
    with pytest.raises(DatabaseError), transaction.atomic():
        one.delete()


def test_the_record_and_the_visit_page_say_what_is_missing(client: Client) -> None:
    one = AssessmentFactory(leaking=True)
    TaughtPointFactory(stoma=one.stoma, level=Level.WITH_HELP)
    client.force_login(UserFactory())
    for url in (
        reverse("patients:record", args=[one.visit.patient.uuid]),
        reverse("charting:chart", args=[one.uuid]),
    ):
        page = client.get(url).content.decode()
        assert "16 of 16 points" in page
        assert "empty the pouch" in page

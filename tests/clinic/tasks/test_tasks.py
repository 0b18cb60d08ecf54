"""Tasks: for a person and a day, to me or to all; done once however often it is pressed."""

from datetime import date, timedelta
from typing import Any
from uuid import uuid4

import pytest
from django.apps import apps
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.patients.models import Patient
from clinic.tasks import actions
from clinic.tasks.models import OTHER_NEEDS_WORDS, Task, TaskKind
from clinic.tasks.presenters import AT_MOST
from clinic.tasks.views import CHANGED_BEFORE
from tests.factories.accounts import UserFactory
from tests.factories.clinic_details import HolidayFactory
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.tasks import TaskFactory

pytestmark = pytest.mark.django_db
TODAY = timezone.localdate


@pytest.fixture
def nurse() -> User:
    return UserFactory(role=Role.NURSE, first_name="Fern", last_name="Larkspur")


@pytest.fixture
def page(client: Client, nurse: User) -> Client:
    client.force_login(nurse)
    return client


def typed(**changes: Any) -> dict[str, Any]:
    day = TODAY() + timedelta(days=3)
    return {
        "once": str(uuid4()),
        "kind": "supplies",
        "words": "2 boxes of rings",
        "day": day.isoformat(),
        "for_whom": "all",
        **changes,
    }


def add(page: Client, patient: Patient, data: dict[str, Any]) -> Any:
    return page.post(reverse("tasks:add", args=[patient.uuid]), data)


def record_of(patient: Patient) -> str:
    return reverse("patients:record", args=[patient.uuid])


def press(page: Client, what: str, task: Task, version: int, **more: str) -> Any:
    address = reverse(f"tasks:{what}", args=[task.uuid])
    return page.post(address, {"version": version, **more}, follow=True)


def test_a_task_is_shown_on_the_record_and_on_its_day(page: Client) -> None:
    stoma = StomaFactory()
    add(page, stoma.patient, typed(stoma=str(stoma.uuid)))
    task = Task.objects.get()
    assert (task.stoma, task.for_whom, task.is_open) == (stoma, None, True)
    on_record = page.get(record_of(stoma.patient)).content.decode()
    on_day = page.get("/", {"day": task.day.isoformat()}).content.decode()
    for shown in (on_record, on_day):
        assert "Ordered supplies: 2 boxes of rings" in shown
        assert "For all, from Fern Larkspur" in shown
    assert stoma.patient.list_name in on_day
    assert "2 boxes" not in page.get("/").content.decode()
    said = AccessLog.objects.get(action="added task")
    assert (said.detail, said.patient_uuid) == ("supplies", stoma.patient.uuid)


def test_a_page_sent_twice_makes_one(page: Client) -> None:
    patient, data = PatientFactory(), typed()
    for _ in range(2):
        assert add(page, patient, data).status_code == 302
    assert Task.objects.count() == 1
    assert AccessLog.objects.filter(action="added task").count() == 1


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"kind": ""}, "kind", "Choose what it is about."),
        ({"kind": "other", "words": " "}, "words", OTHER_NEEDS_WORDS),
        ({"day": ""}, "day", "Give the date."),
        ({"for_whom": ""}, "for_whom", "Choose who is reminded."),
    ],
)
def test_what_is_missing_is_said_beside_its_field(
    page: Client, changes: dict[str, str], field: str, words: str
) -> None:
    patient = PatientFactory()
    form = add(page, patient, typed(**changes)).context["form"]
    assert form.errors == {field: [words]}
    assert not Task.objects.exists()


def test_nothing_is_chosen_beforehand(page: Client) -> None:
    form = page.get(reverse("tasks:add", args=[StomaFactory().patient.uuid])).context["form"]
    names = ("kind", "words", "day", "for_whom", "stoma")
    assert {form[name].value() for name in names} <= {None, ""}


def test_what_is_for_me_is_on_my_day_and_on_everybodys_record(page: Client, nurse: User) -> None:
    patient = PatientFactory()
    add(page, patient, typed(for_whom="me"))
    task = Task.objects.get()
    assert task.for_whom == nurse
    assert "For you" in page.get("/", {"day": task.day.isoformat()}).content.decode()
    page.force_login(UserFactory(role=Role.SURGEON))
    assert "rings" not in page.get("/", {"day": task.day.isoformat()}).content.decode()
    assert "For Fern Larkspur" in page.get(record_of(patient)).content.decode()


def test_today_holds_what_is_overdue_too(page: Client) -> None:
    TaskFactory(words="Late call", day=TODAY() - timedelta(days=2))
    today = page.get("/").content.decode()
    assert "Late call" in today
    assert "2 days overdue" in today
    tomorrow = {"day": (TODAY() + timedelta(days=1)).isoformat()}
    assert "Late call" not in page.get("/", tomorrow).content.decode()


def test_done_by_and_when_and_not_done_after_all(page: Client, nurse: User) -> None:
    task = TaskFactory(day=TODAY())
    shown = press(page, "done", task, 0, day=TODAY().isoformat()).content.decode()
    assert "Done by Fern Larkspur" in shown
    task.refresh_from_db()
    assert (task.done_by, task.version, task.is_open) == (nurse, 1, False)
    press(page, "not_done", task, 1)
    task.refresh_from_db()
    assert (task.done_by, task.done_at, task.version) == (None, None, 2)
    events = apps.get_model("tasks", "TaskEvent")._default_manager.order_by("pgh_id")
    assert [event.done_by_id for event in events] == [None, nurse.pk, None]
    written = AccessLog.objects.filter(patient_uuid=task.patient.uuid).order_by("id")
    assert [row.action for row in written if "task" in row.action] == [
        "did task",
        "opened task again",
    ]


def test_a_double_press_is_one_and_an_old_page_changes_nothing(page: Client) -> None:
    task = TaskFactory(day=TODAY())
    press(page, "done", task, 0)
    assert CHANGED_BEFORE not in press(page, "done", task, 0).content.decode()
    assert Task.objects.get().version == 1
    press(page, "not_done", task, 1)
    # The first page once again, after somebody has said that it is not done.
    assert CHANGED_BEFORE in press(page, "done", task, 0).content.decode()
    assert Task.objects.get().is_open
    for version in ("", "-3", "nonsense"):
        assert CHANGED_BEFORE in press(page, "done", task, version).content.decode()  # type: ignore[arg-type]


def test_pressed_where_nothing_is_left_to_do(nurse: User) -> None:
    task = TaskFactory()
    assert actions.mark_open(task=task, version=0, by=nurse).version == 0


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": "gardening"},
        {"kind": TaskKind.OTHER},
        {"done_at": timezone.now()},
        {"done_at": "2024-01-01T00:00Z", "done_by": None},
    ],
)
def test_the_database_holds_the_rules(changes: dict[str, Any]) -> None:
    with pytest.raises(DatabaseError), transaction.atomic():
        TaskFactory(**changes)


def test_a_task_keeps_to_its_patient_and_is_never_removed() -> None:
    with pytest.raises(DatabaseError), transaction.atomic():
        TaskFactory(stoma=StomaFactory())
    task = TaskFactory()
    with pytest.raises(DatabaseError), transaction.atomic():
        Task.objects.filter(pk=task.pk).update(patient=PatientFactory())
    with pytest.raises(DatabaseError), transaction.atomic():
        task.delete()


def test_somebody_elses_stoma_is_not_offered(page: Client) -> None:
    stranger = StomaFactory()
    form = add(page, StomaFactory().patient, typed(stoma=str(stranger.uuid))).context["form"]
    assert set(form.errors) == {"stoma"}


def test_the_desk_sees_none(client: Client) -> None:
    task = TaskFactory(day=TODAY(), words="Ask after the biopsy")
    client.force_login(UserFactory(role=Role.DESK))
    for address in ("/", record_of(task.patient)):
        shown = client.get(address).content.decode()
        assert "biopsy" not in shown
        assert "Tasks" not in shown


def test_a_closed_day_is_said(page: Client) -> None:
    day = HolidayFactory(name="Harvest Day").day
    answer = page.post(
        reverse("tasks:add", args=[PatientFactory().uuid]), typed(day=day.isoformat()), follow=True
    )
    assert "The clinic is closed that day: Harvest Day." in answer.content.decode()


def test_a_long_list_says_what_it_leaves_out(page: Client) -> None:
    patient = PatientFactory()
    TaskFactory.create_batch(AT_MOST + 2, patient=patient, day=date(2026, 1, 1))
    assert "2 more are not shown" in page.get(record_of(patient)).content.decode()


def test_a_day_is_one_query(page: Client, django_assert_max_num_queries: Any) -> None:
    page.get("/")
    with django_assert_max_num_queries(40) as none:
        page.get("/")
    asked = len(none)
    TaskFactory.create_batch(5, day=TODAY())
    page.get("/")  # puts on the trail who was shown, the first time that day
    with django_assert_max_num_queries(asked):
        page.get("/")

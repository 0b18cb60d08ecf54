"""What a second sending is answered with: the first one's place; other words are asked about."""

import threading
from collections.abc import Callable
from datetime import timedelta
from typing import Any
from uuid import uuid4

import pytest
from django.contrib.messages import get_messages
from django.core.management import call_command
from django.db import IntegrityError, connection, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.once.models import SentForm
from clinic.once.sending import DONE_ONCE
from clinic.patients.duplicates import NAME_AND_BIRTH
from clinic.patients.models import Patient
from clinic.tasks.models import Task
from clinic.visits.models import Assessment, Visit
from tests.clinic.patients.test_rules import PERSON
from tests.clinic.tasks.test_tasks import typed
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.visits import AssessmentFactory


@pytest.fixture
def nurse(client: Client) -> Client:
    client.force_login(UserFactory())
    return client


def add_task(client: Client, patient: Patient, **changes: str) -> Any:
    return client.post(reverse("tasks:add", args=[patient.uuid]), typed(**changes))


@pytest.mark.django_db
def test_the_second_is_led_where_the_first_was(nurse: Client) -> None:
    patient, key = PatientFactory(), str(uuid4())
    first, second = (add_task(nurse, patient, once=key) for _ in "12")
    assert first["Location"] == second["Location"]
    assert DONE_ONCE in [str(said) for said in get_messages(second.wsgi_request)]
    assert AccessLog.objects.filter(action="added task").count() == 1


@pytest.mark.django_db
def test_other_words_under_one_key_are_asked_about_and_not_lost(nurse: Client) -> None:
    patient, key = PatientFactory(), str(uuid4())
    first = add_task(nurse, patient, once=key)
    asked = add_task(nurse, patient, once=key, words="1 belt <now>")
    assert asked.status_code == 409
    page = asked.content.decode()
    assert "1 belt &lt;now&gt;" in page
    assert first["Location"] in page
    assert Task.objects.count() == 1
    # The page's own button sends it again under a key of its own.
    sent = dict(asked.context["posted"]) | {"once": str(uuid4())}
    assert nurse.post(reverse("tasks:add", args=[patient.uuid]), sent).status_code == 302
    assert {one.words for one in Task.objects.all()} == {"2 boxes of rings", "1 belt <now>"}


@pytest.mark.django_db
def test_a_form_with_errors_has_not_used_its_key(nurse: Client) -> None:
    patient, key = PatientFactory(), str(uuid4())
    assert add_task(nurse, patient, once=key, day="").status_code == 200
    assert not SentForm.objects.exists()
    assert add_task(nurse, patient, once=key).status_code == 302


@pytest.mark.django_db
def test_the_same_key_of_two_people_is_two(client: Client) -> None:
    patient, key = PatientFactory(), str(uuid4())
    for _ in range(2):
        client.force_login(UserFactory())
        assert add_task(client, patient, once=key).status_code == 302
    assert Task.objects.count() == 2


@pytest.mark.django_db
def test_nothing_readable_is_kept_and_no_password_is_asked_about(client: Client) -> None:
    client.force_login(UserFactory(role=Role.LEAD))
    new = {"username": "nquill", "first_name": "Nan", "last_name": "Quill", "role": "nurse"}
    sent = new | {"password": "willow-pencil-harbour", "once": str(uuid4())}
    client.post(reverse("accounts:user_add"), sent)
    kept = " ".join(str(value) for row in SentForm.objects.values() for value in row.values())
    assert not any(words in kept for words in ("Quill", "willow", "nquill"))
    other = client.post(reverse("accounts:user_add"), sent | {"password": "pencil-harbour-sun"})
    assert "This user name is taken." in other.content.decode()
    # Not asked about on the page for other words, which would repeat the password.
    assert other.status_code == 200


@pytest.mark.django_db
def test_old_keys_are_forgotten(nurse: Client) -> None:
    patient = PatientFactory()
    for _ in range(2):
        add_task(nurse, patient)
    SentForm.objects.filter(pk=SentForm.objects.latest("pk").pk).update(
        at=timezone.now() - timedelta(days=8)
    )
    call_command("chores")
    assert SentForm.objects.count() == 1


@pytest.mark.django_db
def test_the_database_refuses_a_second_open_draft_of_a_stoma() -> None:
    first = AssessmentFactory()
    other = Visit.objects.create(
        patient=first.visit.patient, clinician=first.visit.clinician, happened_at=timezone.now()
    )
    with pytest.raises(IntegrityError, match="open draft"), transaction.atomic():
        Assessment.objects.create(visit=other, stoma=first.stoma)
    first.visit.state = "discarded"
    first.visit.save()
    Assessment.objects.create(visit=other, stoma=first.stoma)


def at_once(users: list[User], send: Callable[[Client], Any]) -> list[Any]:
    """What each of them is answered; all press at one moment."""
    together, answers = threading.Barrier(len(users)), []

    def press(user: User) -> None:
        try:
            client = Client()
            client.force_login(user)
            together.wait()
            answers.append(send(client))
        finally:
            connection.close()

    threads = [threading.Thread(target=press, args=[user]) for user in users]
    for one in threads:
        one.start()
    for one in threads:
        one.join()
    assert len(answers) == len(users)
    return answers


@pytest.mark.django_db(transaction=True)
def test_at_one_moment_it_is_once_too() -> None:
    """One database set-up for all: committing takes long."""
    nurse, other = UserFactory(), UserFactory()
    patient, stoma, key = PatientFactory(), StomaFactory(), str(uuid4())
    # One person presses twice.
    pressed = at_once([nurse] * 2, lambda client: add_task(client, patient, once=key))
    assert [one.status_code for one in pressed] == [302, 302]
    assert Task.objects.count() == 1
    # Two begin a visit of one stoma: both are in the same draft.
    start = reverse("visits:start", args=[stoma.uuid])
    begun = at_once([nurse, other], lambda client: client.post(start))
    assert begun[0]["Location"] == begun[1]["Location"]
    assert Visit.objects.get().is_draft
    # Two register one person, under two numbers: the second is shown the first.
    numbers = iter(["k-1", "k-2"])

    def register(number: str) -> Callable[[Client], Any]:
        address = reverse("patients:register")
        return lambda client: client.post(address, PERSON | {"record_number": number})

    seen = at_once([nurse, other], lambda client: register(next(numbers))(client))
    assert sorted(one.status_code for one in seen) == [200, 302]
    (asked,) = (one for one in seen if one.status_code == 200)
    assert NAME_AND_BIRTH in asked.content.decode()
    # And two other people under one number: the second reads it beside the field.
    people = iter([{"given_name": "Una", "date_of_birth": "1 Jan 1950"}, {"given_name": "Bo"}])
    taken = at_once(
        [nurse, other],
        lambda client: client.post(
            reverse("patients:register"), PERSON | {"family_name": "Sedge"} | next(people)
        ),
    )
    assert sorted(one.status_code for one in taken) == [200, 302]

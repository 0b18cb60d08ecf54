"""A restricted record opens only with a reason, at whatever address; the lead reads who and why."""

from datetime import timedelta
from functools import cache
from typing import Any

import pytest
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role, User
from clinic.accounts.permissions import ROLE_RIGHTS, Right
from clinic.audit.models import AccessLog
from clinic.audit.whose import patient_of_address
from clinic.follow_up.models import FollowUp
from clinic.patients.models import Patient, Restriction
from clinic.patients.restricted import reasons
from tests.clinic.access import Row, table
from tests.clinic.plans.signed_visits import signed
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory

pytestmark = pytest.mark.django_db
#: Addresses with an id that are about staff or a day, about no patient.
OF_NO_PATIENT = {
    *("accounts:user_change", "accounts:user_password", "clinic_details:holiday_remove"),
    *("mfa_remove_webauthn", "mfa_edit_webauthn", "accounts:session_end"),
    "accounts:user_try_again",
}
GIVEN = {"reason": "emergency", "words": "called to the ward"}


def restricted(patient: Any) -> Restriction:
    return Restriction.objects.create(
        patient=patient, why="staff", set_by=UserFactory.create(role=Role.LEAD)
    )


def signed_in(role: Role) -> tuple[Client, User]:
    client, user = Client(), UserFactory.create(role=role)
    client.force_login(user)
    return client, user


def who_may(row: Row) -> Role:
    return next(r for r in Role if not isinstance(row.takes, Right) or row.takes in ROLE_RIGHTS[r])


def test_every_address_about_a_restricted_record_is_closed_without_a_reason() -> None:
    """Every row of the access table whose address names a record, by somebody who may open it."""
    people = {role: signed_in(role)[0] for role in Role}
    walked = set()
    # Nothing is carried out, so one record serves every address it has parts for.
    made = cache(lambda makes: makes())
    for name, row in table().items():
        parts = made(row.parts)
        patient = patient_of_address(parts)
        if patient is None:
            assert not parts or name in OF_NO_PATIENT, f"{name}: whose record is it?"
            continue
        person = Patient.objects.get(pk=patient.pk)
        if not person.restrictions.exists():
            restricted(person)
        for method in ("get", "post"):
            answer = getattr(people[who_may(row)], method)(reverse(name, kwargs=parts))
            words = answer.content.decode()
            if name == "patients:open_restricted":
                assert answer.status_code in (200, 422)
            else:
                assert answer.status_code == 403, f"{name} {method}"
            assert "Restricted record" in words, f"{name} {method}"
            assert person.record_number not in words, f"{name} {method}"
        walked.add(name)
    assert len(walked) > 50
    assert AccessLog.objects.filter(action="was asked why").count() >= 2 * len(walked)


def test_a_reason_opens_one_record_for_a_while_and_is_on_record() -> None:
    (nurse, user), mine, other = signed_in(Role.NURSE), PatientFactory(), PatientFactory()
    for patient in (mine, other):
        restricted(patient)
    page = reverse("patients:record", args=[mine.uuid])
    opens = reverse("patients:open_restricted", args=[mine.uuid])
    for wrong in ({}, {**GIVEN, "words": "  "}, {**GIVEN, "reason": "curious"}):
        assert nurse.post(opens, wrong).status_code == 422
    assert nurse.get(page).status_code == 403
    away = nurse.post(opens, {**GIVEN, "leads_to": "//elsewhere.example/"})
    assert away.headers["Location"] == page
    assert nurse.get(page).status_code == 200
    # One record, one person.
    assert nurse.get(reverse("patients:record", args=[other.uuid])).status_code == 403
    assert signed_in(Role.NURSE)[0].get(page).status_code == 403
    row = AccessLog.objects.get(action="opened restricted")
    assert (row.actor_id, row.patient_uuid) == (user.pk, mine.uuid)
    assert row.detail == "An emergency: called to the ward"
    lead = signed_in(Role.LEAD)[0]
    listed = lead.get(reverse("audit_trail:restricted")).content.decode()
    assert row.detail in listed
    assert mine.record_number in listed
    assert user.display_name in listed


def test_a_reason_runs_out_and_ends_with_the_session() -> None:
    (nurse, user), patient = signed_in(Role.NURSE), PatientFactory()
    restricted(patient)
    page = reverse("patients:correct", args=[patient.uuid])
    opens = reverse("patients:open_restricted", args=[patient.uuid])
    assert nurse.post(opens, {**GIVEN, "leads_to": page}).headers["Location"] == page
    assert nurse.get(page).status_code == 200
    session = nurse.session
    until = session[reasons.REASONS.key][str(patient.uuid)]
    assert until <= (timezone.now() + reasons.HOLDS).timestamp()
    session[reasons.REASONS.key] = {str(patient.uuid): until - reasons.HOLDS.total_seconds()}
    session.save()
    late = nurse.post(page, {"notes": "typed when it had run out"})
    assert late.status_code == 403
    assert "typed when it had run out" in late.content.decode()
    # The visit page's script leads there.
    assert late.headers["Asks-Why"] == opens
    assert nurse.post(opens, GIVEN).status_code == 302
    nurse.logout()
    nurse.force_login(user)
    assert nurse.get(page).status_code == 403
    assert timedelta(0) < reasons.HOLDS < timedelta(hours=12)


def test_lists_name_a_restricted_person_and_no_more() -> None:
    assessment = signed()
    due = FollowUp.objects.filter(set_by=assessment)
    due.update(due=timezone.localdate(), reason="Weeping skin at six")
    patient = assessment.stoma.patient
    nurse = signed_in(Role.NURSE)[0]
    pages: list[Any] = [
        lambda: nurse.get(reverse("clinic_day:day")),
        lambda: nurse.post(reverse("patients:results"), {"words": patient.record_number}),
        lambda: nurse.get(reverse("documents:day_sheets")),
    ]
    before = [page().content.decode() for page in pages]
    assert all(patient.record_number in words for words in before)
    assert "Weeping skin" in before[0]
    restricted(patient)
    for page in pages:
        # The box keeps what was typed into it.
        words = page().content.decode().replace(f'value="{patient.record_number}"', "")
        assert patient.list_name in words
        assert "estricted record" in words
        assert not [one for one in (patient.record_number, "Weeping skin") if one in words]
    # Its sheet is in no file of the day, were it asked for by hand.
    asked = {"sheet": [assessment.uuid]}
    assert nurse.post(reverse("documents:day_sheets"), asked).status_code == 404


def test_a_nurse_or_the_lead_restricts_and_the_lead_alone_lifts() -> None:
    people = {role: signed_in(role)[0] for role in Role}
    patient = PatientFactory()
    marks = reverse("patients:restrict", args=[patient.uuid])
    lifts = reverse("patients:lift_restriction", args=[patient.uuid])
    for role in (Role.DESK, Role.SURGEON):
        assert people[role].post(marks, {"why": "staff"}).status_code == 403
    assert people[Role.NURSE].post(marks, {"why": "other"}).status_code == 200
    assert people[Role.NURSE].post(marks, {"why": "family"}).status_code == 302
    # Closed to the nurse who did it, too; the lead alone frees it, and only with a reason.
    for role in (Role.NURSE, Role.LEAD):
        assert people[role].post(lifts).status_code == 403
        opens = reverse("patients:open_restricted", args=[patient.uuid])
        assert people[role].post(opens, GIVEN).status_code == 302
    assert people[Role.NURSE].post(lifts).status_code == 403
    assert patient.restrictions.filter(lifted_at=None).exists()
    assert people[Role.LEAD].post(lifts).status_code == 302
    assert not patient.restrictions.filter(lifted_at=None).exists()
    assert people[Role.SURGEON].get(reverse("patients:record", args=[patient.uuid])).status_code
    done = AccessLog.objects.filter(patient_uuid=patient.uuid).values_list("action", flat=True)
    assert {"restricted", "opened restricted", "lifted restriction"} <= set(done)


def test_the_database_keeps_a_restriction() -> None:
    held = restricted(PatientFactory())
    for wrong in (
        lambda: Restriction.objects.filter(pk=held.pk).delete(),
        lambda: Restriction.objects.filter(pk=held.pk).update(why="other", words="x"),
        lambda: Restriction.objects.filter(pk=held.pk).update(lifted_at=timezone.now()),
        lambda: restricted(held.patient),
        lambda: Restriction.objects.create(
            patient=PatientFactory(), why="other", set_by=held.set_by
        ),
    ):
        with pytest.raises(DatabaseError), transaction.atomic():
            wrong()
    assert Restriction.objects.get(pk=held.pk).why == "staff"

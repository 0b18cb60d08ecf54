"""The clinic lead's pages: add, change, deactivate, set a password."""

import pytest
from allauth.mfa.models import Authenticator
from allauth.mfa.totp.internal.auth import TOTP, generate_totp_secret
from django.apps import apps
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role, User
from clinic.accounts.permissions import ROLE_RIGHTS, Right, may
from clinic.audit.models import AccessLog
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db
NEW = {
    "username": "nquill",
    "first_name": "Nan",
    "last_name": "Quill",
    "role": "nurse",
    "password": "willow-pencil-harbour",
}


@pytest.fixture
def lead() -> User:
    return UserFactory(role=Role.LEAD)


@pytest.fixture
def desk_of_lead(client: Client, lead: User) -> Client:
    client.force_login(lead)
    return client


def change(client: Client, user: User, **values: str) -> str:
    data = {"first_name": "A", "last_name": "B", "role": user.role, "is_active": "on", **values}
    answer = client.post(reverse("accounts:user_change", args=[user.uuid]), data)
    return answer.content.decode()


def test_a_new_person_can_sign_in(desk_of_lead: Client, client: Client) -> None:
    desk_of_lead.post(reverse("accounts:user_add"), NEW)
    user = User.objects.get(username="nquill")
    assert user.display_name == "Nan Quill, stoma-care nurse"
    assert user.check_password(NEW["password"])
    assert not user.is_superuser
    assert AccessLog.objects.get(action="added", subject_uuid=user.uuid).detail == "role nurse"


@pytest.mark.parametrize(
    ("changes", "field", "words"),
    [
        ({"role": ""}, "role", "Choose a role"),
        ({"role": "king"}, "role", "Select a valid choice"),
        ({"password": "short-one"}, "password", "at least 15 characters"),
        ({"username": "willow-pencil-har"}, "password", "too similar"),
        ({"username": "TAKEN"}, "username", "This user name is taken."),
        ({"first_name": ""}, "first_name", "Give the given name."),
    ],
)
def test_errors_are_beside_their_field(
    desk_of_lead: Client, changes: dict[str, str], field: str, words: str
) -> None:
    UserFactory(username="taken")
    page = desk_of_lead.post(reverse("accounts:user_add"), {**NEW, **changes})
    errors = page.context["form"].errors
    assert list(errors) == [field]
    assert words in errors[field][0]


def test_a_change_of_role_is_on_record(desk_of_lead: Client) -> None:
    user = UserFactory(role=Role.DESK, first_name="A", last_name="B")
    change(desk_of_lead, user, role="nurse")
    user.refresh_from_db()
    assert user.role == Role.NURSE
    assert AccessLog.objects.get(action="changed").detail == "role nurse"
    roles = user.events.order_by("pgh_id").values_list("role", flat=True)
    assert list(roles) == ["desk", "nurse"]


@pytest.mark.parametrize("values", [{"role": "nurse"}, {"is_active": ""}])
def test_the_last_lead_stays(desk_of_lead: Client, lead: User, values: dict[str, str]) -> None:
    page = change(desk_of_lead, lead, **values)
    assert "At least one clinic lead must be able to sign in." in page
    lead.refresh_from_db()
    assert (lead.role, lead.is_active) == (Role.LEAD, True)


def test_a_new_password_ends_sessions_and_may_remove_lost_factors(desk_of_lead: Client) -> None:
    user = UserFactory()
    TOTP.activate(user, generate_totp_secret())
    elsewhere = Client()
    elsewhere.force_login(user)
    address = reverse("accounts:user_password", args=[user.uuid])
    desk_of_lead.post(address, {"password": "willow-pencil-harbour", "forget_factors": "on"})
    user.refresh_from_db()
    assert user.check_password("willow-pencil-harbour")
    assert not Authenticator.objects.filter(user=user).exists()
    assert elsewhere.get(reverse("patients:find")).status_code == 302
    done = AccessLog.objects.filter(subject_uuid=user.uuid).values_list("action", flat=True)
    assert {"set the password of", "removed the second factors of"} <= set(done)


def test_no_password_reaches_the_history_or_the_log(desk_of_lead: Client) -> None:
    desk_of_lead.post(reverse("accounts:user_add"), NEW)
    history = apps.get_model("accounts", "UserEvent")
    fields = {field.name for field in history._meta.get_fields()}
    assert "password" not in fields
    assert not AccessLog.objects.filter(detail__contains=NEW["password"]).exists()


def test_the_database_knows_the_roles() -> None:
    user = UserFactory()
    with pytest.raises(DatabaseError), transaction.atomic():
        User.objects.filter(pk=user.pk).update(role="king")


def test_each_role_may_do_this_and_no_more() -> None:
    allowed = {role: {right.name for right in rights} for role, rights in ROLE_RIGHTS.items()}
    assert allowed == {
        Role.NURSE: {
            "SEE_IDENTITY",
            "EDIT_IDENTITY",
            "SEE_CLINICAL",
            "RESTRICT",
            "CHART",
            "AGREE_KNOWN",
            "PRINT",
            "MOVE_FOLLOW_UP",
            "KEEP_TASKS",
        },
        Role.SURGEON: {
            "SEE_IDENTITY",
            "SEE_CLINICAL",
            "AGREE_KNOWN",
            "PRINT",
            "ANSWER_REFERRAL",
            "KEEP_TASKS",
        },
        Role.DESK: {"SEE_IDENTITY", "EDIT_IDENTITY", "PRINT", "MOVE_FOLLOW_UP"},
        Role.LEAD: {
            "SEE_IDENTITY",
            "SEE_CLINICAL",
            "RESTRICT",
            "LIFT_RESTRICTION",
            "PRINT",
            "READ_AUDIT",
            "MANAGE_USERS",
            "SEE_MEASURES",
            "MOVE_FOLLOW_UP",
            "KEEP_TASKS",
            "KEEP_CLINIC",
        },
    }


def test_superusers_and_the_deactivated_hold_no_extra_right() -> None:
    assert not may(UserFactory.build(role=Role.DESK, is_superuser=True), Right.SEE_CLINICAL)
    assert not may(UserFactory.build(role=Role.NURSE, is_active=False), Right.SEE_IDENTITY)


@pytest.mark.parametrize("page", ["user_change", "user_password"])
def test_titles_name_no_one(desk_of_lead: Client, page: str) -> None:
    user = UserFactory(first_name="Nan", last_name="Quill")
    shown = desk_of_lead.get(reverse(f"accounts:{page}", args=[user.uuid])).content.decode()
    assert "Quill" in shown
    assert "Quill" not in shown.split("<title>")[1].split("</title>")[0]

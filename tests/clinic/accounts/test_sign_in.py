"""Signing in: on record, never leading away, closed to strangers, ended when it should be."""

import runpy
from typing import Any
from unittest.mock import patch

import pytest
from allauth.mfa.models import Authenticator
from allauth.mfa.totp.internal.auth import TOTP, generate_totp_secret
from django.core.cache import cache
from django.db import connection
from django.test import Client
from django.urls import reverse
from pytest_django import Settings

import clinic.settings
from clinic.accounts.models import User
from clinic.audit.models import AccessLog
from tests.factories.accounts import PASSWORD, UserFactory

pytestmark = pytest.mark.django_db
LOGIN = "/sign-in/"


@pytest.fixture(autouse=True)
def _fresh_rate_limits(db: None) -> None:
    cache.clear()


def attempt(client: Client, user: str, password: str = PASSWORD, **extra: str) -> str:
    """Where the attempt leads; "" where it stays on the page."""
    answer = client.post(LOGIN, {"login": user, "password": password, **extra})
    return answer.get("Location", "")


def test_signing_in_and_out_is_on_record(client: Client) -> None:
    user = UserFactory()
    assert attempt(client, user.username) == "/"
    client.post(reverse("account_logout"))
    rows = AccessLog.objects.filter(actor_id=user.pk).order_by("id")
    assert [row.action for row in rows] == ["signed in", "signed out"]
    assert rows[0].remote_address == "127.0.0.1"


def test_signing_out_needs_a_post(client: Client) -> None:
    client.force_login(UserFactory())
    client.get(reverse("account_logout"))
    assert client.get(reverse("patients:find")).status_code == 200


def test_a_failure_is_on_record_without_an_unknown_name(client: Client) -> None:
    user = UserFactory()
    assert attempt(client, user.username, "not the password") == ""
    assert attempt(client, "my-secret-typed-here") == ""
    known, unknown = AccessLog.objects.filter(action="sign-in failed").order_by("id")
    assert (known.subject_uuid, known.detail) == (user.uuid, "known user")
    assert (unknown.subject_uuid, unknown.detail) == (None, "unknown user")
    assert not [row for row in (known, unknown) if "secret" in f"{row.actor_words}{row.detail}"]


@pytest.mark.parametrize(
    "away",
    [
        "//elsewhere.example/x",
        "https://elsewhere.example/",
        "/\\elsewhere.example",
        "javascript:1",
        "http://testserver/patients/",
    ],
)
def test_signing_in_never_leads_away(client: Client, away: str) -> None:
    assert attempt(client, UserFactory().username, next=away) == "/"


def test_signing_in_leads_back_to_the_page_asked_for(client: Client) -> None:
    asked = client.get(reverse("patients:find"))["Location"]
    answer = client.post(asked, {"login": UserFactory().username, "password": PASSWORD})
    assert answer.status_code == 302
    assert attempt(Client(), UserFactory().username, next="/patients/") == "/patients/"


def test_guessing_is_slowed_down(client: Client) -> None:
    user = UserFactory()
    for _ in range(5):
        attempt(client, user.username, "wrong wrong wrong")
    page = client.post(LOGIN, {"login": user.username, "password": PASSWORD})
    assert "Too many failed" in page.content.decode()


def test_failures_are_counted_where_every_process_looks(client: Client) -> None:
    attempt(client, UserFactory().username, "wrong wrong wrong")
    with connection.cursor() as cursor:
        cursor.execute("SELECT cache_key FROM clinic_cache")
        keys = [key for (key,) in cursor.fetchall()]
    assert [key for key in keys if "login_failed" in key]


def test_behind_a_proxy_one_guesser_does_not_lock_out_the_others(
    client: Client, settings: Settings
) -> None:
    settings.ALLAUTH_TRUSTED_PROXY_COUNT = 1
    user = UserFactory()
    entry = {"login": user.username, "password": PASSWORD}
    for number in range(10):
        wrong = {"login": f"guess{number}", "password": "wrong wrong wrong"}
        invented = f"198.51.100.{number}, 203.0.113.9"
        client.post(LOGIN, wrong, headers={"X-Forwarded-For": invented})
    guesser = client.post(LOGIN, entry, headers={"X-Forwarded-For": "203.0.113.9"})
    assert "Too many failed" in guesser.content.decode()
    nurse = client.post(LOGIN, entry, headers={"X-Forwarded-For": "203.0.113.10"})
    assert nurse.status_code == 302


def test_without_an_address_signing_in_works_and_is_counted(client: Client) -> None:
    """Over a unix socket the connection itself has no address."""
    user = UserFactory()
    entry = {"login": user.username, "password": PASSWORD}
    assert Client(REMOTE_ADDR="").post(LOGIN, entry).status_code == 302
    for number in range(10):
        wrong = {"login": f"guess{number}", "password": "wrong wrong wrong"}
        Client(REMOTE_ADDR="").post(LOGIN, wrong)
    assert "Too many failed" in Client(REMOTE_ADDR="").post(LOGIN, entry).content.decode()


@pytest.mark.parametrize(("behind", "proxies"), [("true", 1), ("false", 0)])
def test_the_proxy_is_believed_only_when_there_is_one(
    monkeypatch: pytest.MonkeyPatch, behind: str, proxies: int
) -> None:
    monkeypatch.setenv("BEHIND_TLS_PROXY", behind)
    read = runpy.run_path(str(clinic.settings.__file__))
    assert read["ALLAUTH_TRUSTED_PROXY_COUNT"] == proxies
    assert ("SECURE_PROXY_SSL_HEADER" in read) is bool(proxies)


def test_somebody_deactivated_cannot_sign_in(client: Client) -> None:
    attempt(client, UserFactory(is_active=False).username)
    assert client.get(reverse("patients:find")).status_code == 302


def test_no_one_signs_up(client: Client) -> None:
    before = User.objects.count()
    data = {"username": "me", "password1": PASSWORD, "password2": PASSWORD}
    client.post(reverse("account_signup"), data)
    assert User.objects.count() == before
    assert client.get(reverse("account_signup")).status_code == 404


def test_the_second_factor_is_asked_for(client: Client) -> None:
    user = UserFactory()
    TOTP.activate(user, generate_totp_secret())
    assert attempt(client, user.username) == reverse("mfa_authenticate")
    assert client.get(reverse("patients:find")).status_code == 302
    with patch("allauth.mfa.totp.internal.auth.validate_totp_code", return_value=True):
        client.post(reverse("mfa_authenticate"), {"code": "123456"})
    assert client.get(reverse("patients:find")).status_code == 200
    assert AccessLog.objects.filter(action="signed in", actor_id=user.pk).count() == 1
    assert Authenticator.objects.filter(user=user).exists()


def of_user(user: User) -> list[tuple[str, str]]:
    rows = AccessLog.objects.filter(subject_uuid=user.uuid).exclude(action="signed in")
    return list(rows.order_by("id").values_list("action", "detail"))


def test_a_wrong_code_is_on_record_and_not_kept(client: Client) -> None:
    user = UserFactory()
    TOTP.activate(user, generate_totp_secret())
    attempt(client, user.username)
    client.post(reverse("mfa_authenticate"), {"code": "918273"})
    assert of_user(user) == [("second factor failed", "")]
    row = AccessLog.objects.get(action="second factor failed")
    assert (row.actor_words, row.remote_address) == ("nobody signed in", "127.0.0.1")


def test_ones_own_password_and_second_factor_are_on_record(
    client: Client, django_capture_on_commit_callbacks: Any
) -> None:
    user = UserFactory()
    attempt(client, user.username)
    other = "willow-pencil-harbour"
    entry = {"oldpassword": PASSWORD, "password1": other, "password2": other}
    client.post(reverse("account_change_password"), entry)
    assert of_user(user) == [("changed own password", "")]
    client.post(reverse("account_reauthenticate"), {"password": other})
    correct = patch("allauth.mfa.totp.internal.auth.validate_totp_code", return_value=True)
    with correct, django_capture_on_commit_callbacks(execute=True):
        client.get(reverse("mfa_activate_totp"))
        client.post(reverse("mfa_activate_totp"), {"code": "123456"})
    for name in ("mfa_generate_recovery_codes", "mfa_deactivate_totp"):
        with django_capture_on_commit_callbacks(execute=True):
            client.post(reverse(name))
    assert of_user(user)[1:] == [
        ("switched on second factor", "one-time codes"),
        ("switched on second factor", "recovery codes"),
        ("renewed second factor", "recovery codes"),
        ("switched off second factor", "one-time codes"),
        ("switched off second factor", "recovery codes"),
    ]
    assert set(AccessLog.objects.values_list("actor_id", flat=True)) == {user.pk}


def test_the_session_ends_with_the_hour_or_the_browser(client: Client) -> None:
    attempt(client, UserFactory().username)
    cookie = client.cookies["session"]
    assert (cookie["httponly"], cookie["samesite"], cookie["max-age"]) == (True, "Lax", "")
    assert client.session.get_expiry_age() <= 3600


def test_the_sign_in_page_loads_from_this_site_alone(client: Client) -> None:
    answer = client.get(LOGIN)
    policy = answer.headers["Content-Security-Policy"]
    assert "default-src 'none'" in policy
    assert "script-src 'self'" in policy
    assert "unsafe" not in policy
    assert "http" not in policy

"""A computer that several use: sessions end when they should, a lock holds on the server, and
what a person must do first comes first."""

import runpy
from datetime import timedelta
from typing import Any

import pytest
from allauth.mfa.models import Authenticator
from allauth.mfa.totp.internal.auth import (
    TOTP,
    format_hotp_value,
    generate_totp_secret,
    hotp_value,
    yield_hotp_counters_from_time,
)
from django.contrib.auth.password_validation import validate_password
from django.core.cache import cache
from django.core.exceptions import ImproperlyConfigured, ValidationError
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pytest_django import Settings

import clinic.settings
from clinic.accounts.devices import device_words
from clinic.accounts.models import Role, User
from clinic.accounts.session_limits import BEGAN, USED
from clinic.audit.models import AccessLog
from tests.factories.accounts import PASSWORD, UserFactory

pytestmark = pytest.mark.django_db
LOGIN = "/sign-in/"
LOCKED = "/sign-in/locked/"
FIND = "/patients/"
NEW = "willow-pencil-harbour"
FIREFOX = "Mozilla/5.0 (Windows NT 10.0; Win64; x64; rv:150.0) Gecko/20100101 Firefox/150.0"


@pytest.fixture(autouse=True)
def _fresh_rate_limits(db: None) -> None:
    cache.clear()


def signed_in(user: User) -> Client:
    client = Client()
    client.force_login(user)
    return client


def by_password(
    user: User, password: str = PASSWORD, *, address: str = "127.0.0.1", agent: str = ""
) -> Client:
    """Through the sign-in page, so that it is in the list of sessions."""
    client = Client(REMOTE_ADDR=address, HTTP_USER_AGENT=agent)
    client.post(LOGIN, {"login": user.username, "password": password})
    return client


def opens(client: Client) -> bool:
    return client.get(FIND).status_code == 200


def age(client: Client, **seconds: float) -> None:
    session = client.session
    for name, by in seconds.items():
        session[name] -= by
    session.save()


def done_to(user: User) -> list[str]:
    rows = AccessLog.objects.filter(subject_uuid=user.uuid).order_by("id")
    return list(rows.values_list("action", flat=True))


# --- How long a session lasts -----------------------------------------------------------------


def test_a_session_ends_idle_and_ends_however_much_it_is_used(settings: Settings) -> None:
    settings.SESSION_COOKIE_AGE, settings.SESSION_LONGEST = 600, timedelta(hours=2)
    user = UserFactory()
    used = signed_in(user)
    for _ in range(3):  # each use renews it
        age(used, used_at=590)
        assert opens(used)
    age(used, used_at=610)
    assert not opens(used)
    old = signed_in(user)
    age(old, began_at=2 * 3600 - 10)
    assert opens(old)
    age(old, began_at=20)
    assert not opens(old)
    for missing in (BEGAN, USED):  # one that does not say since when
        unknown = signed_in(user)
        session = unknown.session
        del session[missing]
        session.save()
        assert not opens(unknown)


def test_a_session_is_written_at_most_once_a_minute() -> None:
    client = signed_in(UserFactory())

    def writes() -> bool:
        with CaptureQueriesContext(
            connection,
        ) as done:
            client.get(FIND)
        return any('UPDATE "django_session"' in q["sql"] for q in done.captured_queries)

    assert [writes(), writes()] == [False, False]
    age(client, used_at=61)
    assert [writes(), writes()] == [True, False]


def test_deactivated_for_good() -> None:
    """Sessions in the list and not in it; opened again, the account signs in as if new."""
    lead, user = UserFactory(role=Role.LEAD), UserFactory()
    clients = [signed_in(user), by_password(user)]
    assert all(map(opens, clients))
    desk, address = signed_in(lead), reverse("accounts:user_change", args=[user.uuid])
    entry = {"first_name": "A", "last_name": "B", "role": user.role}
    for active in ({}, {"is_active": "on"}):
        desk.post(address, {**entry, **active})
        assert not any(map(opens, clients))
    assert opens(by_password(user))


# --- The list of one's own sessions -----------------------------------------------------------


def test_ones_own_sessions_are_listed_and_ended() -> None:
    user, other = UserFactory(), UserFactory()
    here = by_password(user, agent=FIREFOX)
    there, third = by_password(user), by_password(user)
    stranger = by_password(other)
    rows = here.get(reverse("accounts:security")).context["sessions"]
    assert [row.here for row in rows] == [True, False, False]
    assert rows[0].device == "Firefox on Windows"
    # Somebody else's cannot be ended.
    row = stranger.get(reverse("accounts:security")).context["sessions"][0]
    end = reverse("accounts:session_end", args=[row.number])
    assert here.post(end).status_code == 404
    assert opens(stranger)
    here.post(reverse("accounts:session_end", args=[rows[1].number]))
    assert sorted(map(opens, (there, third))) == [False, True]
    here.post(reverse("accounts:sessions_end_others"))
    assert [opens(one) for one in (here, there, third, stranger)] == [True, False, False, True]
    assert done_to(user)[-2:] == ["ended own session", "ended other own sessions"]
    here.post(reverse("accounts:session_end", args=[rows[0].number]))
    assert not opens(here)


@pytest.mark.parametrize(
    ("said", "words"),
    [
        (FIREFOX, "Firefox on Windows"),
        (
            "Mozilla/5.0 (Linux; Android 15; K) AppleWebKit/537.36 Chrome/143 Mobile Safari/537.36",
            "Chrome on an Android phone",
        ),
        ("Mozilla/5.0 (iPad; CPU OS 18_0) Version/18.0 Safari/604.1", "Safari on an iPad"),
        ("Mozilla/5.0 (Windows NT 10.0) Chrome/143 Safari/537.36 Edg/143", "Edge on Windows"),
        ("Mozilla/5.0 (Macintosh) Version/18.0 Safari/605.1", "Safari on a Mac"),
        ("", "Unknown browser on an unknown device"),
    ],
)
def test_a_device_in_words(said: str, words: str) -> None:
    assert device_words(said) == words


# --- The lock ---------------------------------------------------------------------------------


def test_a_locked_session_opens_nothing_on_the_server() -> None:
    user = UserFactory()
    client = by_password(user)
    key = client.session.session_key
    answer = client.post(reverse("account_lock"), {"next": FIND})
    assert answer["Location"] == f"{LOCKED}?next=%2Fpatients%2F"
    assert client.session.session_key != key  # what was under way cannot bring it back
    for address in (FIND, "/", "/accounts/security/", "/sign-in/", "/sign-in/password/", "/none/"):
        for answer in (client.get(address), client.post(address)):
            assert answer["Location"].startswith(LOCKED), address
            assert answer.headers["Cache-Control"] == "no-store"
    shown = client.get(LOCKED).content.decode()
    assert "Locked" in shown
    assert "site-navigation" not in shown
    wrong = client.post(LOCKED, {"password": "not the password", "next": FIND})
    assert "This is not your password." in wrong.content.decode()
    assert not opens(client)
    answer = client.post(LOCKED, {"password": PASSWORD, "next": "//elsewhere.example/"})
    assert answer["Location"] == "/"
    assert opens(client)
    assert done_to(user) == ["signed in", "locked", "sign-in failed", "unlocked"]
    # The list of sessions still knows it.
    assert client.get(reverse("accounts:security")).context["sessions"][0].here


def test_unlocking_leads_back_and_another_may_sign_in_instead() -> None:
    client, other = signed_in(UserFactory()), UserFactory()
    for _ in range(2):
        client.post(reverse("account_lock"), {"next": FIND})
        back = client.post(LOCKED, {"password": PASSWORD, "next": FIND})
        assert back["Location"] == FIND
    client.post(reverse("account_lock"))
    client.post(reverse("account_logout"))
    client.post(LOGIN, {"login": other.username, "password": PASSWORD})
    assert client.get(FIND).context["user"] == other


def test_five_wrong_passwords_end_a_locked_session(settings: Settings) -> None:
    settings.ACCOUNT_RATE_LIMITS = {"login_failed": "99/m/key"}
    client = signed_in(UserFactory())
    client.post(reverse("account_lock"))
    for _ in range(4):
        assert client.post(LOCKED, {"password": "wrong wrong"}).status_code == 200
    last = client.post(LOCKED, {"password": "wrong wrong"})
    assert last["Location"].startswith(LOGIN)
    assert client.post(LOCKED, {"password": PASSWORD})["Location"].startswith(LOGIN)
    assert not opens(client)


def test_a_locked_session_counts_as_not_used() -> None:
    client = signed_in(UserFactory())
    client.post(reverse("account_lock"))
    age(client, used_at=300)
    used = client.session[USED]
    client.get(LOCKED)
    client.get(FIND)
    assert client.session[USED] == used


# --- First things first -----------------------------------------------------------------------


def test_a_password_from_a_lead_is_changed_first() -> None:
    lead, user = UserFactory(role=Role.LEAD), UserFactory()
    first = reverse("accounts:first_steps")
    desk = signed_in(lead)
    desk.post(reverse("accounts:user_password", args=[user.uuid]), {"password": NEW})
    client = by_password(user, NEW)
    assert client.get(FIND)["Location"] == f"{first}?next=%2Fpatients%2F"
    assert client.post("/patients/register/")["Location"] == first
    shown = client.get(first).content.decode()
    assert "Choose a password of your own" in shown
    assert "site-navigation" not in shown
    entry = {"oldpassword": NEW, "password1": NEW, "password2": NEW}
    same = client.post(reverse("account_change_password"), entry)
    assert "Choose another password than the current one." in same.content.decode()
    assert not opens(client)
    own = {"password1": "copper-basket-lamp-7", "password2": "copper-basket-lamp-7"}
    client.post(reverse("account_change_password"), {**entry, **own})
    assert opens(client)
    assert "site-navigation" in client.get(FIND).content.decode()
    assert client.get(first)["Location"] == "/"
    added = {"username": "nq", "first_name": "N", "last_name": "Q", "role": "nurse"}
    desk.post(reverse("accounts:user_add"), {**added, "password": NEW})
    assert User.objects.get(username="nq").must_change_password


def test_a_second_factor_may_be_required_by_role(settings: Settings) -> None:
    settings.SECOND_FACTOR_ROLES = frozenset({"nurse"})
    first = reverse("accounts:first_steps")
    nurse, lead = UserFactory(), UserFactory(role=Role.LEAD)
    desk, client = signed_in(lead), signed_in(nurse)
    assert opens(desk)
    for address in (FIND, "/", "/accounts/security/"):
        assert client.get(address)["Location"].startswith(first)
    assert client.get("/sign-in/second-factor/").status_code == 200

    def shown() -> dict[User, tuple[str, bool]]:
        rows = desk.get(reverse("accounts:users")).context["users"]
        return {row.user: (row.factors, row.lacks) for row in rows}

    assert shown() == {nurse: ("", True), lead: ("", False)}
    # Recovery codes alone are none.
    Authenticator.objects.create(user=nurse, type=Authenticator.Type.RECOVERY_CODES, data={})
    assert not opens(client)
    TOTP.activate(nurse, generate_totp_secret())
    assert opens(client)
    assert shown()[nurse] == ("code from an app", False)


# --- Passwords and codes ----------------------------------------------------------------------


@pytest.mark.parametrize(
    "password",
    [
        "password12345678",
        "passwordpassword",
        "!!Sunshine!!2026!!",
        "aaaaaaaabbbbbbbb",
        "qwertyuiopasdfgh",
        "abcdefghijklmnop",
        "123456789-123456789",
        "iloveyouiloveyou1",
    ],
)
def test_common_passwords_made_longer_are_refused(password: str) -> None:
    with pytest.raises(ValidationError):
        validate_password(password)


@pytest.mark.parametrize("password", [PASSWORD, NEW, "kettle-orchard-blue-17"])
def test_unrelated_words_are_taken(password: str) -> None:
    validate_password(password)


def code_of(secret: str) -> str:
    return format_hotp_value(hotp_value(secret, next(yield_hotp_counters_from_time())))


def test_a_code_is_used_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """To sign in twice, and to sign in after setting the app up with it."""
    monkeypatch.setattr("allauth.mfa.totp.internal.auth.time.time", lambda: 1_800_000_000)
    user, secret = UserFactory(), generate_totp_secret()
    TOTP.activate(user, secret)

    def with_code(code: str) -> bool:
        client = by_password(user)
        client.post(reverse("mfa_authenticate"), {"code": code})
        return opens(client)

    spaced = f"{code_of(secret)[:3]} {code_of(secret)[3:]}"
    assert [with_code(code_of(secret)), with_code(code_of(secret)), with_code(spaced)] == [
        True,
        False,
        False,
    ]
    user = UserFactory()
    client = by_password(user)
    client.post(reverse("account_reauthenticate"), {"password": PASSWORD})
    page: Any = client.get(reverse("mfa_activate_totp"))
    secret = page.context["form"].secret
    client.post(reverse("mfa_activate_totp"), {"code": code_of(secret)})
    assert Authenticator.objects.filter(user=user, type=Authenticator.Type.TOTP).exists()
    assert not with_code(code_of(secret))


# --- Failed sign-ins --------------------------------------------------------------------------


def fail(user: User, times: int, address: str) -> None:
    client = Client(REMOTE_ADDR=address)
    for _ in range(times):
        client.post(LOGIN, {"login": user.username, "password": "wrong wrong wrong"})


def test_no_one_is_locked_out_from_elsewhere_and_a_lead_lets_try_again() -> None:
    user, lead = UserFactory(), UserFactory(role=Role.LEAD)
    fail(user, 5, "203.0.113.9")
    assert not opens(by_password(user, address="203.0.113.9"))
    assert opens(by_password(user, address="203.0.113.10"))
    signed_in(lead).post(reverse("accounts:user_try_again", args=[user.uuid]))
    assert opens(by_password(user, address="203.0.113.9"))
    assert "let try again" in done_to(user)


def test_the_wait_grows(monkeypatch: pytest.MonkeyPatch) -> None:
    """A minute after five failures, an hour after ten, though the minute is over."""
    now = 1_800_000_000.0
    user = UserFactory()
    monkeypatch.setattr("allauth.core.internal.ratelimit.time.time", lambda: now)
    fail(user, 5, "203.0.113.9")
    assert not opens(by_password(user, address="203.0.113.9"))
    now += 61
    assert opens(by_password(user, address="203.0.113.9"))
    fail(user, 5, "203.0.113.9")
    now += 61
    assert not opens(by_password(user, address="203.0.113.9"))
    now += 3600
    assert opens(by_password(user, address="203.0.113.9"))


def test_the_environment_sets_limits_and_roles(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SESSION_IDLE_MINUTES", "15")
    monkeypatch.setenv("SESSION_LONGEST_HOURS", "8")
    monkeypatch.setenv("SECOND_FACTOR_ROLES", "lead,nurse")
    read = runpy.run_path(str(clinic.settings.__file__))
    assert (read["SESSION_COOKIE_AGE"], read["SESSION_LONGEST"]) == (900, timedelta(hours=8))
    assert read["SECOND_FACTOR_ROLES"] == {"lead", "nurse"}
    assert set(read["ROLES"]) == set(Role.values)
    monkeypatch.setenv("SECOND_FACTOR_ROLES", "king")
    with pytest.raises(ImproperlyConfigured):
        runpy.run_path(str(clinic.settings.__file__))

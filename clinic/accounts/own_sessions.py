"""Where an account is signed in, and ending that."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from allauth.usersessions.adapter import get_adapter
from allauth.usersessions.models import UserSession
from django.conf import settings
from django.contrib.auth import logout
from django.db import transaction
from django.http import HttpRequest
from django.utils import timezone

from clinic.accounts.devices import device_words
from clinic.accounts.models import User
from clinic.accounts.permissions import person_of
from clinic.audit.record import record


@dataclass(frozen=True)
class SignedIn:
    """One place where a person is signed in. ``here``: it is the one that asks."""

    number: int
    device: str
    since: datetime
    last_used: datetime
    here: bool


def sessions_of(request: HttpRequest) -> list[SignedIn]:
    """One's own, this one first, then the last used."""
    since = timezone.now() - settings.SESSION_LONGEST
    rows = UserSession.objects.purge_and_list(request.user)
    found = [_said(row) for row in rows if row.created_at > since]
    return sorted(found, key=lambda one: (one.here, one.last_used), reverse=True)


def _said(row: UserSession) -> SignedIn:
    here = row.is_current()
    used = timezone.now() if here else row.last_seen_at
    return SignedIn(row.pk, device_words(row.user_agent), row.created_at, used, here)


@transaction.atomic
def end_one(request: HttpRequest, row: UserSession) -> None:
    """One of one's own; the one that asks is signed out."""
    if row.is_current():
        row.delete()
        logout(request)
        return
    _end([row])
    record(request_or_actor=request, action="ended own session", subject=person_of(request))


@transaction.atomic
def end_others(request: HttpRequest, person: User) -> None:
    """Every session of one's own but this."""
    rows = UserSession.objects.filter(user=person)
    _end([row for row in rows if not row.is_current()])
    record(request_or_actor=request, action="ended other own sessions", subject=person)


def end_all_for_good(user: User) -> None:
    """Also those that are in no list; none begins again where the account is opened later."""
    _end(UserSession.objects.filter(user=user))
    user.sessions_ended_at = timezone.now()


def _end(rows: Iterable[UserSession]) -> None:
    get_adapter().end_sessions(rows)

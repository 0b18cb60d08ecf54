"""A session locked at once, so that a shared computer can be left: it opens no page until its
person has typed their password, and what was typed waits where it is.

The password alone is asked, also where a second factor was used to sign in: the session, which
that factor began, is still there. After ``MOST_WRONG`` wrong ones it ends, and signing in asks
for both.
"""

from allauth.account.adapter import get_adapter
from allauth.usersessions.models import UserSession
from django.contrib.auth import logout
from django.contrib.sessions.backends.base import SessionBase
from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.accounts.permissions import person_of
from clinic.audit.record import record

LOCKED, WRONG = "locked", "wrong_passwords"
MOST_WRONG = 5
#: What a locked session still opens.
OPENS = frozenset({"account_locked", "account_logout"})


def is_locked(session: SessionBase) -> bool:
    return bool(session.get(LOCKED))


@transaction.atomic
def lock(request: HttpRequest, person: User) -> None:
    """From now on; locking again changes nothing."""
    if not is_locked(request.session):
        request.session[LOCKED] = True
        _new_key(request.session)
        record(request_or_actor=request, action="locked", subject=person)


def unlock(request: HttpRequest, password: str) -> bool:
    """Whether the password was right; one time too often wrong, and the session is ended.

    May raise ``ValidationError``: too many failed from this address.
    """
    if not get_adapter().reauthenticate(person_of(request), password):
        wrong = request.session[WRONG] = request.session.get(WRONG, 0) + 1
        if wrong >= MOST_WRONG:
            logout(request)
        return False
    with transaction.atomic():
        request.session.pop(LOCKED, None)
        request.session.pop(WRONG, None)
        _new_key(request.session)
        record(request_or_actor=request, action="unlocked", subject=person_of(request))
    return True


def _new_key(session: SessionBase) -> None:
    """A request under way that saves the session under its old key is refused: it could bring
    back how the session was before."""
    rows = UserSession.objects.filter(session_key=session.session_key)
    session.cycle_key()
    rows.update(session_key=session.session_key)

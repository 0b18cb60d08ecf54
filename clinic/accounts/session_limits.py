"""How long a session lasts: idle, in all, and until the account's sessions are ended."""

from time import time

from allauth.usersessions.models import UserSession
from django.conf import settings
from django.contrib.sessions.backends.base import SessionBase, UpdateError
from django.contrib.sessions.exceptions import SessionInterrupted
from django.utils import timezone

from clinic.accounts.models import User

BEGAN, USED = "began_at", "used_at"
#: Seconds. A session is written at most so often; it may end that much early, and never late.
RENEWED_EVERY = 60


def begin(session: SessionBase) -> None:
    """At every sign-in."""
    session[BEGAN] = session[USED] = time()


def is_over(session: SessionBase, user: User) -> bool:
    """Idle too long, too old, or ended by a lead. One that does not say since when is over."""
    began, used, now = session.get(BEGAN), session.get(USED), time()
    if began is None or used is None:
        return True
    ended = user.sessions_ended_at
    return (
        now - used > settings.SESSION_COOKIE_AGE
        or now - began > settings.SESSION_LONGEST.total_seconds()
        or (ended is not None and began <= ended.timestamp())
    )


def renew(session: SessionBase) -> None:
    """Note that it was used. Written at once: saved with the answer, it would take back what
    another request of the same session has written."""
    now = time()
    if now - session[USED] < RENEWED_EVERY:
        return
    session[USED] = now
    try:
        session.save()
    except UpdateError:
        raise SessionInterrupted("The session was ended or locked.") from None
    session.modified = False
    UserSession.objects.filter(session_key=session.session_key).update(last_seen_at=timezone.now())

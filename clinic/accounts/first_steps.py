"""What a person must do at a sign-in before anything else: change a password that a lead gave,
set up the second factor that their role requires."""

from enum import StrEnum

from allauth.mfa.models import Authenticator
from allauth.mfa.utils import is_mfa_enabled
from django.conf import settings
from django.contrib.sessions.backends.base import SessionBase
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.accounts.permissions import person_of

#: What signing in is protected by; recovery codes alone are none.
FACTORS = (Authenticator.Type.TOTP, Authenticator.Type.WEBAUTHN)
_HAS_FACTOR = "has_second_factor"
#: What is open before they are done, besides the pages of the second factor.
OPENS = frozenset(
    {
        "accounts:first_steps",
        "account_change_password",
        "account_reauthenticate",
        "account_lock",
        "account_locked",
        "account_logout",
    }
)
_SECOND_FACTOR = "mfa_"


class Step(StrEnum):
    PASSWORD = "password"  # noqa: S105  (no password)
    SECOND_FACTOR = "second factor"


def must_have_factor(user: User) -> bool:
    """Whether the clinic requires one of the person's role."""
    return user.role in settings.SECOND_FACTOR_ROLES


def forget_factor(session: SessionBase) -> None:
    """One was taken away: whether there is another is asked again."""
    session.pop(_HAS_FACTOR, None)


def due(request: HttpRequest) -> list[Step]:
    """What is still to do. That a factor is there is asked of the database once a session."""
    user, session = person_of(request), request.session
    steps = [Step.PASSWORD] if user.must_change_password else []
    if must_have_factor(user) and not session.get(_HAS_FACTOR):
        if is_mfa_enabled(user, FACTORS):
            session[_HAS_FACTOR] = True
        else:
            steps.append(Step.SECOND_FACTOR)
    return steps


def opens(name: str) -> bool:
    """Whether the page of that name is open before the steps are done."""
    return name in OPENS or name.startswith(_SECOND_FACTOR)

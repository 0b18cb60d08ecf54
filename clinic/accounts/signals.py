"""What a person does to their own way in, written to the audit trail as it happens."""

from typing import Any

from allauth.account.signals import password_changed
from allauth.mfa.models import Authenticator
from allauth.mfa.signals import (
    authentication_failed,
    authenticator_added,
    authenticator_removed,
    authenticator_reset,
)
from django.contrib.auth.signals import user_logged_in, user_logged_out
from django.dispatch import receiver
from django.http import HttpRequest

from clinic.accounts import first_steps, session_limits
from clinic.accounts.models import User
from clinic.audit.record import record

FACTORS = {
    Authenticator.Type.TOTP: "one-time codes",
    Authenticator.Type.WEBAUTHN: "passkey",
    Authenticator.Type.RECOVERY_CODES: "recovery codes",
}


@receiver(user_logged_in)
def signed_in(sender: Any, request: HttpRequest | None, user: User, **kwargs: Any) -> None:
    """Password, passkey or code: every way in ends here."""
    if request is not None and hasattr(request, "session"):
        session_limits.begin(request.session)
    # A request made by hand, as by a command, carries no user.
    named = request if request is not None and hasattr(request, "user") else user
    record(request_or_actor=named, action="signed in", subject=user)


@receiver(user_logged_out)
def signed_out(sender: Any, request: HttpRequest | None, user: User | None, **kwargs: Any) -> None:
    if user is not None:
        record(request_or_actor=request or user, action="signed out", subject=user)


@receiver(password_changed)
def changed_password(sender: Any, request: HttpRequest, user: User, **kwargs: Any) -> None:
    """By the person; what a lead sets is written by that action."""
    User.objects.filter(pk=user.pk).update(must_change_password=False)
    record(request_or_actor=request, action="changed own password", subject=user)


@receiver(authenticator_added)
def added_factor(
    sender: Any, request: HttpRequest, user: User, authenticator: Authenticator, **kwargs: Any
) -> None:
    record(
        request_or_actor=request,
        action="switched on second factor",
        subject=user,
        detail=_factor(authenticator),
    )


@receiver(authenticator_removed)
def removed_factor(
    sender: Any, request: HttpRequest, user: User, authenticator: Authenticator, **kwargs: Any
) -> None:
    first_steps.forget_factor(request.session)
    record(
        request_or_actor=request,
        action="switched off second factor",
        subject=user,
        detail=_factor(authenticator),
    )


@receiver(authenticator_reset)
def renewed_factor(
    sender: Any, request: HttpRequest, user: User, authenticator: Authenticator, **kwargs: Any
) -> None:
    record(
        request_or_actor=request,
        action="renewed second factor",
        subject=user,
        detail=_factor(authenticator),
    )


@receiver(authentication_failed)
def wrong_code(sender: Any, request: HttpRequest, user: User, **kwargs: Any) -> None:
    """Signing in or confirming: the password was right, the code was not. It is not kept."""
    record(request_or_actor=request, action="second factor failed", subject=user)


def _factor(authenticator: Authenticator) -> str:
    return FACTORS.get(authenticator.type, "")

"""Sign-ins and sign-outs, written to the audit trail as they happen."""

from typing import Any

from django.contrib.auth.signals import user_logged_in, user_logged_out
from django.dispatch import receiver
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record


@receiver(user_logged_in)
def signed_in(sender: Any, request: HttpRequest | None, user: User, **kwargs: Any) -> None:
    """Password, passkey or code: every way in ends here."""
    # A request made by hand, as by a command, carries no user.
    named = request if request is not None and hasattr(request, "user") else user
    record(request_or_actor=named, action="signed in", subject=user)


@receiver(user_logged_out)
def signed_out(sender: Any, request: HttpRequest | None, user: User | None, **kwargs: Any) -> None:
    if user is not None:
        record(request_or_actor=request or user, action="signed out", subject=user)

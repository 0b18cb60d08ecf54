"""What a clinic lead does to accounts: add, change, deactivate, set a password."""

from typing import Any

from allauth.core import ratelimit
from allauth.mfa.models import Authenticator
from django.core.exceptions import ValidationError
from django.db import models, transaction
from django.http import HttpRequest

from clinic.accounts.models import Role, User
from clinic.accounts.own_sessions import end_all_for_good
from clinic.audit.record import record
from clinic.taken import said_beside

Actor = HttpRequest | User

NAME_IS_GIVEN = "This user name is taken."


@transaction.atomic
def add_user(*, by: Actor, password: str, must_change: bool = True, **values: Any) -> User:
    """A new member of staff with a first password, which they change at the first sign-in."""
    user = User(must_change_password=must_change, **values)
    user.set_password(password)
    user.full_clean()
    with said_beside("username", NAME_IS_GIVEN):
        user.save()
    record(request_or_actor=by, action="added", subject=user, detail=f"role {user.role}")
    return user


@transaction.atomic
def change_user(*, user: User, by: Actor, **values: Any) -> User:
    """Change name, role or whether the person may sign in; one active lead must remain.

    Who may sign in no longer is signed out everywhere, and stays so when the account is opened
    again.
    """
    kept = User.objects.select_for_update().get(pk=user.pk)
    changed = sorted(name for name, value in values.items() if getattr(kept, name) != value)
    for name, value in values.items():
        setattr(kept, name, value)
    kept.full_clean()
    if not kept.is_active:
        end_all_for_good(kept)
    kept.save()
    if not User.objects.filter(role=Role.LEAD, is_active=True).exists():
        raise ValidationError("At least one clinic lead must be able to sign in.")
    words = ", ".join(_change_words(kept, name) for name in changed)
    record(request_or_actor=by, action="changed", subject=kept, detail=words)
    return kept


@transaction.atomic
def set_password(*, user: User, by: Actor, password: str, forget_factors: bool) -> None:
    """A new password, to be changed at the next sign-in, which ends the person's sessions;
    second factors go if lost."""
    user.set_password(password)
    user.must_change_password = True
    end_all_for_good(user)
    user.save(update_fields=["password", "must_change_password", "sessions_ended_at"])
    record(request_or_actor=by, action="set the password of", subject=user)
    if forget_factors:
        Authenticator.objects.filter(user=user).delete()
        record(request_or_actor=by, action="removed the second factors of", subject=user)


@transaction.atomic
def let_try_again(*, user: User, by: Actor) -> None:
    """Failed sign-ins and wrong codes so far count no more, from whatever address they came."""
    User.objects.filter(pk=user.pk).update(sign_in_releases=models.F("sign_in_releases") + 1)
    if isinstance(by, HttpRequest):
        ratelimit.clear(by, action="login_failed", key=f"mfa-auth-user-{user.pk}")
    record(request_or_actor=by, action="let try again", subject=user)


def _change_words(user: User, name: str) -> str:
    if name == "role":
        return f"role {user.role}"
    if name == "is_active":
        return "active" if user.is_active else "not active"
    return name

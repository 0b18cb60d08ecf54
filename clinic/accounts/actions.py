"""What a clinic lead does to accounts: add, change, deactivate, set a password."""

from typing import Any

from allauth.mfa.models import Authenticator
from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import Role, User
from clinic.audit.record import record
from clinic.taken import said_beside

Actor = HttpRequest | User

NAME_IS_GIVEN = "This user name is taken."


@transaction.atomic
def add_user(*, by: Actor, password: str, **values: Any) -> User:
    """A new member of staff with a first password."""
    user = User(**values)
    user.set_password(password)
    user.full_clean()
    with said_beside("username", NAME_IS_GIVEN):
        user.save()
    record(request_or_actor=by, action="added", subject=user, detail=f"role {user.role}")
    return user


@transaction.atomic
def change_user(*, user: User, by: Actor, **values: Any) -> User:
    """Change name, role or whether the person may sign in; one active lead must remain."""
    kept = User.objects.select_for_update().get(pk=user.pk)
    changed = sorted(name for name, value in values.items() if getattr(kept, name) != value)
    for name, value in values.items():
        setattr(kept, name, value)
    kept.full_clean()
    kept.save()
    if not User.objects.filter(role=Role.LEAD, is_active=True).exists():
        raise ValidationError("At least one clinic lead must be able to sign in.")
    words = ", ".join(_change_words(kept, name) for name in changed)
    record(request_or_actor=by, action="changed", subject=kept, detail=words)
    return kept


@transaction.atomic
def set_password(*, user: User, by: Actor, password: str, forget_factors: bool) -> None:
    """A new password, which ends the person's sessions; second factors go if lost."""
    user.set_password(password)
    user.save(update_fields=["password"])
    record(request_or_actor=by, action="set the password of", subject=user)
    if forget_factors:
        Authenticator.objects.filter(user=user).delete()
        record(request_or_actor=by, action="removed the second factors of", subject=user)


def _change_words(user: User, name: str) -> str:
    if name == "role":
        return f"role {user.role}"
    if name == "is_active":
        return "active" if user.is_active else "not active"
    return name

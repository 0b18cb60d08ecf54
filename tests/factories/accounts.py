"""Invented staff."""

from functools import cache

import factory
from django.contrib.auth.hashers import make_password

from clinic.accounts.models import Role, User

PASSWORD = "heather-gate-lantern-41"


@cache
def hashed() -> str:
    """The hash is slow by design, so one serves every invented person."""
    return make_password(PASSWORD)


class UserFactory(factory.django.DjangoModelFactory[User]):
    """``UserFactory(role=Role.NURSE)``; signs in with ``PASSWORD``."""

    class Meta:
        model = User

    username = factory.Sequence(lambda n: f"staff{n}")
    first_name = factory.Iterator(["Ada", "Bram", "Cleo", "Dov", "Esme"])
    last_name = factory.Iterator(["Quillfeather", "Marlowe-Test", "Ottersby", "Pennyfield"])
    role = Role.NURSE
    password = factory.LazyFunction(hashed)

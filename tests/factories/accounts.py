"""Invented staff."""

import factory
from django.contrib.auth.hashers import make_password

from clinic.accounts.models import Role, User

PASSWORD = "heather-gate-lantern-41"


class UserFactory(factory.django.DjangoModelFactory[User]):
    """``UserFactory(role=Role.NURSE)``; signs in with ``PASSWORD``."""

    class Meta:
        model = User

    username = factory.Sequence(lambda n: f"staff{n}")
    first_name = factory.Iterator(["Ada", "Bram", "Cleo", "Dov", "Esme"])
    last_name = factory.Iterator(["Quillfeather", "Marlowe-Test", "Ottersby", "Pennyfield"])
    role = Role.NURSE
    password = factory.LazyFunction(lambda: make_password(PASSWORD))

"""Everybody with an account, and how each signs in, for the clinic lead."""

from dataclasses import dataclass

from allauth.mfa.models import Authenticator

from clinic.accounts.first_steps import FACTORS, must_have_factor
from clinic.accounts.models import User

_WORDS = {Authenticator.Type.TOTP: "code from an app", Authenticator.Type.WEBAUTHN: "passkey"}


@dataclass(frozen=True)
class Person:
    """``factors`` in words; ``lacks``: the role requires one, and there is none yet."""

    user: User
    factors: str
    lacks: bool


def people() -> list[Person]:
    """Who may sign in comes first: two queries."""
    kinds: dict[int, set[str]] = {}
    rows = Authenticator.objects.filter(type__in=FACTORS).values_list("user_id", "type")
    for user, kind in rows:
        kinds.setdefault(user, set()).add(kind)
    users = User.objects.order_by("-is_active", "last_name", "first_name")
    return [_person(user, kinds.get(user.pk, set())) for user in users]


def _person(user: User, kinds: set[str]) -> Person:
    words = ", ".join(words for kind, words in _WORDS.items() if kind in kinds)
    return Person(user, words, lacks=user.is_active and must_have_factor(user) and not words)

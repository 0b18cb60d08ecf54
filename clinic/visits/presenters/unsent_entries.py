"""How a browser keeps what it could not send of a draft while the connection is lost."""

from base64 import b64encode
from typing import Any, NamedTuple

from django.utils.crypto import salted_hmac

from clinic.visits.models import Assessment


class Sealing(NamedTuple):
    """What the page encrypts unsent entries with, and the name it keeps them under.

    ``key``: 32 bytes in base64; without signing in again no one can read what it sealed.
    ``place``: no secret, but another for every person and draft, so that on a shared device
    no one writes over what a colleague left.
    """

    key: str
    place: str


def sealing(user: Any, assessment: Assessment) -> Sealing:
    """The same for this person and this draft every time, unknown to anyone else."""
    value = f"{user.pk}:{assessment.uuid}"
    key = salted_hmac("clinic.visits.drafts", value, algorithm="sha256").digest()
    place = salted_hmac("clinic.visits.drafts.place", value, algorithm="sha256").hexdigest()
    return Sealing(b64encode(key).decode(), place[:16])

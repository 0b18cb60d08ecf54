"""The key that seals what a browser keeps of a draft while the connection is lost."""

from base64 import b64encode
from typing import Any

from django.utils.crypto import salted_hmac

from clinic.visits.models import Assessment


def sealing_key(user: Any, assessment: Assessment) -> str:
    """32 bytes in base64: the same for this person and this draft, unknown to anyone else.

    The page encrypts unsent entries with it; without signing in again nobody can read them.
    """
    value = f"{user.pk}:{assessment.uuid}"
    return b64encode(
        salted_hmac("clinic.visits.drafts", value, algorithm="sha256").digest()
    ).decode()

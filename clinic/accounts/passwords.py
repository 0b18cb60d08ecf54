"""Long passwords that are common. The list of common ones that Django brings is of
short ones, and the shortest allowed here is longer than nearly all of them."""

import re
from typing import Any

from django.contrib.auth.password_validation import CommonPasswordValidator
from django.core.exceptions import ValidationError

#: At least so many different characters; a design value.
LEAST_DIFFERENT = 6
#: Runs along the keyboard and the alphabet, either way.
ROWS = ("abcdefghijklmnopqrstuvwxyz", "qwertyuiopasdfghjklzxcvbnm", "1234567890" * 3)
_REPEATED = re.compile(r"(.+?)\1+")
_SIGNS = re.compile(r"[\W_]+")
_ENDS = re.compile(r"^[\W\d_]+|[\W\d_]+$")


class CommonBeneathValidator:
    """Refuses one that is a common one made longer: repeated, or with digits and signs round it;
    a run along the keyboard; or few different characters."""

    words = "This password is easy to guess: a common one made longer, or a simple pattern."

    def __init__(self) -> None:
        self.common = CommonPasswordValidator().passwords

    def validate(self, password: str, user: Any = None) -> None:
        plain = password.lower()
        if len(set(plain)) < LEAST_DIFFERENT or self._is_common(plain) or _is_run(plain):
            raise ValidationError(self.words, code="password_common_beneath")

    def get_help_text(self) -> str:
        return "It is not a common password made longer, and no simple pattern."

    def _is_common(self, plain: str) -> bool:
        forms = (plain, _SIGNS.sub("", plain), _ENDS.sub("", plain))
        return any(once(one) in self.common for one in forms)


def once(text: str) -> str:
    """What ``text`` repeats; itself where it repeats nothing."""
    found = _REPEATED.fullmatch(text)
    return found[1] if found else text


def _is_run(plain: str) -> bool:
    letters = _SIGNS.sub("", plain)
    return any(letters in row * 2 or letters in (row * 2)[::-1] for row in ROWS)

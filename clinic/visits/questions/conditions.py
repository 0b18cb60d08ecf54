"""Which answers elsewhere make a question matter; ``conditions.js`` reads the same words.

``field=value,value`` (any of them), ``field=*`` (anything but *none*), ``field>=number``; several
with `` or `` between them.
"""

from collections.abc import Mapping, Sequence

#: Answers that are no finding.
NOTHING = {"", "none"}


def is_met(condition: str, answers: Mapping[str, Sequence[str]]) -> bool:
    """Whether ``answers`` (HTML name -> values) meet one of the conditions; "" is never met."""
    return any(_one(part, answers) for part in condition.split(" or ") if part)


def names_in(condition: str) -> tuple[str, ...]:
    """The fields a condition is about."""
    parts = (part for part in condition.split(" or ") if part)
    return tuple(part.replace(">=", "=").partition("=")[0] for part in parts)


def _one(part: str, answers: Mapping[str, Sequence[str]]) -> bool:
    if ">=" in part:
        name, _, least = part.partition(">=")
        return any(_number(value) >= float(least) for value in answers.get(name, ()))
    name, _, wanted = part.partition("=")
    given = set(answers.get(name, ()))
    if wanted == "*":
        return bool(given - NOTHING)
    return bool(given & set(wanted.split(",")))


def _number(typed: str) -> float:
    """What is no number reaches nothing."""
    try:
        return float(typed.replace(",", "."))
    except ValueError:
        return float("-inf")

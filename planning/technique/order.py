"""What must come before what in a change, and which steps no sheet may go without."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache
from typing import Final

from planning.results.message import to_patient
from planning.technique import RULES

#: Steps that guard against harm, and what they guard against (common practice, no source). A
#: clinician may reword a sheet; these stay on it wherever they apply.
SAFETY: Final = {
    "lie_down": "a stoma or hernia pushed back by untrained hands",
    "clean": "oil or wipes that leave the skin slippery and sore",
    "dry_veins": "veins that bleed when rubbed",
    "trim": "cuts from dry shaving",
    "check": "a stoma that turns dark and is not seen",
    "fill_wound": "filler pressed into a wound",
    "brush_off": "loose powder, on which nothing sticks",
    "seal_powder": "powder without film, on which nothing sticks",
    "repeat_layers": "more than three layers, on which nothing sticks",
    "thickener": "a sachet swallowed",
    "belt": "a belt so tight that it presses a sore",
    "garment": "a support worn through the night",
    "check_imprint": "pressure that is not seen until the skin breaks",
}


@cache
def _before() -> dict[str, frozenset[str]]:
    """Every step and all that come before it, also by way of a step that is not there."""
    direct = {rule.key: rule.after for rule in RULES}

    @cache
    def all_before(key: str) -> frozenset[str]:
        return frozenset(direct[key]).union(*(all_before(one) for one in direct[key]))

    return {key: all_before(key) for key in direct}


def must_follow(key: str, other: str) -> bool:
    """Whether ``key`` may only come after ``other``. Keys that no rule knows follow nothing."""
    return other in _before().get(key, frozenset())


def broken(keys: Sequence[str]) -> tuple[tuple[str, str], ...]:
    """Pairs (earlier, later) that are in the wrong order in ``keys``.

    >>> broken(["peel", "empty", "clean"]), broken(["empty", "peel", "clean"])
    ((('empty', 'peel'),), ())
    """
    return tuple(
        (later, key)
        for place, key in enumerate(keys)
        for later in keys[place + 1 :]
        if must_follow(key, later)
    )


def words_of(key: str) -> str:
    """The step as a patient reads it; "" where there is none for them, or no such step.

    >>> words_of("empty"), words_of("dance")
    ('Empty the pouch.', '')
    """
    return next((str(to_patient(rule.patient) or "") for rule in RULES if rule.key == key), "")

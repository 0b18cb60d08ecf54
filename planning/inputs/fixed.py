"""What a clinician fixed in place of something the plan proposed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class FixedKind(StrEnum):
    """What a choice is about: another supply, no supply, a gap round the stoma (mm), or the day on
    which the barrier is changed at the latest (whole days)."""

    SUPPLY = "supply"
    NONE = "none"
    GAP = "gap"
    DAY = "day"


@dataclass(frozen=True, slots=True)
class Fixed:
    """``key`` of the recommendation it replaces, as the plan alone proposes it. ``supply`` of the
    catalogue; ``amount`` in mm or days."""

    key: str
    kind: FixedKind
    supply: str = ""
    amount: float | None = None

    @property
    def code(self) -> str:
        """The choice as one word, to be stored and posted.

        >>> Fixed("ring", FixedKind.SUPPLY, "strip").code, Fixed("ring", FixedKind.NONE).code
        ('supply:strip', 'none')
        >>> Fixed("wear_interval", FixedKind.DAY, amount=3.0).code
        'day:3'
        """
        told = self.supply if self.kind is FixedKind.SUPPLY else ""
        if self.amount is not None:
            told = f"{self.amount:g}"
        return f"{self.kind.value}:{told}" if told else self.kind.value


class NoSuchChoice(ValueError):  # noqa: N818 - said as it is
    """A word that names no choice."""


def fixed_of(key: str, code: str) -> Fixed:
    """The choice that was stored as ``code``; raises ``NoSuchChoice``.

    >>> fixed_of("opening", "gap:2.5")
    Fixed(key='opening', kind=<FixedKind.GAP: 'gap'>, supply='', amount=2.5)
    """
    word, _, told = code.partition(":")
    try:
        kind = FixedKind(word)
        amount = float(told) if kind in (FixedKind.GAP, FixedKind.DAY) else None
    except ValueError as wrong:
        raise NoSuchChoice(code) from wrong
    return Fixed(key, kind, told if kind is FixedKind.SUPPLY else "", amount)


class Refused(ValueError):  # noqa: N818 - said as it is
    """A choice that may not be made: ``fixed``, and ``why`` in a sentence to the clinician."""

    def __init__(self, fixed: Fixed, why: str) -> None:
        self.fixed, self.why = fixed, why
        super().__init__(why)

"""Too few data is an answer of its own, never a number."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class TooFew:
    """No answer yet: ``have`` of at least ``need`` ``what`` ("removals", "visits")."""

    have: int
    need: int
    what: str

    @property
    def words(self) -> str:
        """As shown in place of the figure: ``too few to say: 2 of at least 5 observations``."""
        return f"too few to say: {self.have} of at least {self.need} {self.what}"

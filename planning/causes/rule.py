"""The form every cause takes: evidence for and against, each with its source.

Weights only put causes in order (design values); they are no probabilities.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import Final

from planning.facts.derive import Facts
from planning.inputs.clock import NOWHERE, ClockHours
from planning.results.plan import Cause, CauseOf, Reason

#: A sign that nearly makes the cause, a clear sign, a hint.
STRONG: Final = 3.0
CLEAR: Final = 2.0
HINT: Final = 1.0


@dataclass(frozen=True, slots=True)
class CauseRule:
    """One possible cause. ``weigh`` returns None where its essential sign is absent.

    ``tell`` is the next check that would support it.
    """

    key: str
    of: CauseOf
    title: str
    weigh: Callable[[Facts, Evidence], ClockHours | None]
    tell: str

    def assess(self, facts: Facts) -> Cause | None:
        """The cause with its evidence, or None where nothing points to it."""
        evidence = Evidence()
        hours = self.weigh(facts, evidence)
        if hours is None:
            return None
        return Cause(
            key=self.key,
            of=self.of,
            title=self.title,
            score=evidence.score,
            supports=tuple(evidence.supporting),
            against=tuple(evidence.opposing),
            hours=hours,
        )


@dataclass(slots=True)
class Evidence:
    """Gathers reasons. Only what is known to hold counts: None (not recorded) adds nothing."""

    score: float = 0.0
    supporting: list[Reason] = field(default_factory=list)
    opposing: list[Reason] = field(default_factory=list)

    def speaks_for(
        self, holds: object, weight: float, text: str, *sources: str, at: str = ""
    ) -> None:
        """Adds ``text`` in favour if ``holds``."""
        if holds:
            self.score += weight
            self.supporting.append(Reason(text, sources, at))

    def speaks_against(
        self, holds: object, weight: float, text: str, *sources: str, at: str = ""
    ) -> None:
        """Adds ``text`` against if ``holds``."""
        if holds:
            self.score -= weight
            self.opposing.append(Reason(text, sources, at))


#: For a cause that lies nowhere in particular on the face.
ANYWHERE: Final = NOWHERE

"""One item of a plan together with what was decided about it."""

from __future__ import annotations

from dataclasses import dataclass, replace

from clinic.plans.models import Choice
from planning.results.plan import FollowUp, Recommendation, RedFlag


@dataclass(frozen=True)
class Decided:
    """One item of the plan and its decision; ``choice`` is None while it is undecided."""

    item: RedFlag | Recommendation | FollowUp
    key: str
    text: str
    choice: Choice | None
    changed_to: str
    changed_words: str
    reason: str

    def accepted_by_default(self) -> Decided:
        """Itself once decided; else as if accepted."""
        return self if self.choice else replace(self, choice=Choice.ACCEPTED)

    @property
    def as_planned(self) -> bool:
        """Accepted as planned."""
        return self.choice == Choice.ACCEPTED

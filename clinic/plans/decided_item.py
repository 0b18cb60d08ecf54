"""One item of a plan together with what was decided about it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import time

from clinic.plans.models import Choice
from planning.results.plan import FollowUp, Recommendation, RedFlag, Stage

#: What is done first is said first; what has no stage comes after the changes.
_ORDER = (Stage.CORRECT_NOW, Stage.TODAY, None, Stage.KEEP)


def is_kept(item: object) -> bool:
    """Whether an item of a plan is something worn that stays as it is."""
    return isinstance(item, Recommendation) and item.stage is Stage.KEEP


@dataclass(frozen=True)
class Decided:
    """One item of the plan and its decision; ``choice`` is None while it is undecided.

    ``instead_of``: what was proposed, where this was chosen instead and the plan made again round
    it. ``note``: ``changed_to`` is a note in the clinician's own words. ``day``: the change day
    that was chosen. ``at``: the time of the next visit, None where none is agreed.
    """

    item: RedFlag | Recommendation | FollowUp
    key: str
    text: str
    choice: Choice | None
    changed_to: str
    changed_words: str
    reason: str
    at: time | None = None
    instead_of: str = ""
    note: bool = False
    day: float | None = None

    def accepted_by_default(self) -> Decided:
        """Itself once decided; else as if accepted."""
        return self if self.choice else replace(self, choice=Choice.ACCEPTED)

    @property
    def kept(self) -> bool:
        """Worn, and kept as the plan says."""
        return is_kept(self.item) and self.choice == Choice.ACCEPTED

    @property
    def turn(self) -> int:
        """Its place among the stages."""
        stage = self.item.stage if isinstance(self.item, Recommendation) else None
        return _ORDER.index(stage)

    @property
    def as_planned(self) -> bool:
        """Accepted, or chosen: it is done as this plan says it."""
        return self.choice == Choice.ACCEPTED or self.chosen

    @property
    def chosen(self) -> bool:
        """Chosen instead of what was proposed."""
        return bool(self.instead_of)

    @property
    def in_own_words(self) -> bool:
        """Something else, as the clinician wrote it: the plan does not say it."""
        return self.choice == Choice.CHANGED and not self.chosen

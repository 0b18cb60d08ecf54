"""The form of a step: when it applies, what must come before it, both wordings, sources."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from planning.chosen import Chosen
from planning.plan import Step
from planning.sources import PRACTICE

Words = str | Callable[[Chosen], str]


def always(_: Chosen) -> bool:
    """Part of every change."""
    return True


@dataclass(frozen=True, slots=True)
class StepRule:
    """``after`` names steps that come first whenever they apply. ``patient`` None: not for the
    sheet. Wording that holds sizes is a function of the chosen system."""

    key: str
    clinician: Words
    patient: str | None
    after: tuple[str, ...] = ()
    applies: Callable[[Chosen], bool] = always
    sources: tuple[str, ...] = (PRACTICE,)

    def step(self, chosen: Chosen) -> Step:
        """The step for this system."""
        words = self.clinician if isinstance(self.clinician, str) else self.clinician(chosen)
        return Step(self.key, words, self.patient, self.sources)


def uses(*keys: str) -> Callable[[Chosen], bool]:
    """Any of these supplies is chosen."""
    wanted = frozenset(keys)
    return lambda chosen: bool(wanted & chosen.supplies)

"""The form of a step: when it applies, what must come before it, both wordings, sources."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from planning.evidence.sources import PRACTICE
from planning.results.message import Words, to_patient
from planning.results.plan import Step
from planning.supplies.system_choice import SystemChoice

Wording = str | Callable[[SystemChoice], str]


def _nothing(_: SystemChoice) -> frozenset[str]:
    return frozenset()


@dataclass(frozen=True, slots=True)
class When:
    """When a step applies, and the recommendations it carries out: with any of those dropped it
    no longer holds. ``&``: both must apply, and both are carried out."""

    test: Callable[[SystemChoice], bool]
    carries: Callable[[SystemChoice], frozenset[str]] = _nothing

    def __call__(self, chosen: SystemChoice) -> bool:
        return self.test(chosen)

    def __and__(self, other: When) -> When:
        return When(
            lambda chosen: self(chosen) and other(chosen),
            lambda chosen: self.carries(chosen) | other.carries(chosen),
        )


def uses(*keys: str) -> When:
    """Any of these supplies is chosen."""
    wanted = frozenset(keys)
    return When(lambda chosen: bool(wanted & chosen.supplies), lambda c: wanted & c.supplies)


def carrying(key: str, test: Callable[[SystemChoice], bool]) -> When:
    """``test``, for a step that carries out the recommendation ``key``."""
    return When(test, lambda _: frozenset({key}))


def with_barrier(test: Callable[[SystemChoice], bool]) -> When:
    """``test``, for a step that handles the barrier chosen."""
    return When(test, lambda c: frozenset({c.barrier} if c.barrier else ()))


#: Part of every change.
ALWAYS = When(lambda _: True)


@dataclass(frozen=True, slots=True)
class StepRule:
    """``after`` names steps that come first whenever they apply. ``patient`` None: not for the
    sheet. Wording that holds sizes is a function of the chosen system."""

    key: str
    clinician: Wording
    patient: Words | None
    after: tuple[str, ...] = ()
    applies: When = ALWAYS
    sources: tuple[str, ...] = (PRACTICE,)

    def step(self, chosen: SystemChoice) -> Step:
        """The step for this system."""
        words = self.clinician if isinstance(self.clinician, str) else self.clinician(chosen)
        carried = tuple(sorted(self.applies.carries(chosen)))
        return Step(self.key, words, to_patient(self.patient), self.sources, carried)

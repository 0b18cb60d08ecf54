"""The form of a red flag: what makes it, how urgent it is, who looks and what to do meanwhile."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from planning.derive import Facts
from planning.plan import Reason, RedFlag, Urgency


@dataclass(frozen=True, slots=True)
class Verdict:
    """How urgent, what was found, and the path of the field it rests on."""

    urgency: Urgency
    found: str
    at: str = ""


@dataclass(frozen=True, slots=True)
class FlagRule:
    """One row of the table. ``judge`` answers None where the danger is not there.

    More severe findings may only raise the urgency that ``judge`` answers, never lower it.
    """

    key: str
    text: str
    refer_to: str
    do: str
    sources: tuple[str, ...]
    judge: Callable[[Facts], Verdict | None]
    patient_text: str | None = None

    def raised(self, facts: Facts) -> RedFlag | None:
        """The flag for these facts, or None."""
        verdict = self.judge(facts)
        if verdict is None:
            return None
        return RedFlag(
            key=self.key,
            urgency=verdict.urgency,
            text=self.text,
            refer_to=self.refer_to,
            do=self.do,
            because=(Reason(verdict.found, self.sources, verdict.at),),
            patient_text=self.patient_text,
        )

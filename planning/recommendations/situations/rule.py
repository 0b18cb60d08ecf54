"""The form of a situation: when it applies, what is said to whom, who is asked and how soon."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from planning.recommendations.refer import WHEN
from planning.results.message import to_patient
from planning.results.plan import Change, ItemKind, Reason, Recommendation, Urgency
from planning.supplies.system_choice import SystemChoice

Words = str | Callable[[SystemChoice], str]


def asked_sooner(chosen: SystemChoice, flag: str, within: Urgency) -> bool:
    """Whether this red flag asks for somebody sooner: one is never asked twice at two times."""
    sooner = (f for f in chosen.situation.flags if f.urgency.rank < within.rank)
    return any(flag in (f.key, *f.includes) for f in sooner)


@dataclass(frozen=True, slots=True)
class Situation:
    """One piece of advice. ``when`` completes "Given where ...".

    ``text`` for the clinician, at most two sentences; ``patient_text`` likewise, None: nothing for
    the sheet. ``why``: what was found. ``who`` is asked ``within`` that time; "": no one.
    ``names``: supplies it names though the plan holds none of them.
    """

    key: str
    title: str
    when: str
    holds: Callable[[SystemChoice], bool]
    text: Words
    why: str
    sources: tuple[str, ...]
    patient_text: str | None = None
    at: str = ""
    who: str = ""
    within: Urgency | None = None
    names: tuple[str, ...] = ()

    @property
    def asks(self) -> str:
        """Who is asked and how soon: ``Obstetric team, within 2 weeks``."""
        if not self.who or self.within is None:
            return self.who
        return f"{self.who}, {WHEN[self.within]}"

    def said(self, chosen: SystemChoice) -> Recommendation:
        """In words, for these findings; where all is kept, nothing is begun by it."""
        text = self.text if isinstance(self.text, str) else self.text(chosen)
        return Recommendation(
            key=self.key,
            kind=ItemKind.REFER if self.who else ItemKind.TEACH,
            change=Change.KEEP if chosen.kept else Change.START,
            text=f"{self.asks}: {text}" if self.who else text,
            because=(Reason(self.why, self.sources, self.at),),
            patient_text=to_patient(self.patient_text),
        )

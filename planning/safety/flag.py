"""The form of a red flag: what makes it, how urgent it is, who looks and what to do in the
meantime."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Final

from planning.facts.derive import Facts
from planning.results.message import Words, to_patient
from planning.results.plan import Reason, RedFlag, Urgency

#: The reader may be that nurse: then no one is called, the visit is just due that soon.
NURSE: Final = "stoma care nurse (your own list, if that is you)"


@dataclass(frozen=True, slots=True)
class Verdict:
    """How urgent, what was found, and the path of the field it rests on.

    ``ask``: companions not asked that could make it more urgent, in words.
    ``also``: what to do besides, for this person. ``refer_to``: who looks, where not whom the rule
    names. ``told``: what the sheet says besides; each of these is in the rule's ``besides``.
    """

    urgency: Urgency
    found: str
    at: str = ""
    ask: str = ""
    also: str = ""
    refer_to: str = ""
    told: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FlagRule:
    """One row of the table. ``judge`` answers None where the danger is not there.

    More severe findings may only raise the urgency that ``judge`` answers, never lower it.
    ``within`` names flags that say more of the same finding: raised with one of them, at no less
    urgency and for the same person, this flag joins it instead of calling that person twice.
    ``told_at``: the sheet's words for levels that need others than ``patient_text``.
    ``besides``: every sentence that a verdict may add to the sheet's words.
    ``adult_figures``: ``judge`` compares with a figure for adults, or the words name one. Under 16
    ``planning.safety.flags_children`` then judges in its place.
    """

    key: str
    text: str
    refer_to: str
    do: str
    sources: tuple[str, ...]
    judge: Callable[[Facts], Verdict | None]
    patient_text: Words | None = None
    within: tuple[str, ...] = ()
    told_at: Mapping[Urgency, Words] = field(default_factory=dict)
    adult_figures: bool = False
    besides: tuple[str, ...] = ()

    def raised(self, facts: Facts) -> RedFlag | None:
        """The flag for these facts, or None."""
        verdict = self.judge(facts)
        if verdict is None:
            return None
        asked = f"Ask now: {verdict.ask}." if verdict.ask else ""
        told = self.told_at.get(verdict.urgency, self.patient_text)
        return RedFlag(
            key=self.key,
            urgency=verdict.urgency,
            text=self.text,
            refer_to=verdict.refer_to or self.refer_to,
            do=_joined(asked, self.do, verdict.also),
            because=(Reason(verdict.found, self.sources, verdict.at),),
            patient_text=None if told is None else to_patient(told, *verdict.told),
        )


def _joined(*sentences: str) -> str:
    return " ".join(sentence for sentence in sentences if sentence)

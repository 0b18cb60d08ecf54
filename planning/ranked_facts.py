"""Facts, ranked causes and red flags together: what the later stages judge from."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from planning.causes.products import suspects, worn_outside
from planning.facts.derive import Facts, Seen
from planning.facts.harmless import harmless, lasting_mark
from planning.inputs.findings import Material, SkinKind
from planning.results.plan import CauseOf, CauseRanking, RedFlag, Urgency

_CONTACT = frozenset({"allergic_contact", "irritant_contact"})


@dataclass(frozen=True)
class RankedFacts:
    """``flags`` are ordered by urgency, ``causes`` by likelihood."""

    facts: Facts
    causes: CauseRanking
    flags: tuple[RedFlag, ...]

    @cached_property
    def urgency(self) -> Urgency:
        """How soon someone must look; routine without a flag."""
        return self.flags[0].urgency if self.flags else Urgency.ROUTINE

    @property
    def emergency(self) -> bool:
        return self.urgency is Urgency.EMERGENCY

    @cached_property
    def _flagged(self) -> frozenset[str]:
        return frozenset(key for flag in self.flags for key in (flag.key, *flag.includes))

    def flagged(self, *keys: str) -> bool:
        """Any of these red flags is raised, by itself or within another."""
        return bool(self._flagged & set(keys))

    @cached_property
    def _likely(self) -> frozenset[str]:
        return frozenset(cause.key for cause in self.causes.causes if cause.score > 0)

    def likely(self, *keys: str) -> bool:
        """The evidence for any of these causes outweighs that against it."""
        return bool(self._likely & set(keys))

    def possible(self, key: str) -> str:
        """How sure this cause is, in words: never more than *likely*."""
        return "Possible" if key in self.causes.cannot_tell_apart else "Likely"

    @cached_property
    def injured_by_pressure(self) -> tuple[Seen, ...]:
        """Bruises, sores, and marks not timed. A mark that fades is none; a timed red mark that
        stays asks for one step less instead."""
        marks = self.facts.find(SkinKind.PRESSURE_MARK, SkinKind.BRUISE)
        injured = [m for m in marks if not harmless(m.finding) and not lasting_mark(m.finding)]
        if self.likely("pressure_injury"):
            injured += self.facts.find(SkinKind.ULCER)
        return tuple(injured)

    @property
    def barrier_injures(self) -> bool:
        """One of them lies under the barrier: beyond it only the belt or a garment presses."""
        return any(self.facts.under_barrier(seen) for seen in self.injured_by_pressure)

    @cached_property
    def suspected(self) -> Material | None:
        """The product at the barrier to leave off first; None while a leak explains the skin (or
        nothing does)."""
        skin = [c.key for c in self.causes.causes if c.of is CauseOf.SKIN]
        if not skin or skin[0] not in _CONTACT or self.facts.leaking:
            return None
        return next(iter(suspects(self.facts)), None)

    @cached_property
    def left_off(self) -> frozenset[Material]:
        """Every suspected material left off: one at the barrier, and what lies on reacting
        skin beyond it, where no leak reaches."""
        here = frozenset() if self.suspected is None else frozenset({self.suspected})
        return here | worn_outside(self.facts)

    def keeps_off(self, material: Material) -> bool:
        """The person reacts to it, or it is suspected and left off: nothing may offer it."""
        return self.facts.reacts_to(material) or material in self.left_off

"""What was agreed as known and accepted, held against what is found today.

An agreed baseline counts as usual only while nothing about it has changed and its review is not
overdue. What was not recorded today is not *as known*: it is named, to be asked.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Final

from planning.evidence.sources import DESIGN
from planning.facts.derive import Facts
from planning.inputs.findings import Baseline, BaselineKind
from planning.inputs.quantities import AGREED
from planning.results.plan import Reason
from planning.safety.baselines import of_fluid, of_stoma
from planning.safety.baselines.difference import NoneToday

#: What would be worse, by kind.
DIFFERENCES: Final = MappingProxyType({**of_fluid.DIFFERENCES, **of_stoma.DIFFERENCES})
#: As said in a notice.
NAMES: Final[Mapping[BaselineKind, str]] = MappingProxyType(
    {
        BaselineKind.OUTPUT_TARGET: "output target",
        BaselineKind.PROLAPSE: "prolapse",
        BaselineKind.HEIGHT: "height of the stoma",
        BaselineKind.BULGE: "bulge beside the stoma",
        BaselineKind.VARICES: "dilated veins",
        BaselineKind.LIVER_DISEASE: "liver disease without dilated veins",
        BaselineKind.CONFUSION: "confusion",
        BaselineKind.DARK_STOMA: "dark stoma",
        BaselineKind.THICK_SKIN: "thick skin",
        BaselineKind.HEALED_PYODERMA: "healed pyoderma",
        BaselineKind.CONTACT_BLEEDING: "drops of blood on wiping",
        BaselineKind.PINK_URINE_OR_MUCUS: "pink urine or mucus",
        BaselineKind.SEPARATION: "mucocutaneous separation",
        BaselineKind.NARROW_LUMEN: "narrow lumen",
    }
)


@dataclass(frozen=True, slots=True)
class Compared:
    """``agreed`` against today. ``worse``: seen today; ``unseen``: what was not recorded today and
    would show whether it still is as agreed. ``gone``: looked for, and there is none today."""

    agreed: Baseline
    worse: tuple[str, ...]
    unseen: tuple[str, ...]
    gone: bool = False

    @property
    def as_known(self) -> bool:
        """Looked at in every respect, and unchanged."""
        return not self.worse and not self.unseen

    @property
    def words(self) -> str:
        """One sentence or more: what was agreed by whom, and how today compares."""
        name = NAMES[self.agreed.kind]
        start = f"Compared with what {self.agreed.agreed_by} agreed ({name}{self._figure})"
        if self.gone:
            return f"{start}: not there today."
        if self.as_known:
            return f"{start}: as known."
        parts = [f"worse: {', '.join(self.worse)}"] if self.worse else []
        parts += [f"not recorded today: {', '.join(self.unseen)}"] if self.unseen else []
        return f"{start}: {'; '.join(parts)}."

    @property
    def _figure(self) -> str:
        """``, 1800 mL/24 h``."""
        if self.agreed.value is None:
            return ""
        quantity = AGREED.get(self.agreed.kind)
        return f", {self.agreed.value:g} {quantity.unit if quantity else ''}".rstrip()


def compared(facts: Facts, kind: BaselineKind) -> Compared | None:
    """How today compares; None where nothing is agreed or its review is overdue."""
    agreed = facts.history.baseline(kind)
    if agreed is None:
        return None
    try:
        found = tuple(dict.fromkeys(DIFFERENCES[kind](facts, agreed)))
    except NoneToday:
        return Compared(agreed, (), (), gone=True)
    unseen = tuple(d.text for d in found if not d.seen)
    return Compared(agreed, tuple(d.text for d in found if d.seen), unseen)


def as_known(facts: Facts, kind: BaselineKind) -> bool:
    """Agreed, in force, looked at in every respect and unchanged."""
    against = compared(facts, kind)
    return against is not None and against.as_known


def was_there(facts: Facts, kind: BaselineKind) -> bool:
    """Agreed and in force, and nothing seen today is worse: it is not new."""
    against = compared(facts, kind)
    return against is not None and not against.worse


def comparisons(facts: Facts) -> Iterator[Reason]:
    """What the plan says of every agreed baseline: it is never used in silence."""
    for kind in dict.fromkeys(b.kind for b in facts.history.baselines):
        against = compared(facts, kind)
        text = _lapsed(kind) if against is None else against.words
        yield Reason(text, (DESIGN,), "history.baselines")


def _lapsed(kind: BaselineKind) -> str:
    return (
        f"What was agreed ({NAMES[kind]}) is overdue for review: nothing counts as usual because "
        "of it until it is agreed again."
    )

"""Whether the opening in use stays, and if not, which one condition asks for another.

An opening that fits is left as it is, and so is a wide one over whole skin that is covered or that
only formed stool reaches. Figures and conditions: design values.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import GAP_MOST, GAP_RUBS, SIZE_CHANGED
from planning.facts.derive import BROKEN, Facts, fistula_at_barrier
from planning.geometry.outline import outline_of
from planning.inputs.findings import Accessory, Consistency, Oedema, SkinKind
from planning.results.plan import Reason

#: Skin that a hole too wide must not leave bare.
_SORE: Final = frozenset({*BROKEN, SkinKind.MACERATION, SkinKind.WARTY, SkinKind.GRANULOMA})


class Verdict(StrEnum):
    """What becomes of the opening in use."""

    STAYS = "stays"
    UNKNOWN = "unknown"
    #: It harms: changed whatever else is changed.
    CORRECT = "correct"
    #: It may be why it leaks.
    REFIT = "refit"


@dataclass(frozen=True, slots=True)
class OpeningVerdict:
    """``why``: the one condition that decides."""

    verdict: Verdict
    why: Reason | None = None

    @property
    def changes(self) -> bool:
        return self.verdict in (Verdict.CORRECT, Verdict.REFIT)


#: Nothing is known of the opening in use.
UNKNOWN_OPENING: Final = OpeningVerdict(Verdict.UNKNOWN)


def judge_opening(facts: Facts) -> OpeningVerdict:
    """Leave the opening in use, correct it or refit it; the first condition that holds."""
    if (why := _rubs(facts)) is not None:
        return OpeningVerdict(Verdict.CORRECT, why)
    gap = facts.worn_gap
    if gap is None or fistula_at_barrier(facts) or _widest_unknown(facts):
        return UNKNOWN_OPENING
    if gap.most_mm <= GAP_MOST.value or _meant_wide(facts):
        return OpeningVerdict(Verdict.STAYS)
    if (why := _bares_sore_skin(facts, gap.most_mm)) is not None:
        return OpeningVerdict(Verdict.CORRECT, why)
    if (why := _grew_or_shrank(facts)) is not None:
        return OpeningVerdict(Verdict.CORRECT, why)
    formed = facts.findings.output.consistency in (Consistency.FORMED, Consistency.SOFT)
    if facts.troubled and not covered(facts) and not formed:
        return OpeningVerdict(
            Verdict.REFIT,
            Reason(
                f"It leaves {gap.most_mm:.1f} mm of skin bare a side, and it leaks.",
                ("green2018/most", DESIGN),
                "system.opening_length_mm",
            ),
        )
    return OpeningVerdict(Verdict.STAYS)


def covered(facts: Facts) -> bool:
    """A ring, or a barrier rolled up to the stoma, covers the skin in the gap."""
    return bool(facts.wears(Accessory.RING)) or facts.mouldable


def _rubs(facts: Facts) -> Reason | None:
    m, gap = facts.findings.measurement, facts.worn_gap
    if m.deep_cut or m.rubbed:
        where = "measurement.deep_cut" if m.deep_cut else "measurement.rubbed"
        return Reason("The mucosa is cut or shows a pale line: the edge rubs.", (DESIGN,), where)
    system = facts.findings.system
    if system is not None and system.presses:
        return Reason("Opening or coupling is tight on the stoma.", (PRACTICE,), "system.presses")
    soft = facts.mouldable or bool(facts.wears(Accessory.RING))
    if gap is None or gap.least_mm >= GAP_RUBS.value or (soft and gap.least_mm >= 0):
        return None
    text = (
        f"The opening in use is {-gap.least_mm:.1f} mm a side smaller than the stoma."
        if gap.least_mm < 0
        else f"Its edge is only {gap.least_mm:.1f} mm from the stoma and rubs."
    )
    return Reason(text, ("common_practice", DESIGN), "system.opening_length_mm")


def _bares_sore_skin(facts: Facts, gap_mm: float) -> Reason | None:
    """Sore skin that begins inside the gap; where it begins is not recorded: it counts."""
    for seen in facts.damaged:
        finding = seen.finding
        sore = finding.kind in _SORE or finding.moist
        if sore and (finding.inner_mm is None or finding.inner_mm < gap_mm):
            text = f"It leaves {gap_mm:.1f} mm of skin bare a side, and the skin in it is sore."
            return Reason(text, (DESIGN, "green2018/most"), seen.path)
    return None


def _grew_or_shrank(facts: Facts) -> Reason | None:
    """The size moved by more than measuring can err since it was last taken."""
    if facts.outline is None or not facts.history.previous:
        return None
    before = outline_of(facts.history.previous[-1].measurement)
    if before is None:
        return None
    moved = abs(before.length_mm - facts.outline.length_mm)
    if moved < SIZE_CHANGED.value:
        return None
    text = f"The stoma changed by {moved:.0f} mm since the last visit, and the opening is too wide."
    return Reason(text, (DESIGN,), "measurement.length_mm")


def _widest_unknown(facts: Facts) -> bool:
    """A prolapse must pass with its widest part, which was not measured."""
    return bool(facts.prolapsed) and facts.findings.measurement.widest_mm is None


def _meant_wide(facts: Facts) -> bool:
    """A swelling, or a tip wider than the base (a prolapse too), needs the room."""
    m = facts.findings.measurement
    return m.oedema is Oedema.MARKED or m.widest_mm is not None

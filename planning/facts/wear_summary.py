"""What the wear log says. A barrier taken off as planned had not failed: its time is censored."""

from __future__ import annotations

from dataclasses import dataclass
from statistics import stdev

from planning.evidence.thresholds import (
    WEAR_TYPING_ERROR,
    WEAR_USUAL_COLO,
    WEAR_USUAL_ILEO,
    WEAR_USUAL_URO,
    Threshold,
)
from planning.inputs.findings import RemovalReason, StomaKind, WearEpisode

#: Comes off for it, not as planned: the barrier failed.
FAILED = frozenset({RemovalReason.LEAK, RemovalReason.FELL_OFF})


def system_failed(episode: WearEpisode) -> bool:
    """It leaked or fell off, and nothing but the system is recorded as the reason.

    What is over or not the system's doing (an illness, an overfull pouch, a load across it) is
    watched up to then and counts as not failed.
    """
    return episode.reason in FAILED and episode.circumstance is None


@dataclass(frozen=True, slots=True)
class WearSummary:
    """``changes`` barriers taken off, ``leaks`` of them for a leak or because they fell off.

    ``mean_days`` over all of them (None: none taken off); ``shortest``/``longest`` likewise.
    ``excused``: failures with a circumstance that explains them, not among ``leaks``.
    ``left_out``: episodes so long that they look like slips of the pen. ``spread_days``: standard
    deviation (n - 1), None below two barriers.
    """

    changes: int
    leaks: int
    sore: int
    mean_days: float | None
    shortest_days: float | None
    longest_days: float | None
    left_out: int
    spread_days: float | None = None
    excused: int = 0

    @property
    def leak_rate(self) -> float | None:
        """Leaks per change, None without a change."""
        return self.leaks / self.changes if self.changes else None


def summarise(wear: tuple[WearEpisode, ...] | None) -> WearSummary | None:
    """Summary of a log; None where no log was kept."""
    if wear is None:
        return None
    ended = [e for e in wear if e.reason is not None]
    kept = [e for e in ended if e.days <= WEAR_TYPING_ERROR.value]
    days = [e.days for e in kept]
    return WearSummary(
        changes=len(kept),
        leaks=sum(system_failed(e) for e in kept),
        sore=sum(e.reason is RemovalReason.ITCH_OR_PAIN for e in kept),
        mean_days=sum(days) / len(days) if days else None,
        shortest_days=min(days, default=None),
        longest_days=max(days, default=None),
        left_out=len(ended) - len(kept),
        spread_days=stdev(days) if len(days) > 1 else None,
        excused=sum(e.reason in FAILED and e.circumstance is not None for e in kept),
    )


def usual_wear(kind: StomaKind) -> Threshold:
    """Published mean wear (days) for this kind of stoma."""
    if kind is StomaKind.COLOSTOMY:
        return WEAR_USUAL_COLO
    return WEAR_USUAL_URO if kind is StomaKind.UROSTOMY else WEAR_USUAL_ILEO

"""What earlier plans taught: what worked, what failed, what hurt."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from functools import cache

from planning.facts.derive import Facts
from planning.inputs.findings import Accessory, History, Trial
from planning.supplies.worn import worn_now

_FLAT = frozenset({"flat_flexible", "flat_firm"})
_DEPTHS = ("shallow", "moderate", "deep")


def failed(history: History, *keys: str) -> bool:
    """A trial with all of these supplies did not help (either flat barrier counts as the other)."""
    return any(t.helped is False and set(keys) <= _with_flats(t.supplies) for t in history.trials)


def hurt(history: History) -> frozenset[str]:
    """Supplies that hurt in any trial."""
    return frozenset().union(*(trial.hurt for trial in history.trials))


def too_strong(history: History, barriers: Iterable[str]) -> frozenset[str]:
    """Of ``barriers`` those too strong after what hurt: only what is flatter or softer, and in
    neither point more, is a step down from a barrier that injured."""
    injured = [key for key in hurt(history) if key != "flat_flexible" and _barriers({key})]
    return frozenset(new for new in barriers if any(not _no_stronger(new, old) for old in injured))


def proven(history: History) -> frozenset[str]:
    """Supplies of the newest trial that helped, less what hurt."""
    helped = [t.supplies for t in history.trials if t.helped]
    return (helped[-1] if helped else frozenset()) - hurt(history)


def stronger_than_failed(facts: Facts, barriers: Iterable[str]) -> frozenset[str]:
    """Of ``barriers`` those that lift more than every barrier that failed since one last helped: a
    step up goes from flat to soft convex, then deeper or firmer."""
    tried = [_barriers(t.supplies) for t in _since_success(facts.history) if t.helped is False]
    old = [barrier for trial in tried for barrier in trial] + _failing_now(facts)
    return frozenset(new for new in barriers if all(_stronger(new, one) for one in old))


def weakest(barriers: Collection[str]) -> str:
    """Of one or more ``barriers`` the one that presses least."""
    return min(barriers, key=lambda key: (*_pressure(key), key))


def _failing_now(facts: Facts) -> list[str]:
    """The barrier in use where it leaks in spite of a ring and nothing else explains it."""
    worn = worn_now(facts)
    fails = facts.leak_unexplained and facts.wears(Accessory.RING) and worn.barrier_certain
    return list(worn.possible) if fails else []


def _since_success(history: History) -> list[Trial]:
    newest: list[Trial] = []
    for trial in reversed(history.trials):
        if trial.helped:
            break
        newest.append(trial)
    return newest


def _with_flats(supplies: frozenset[str]) -> frozenset[str]:
    return supplies | _FLAT if supplies & _FLAT else supplies


def _barriers(supplies: Collection[str]) -> list[str]:
    return [key for key in supplies if key in _FLAT or "_convex_" in key]


@cache
def _rank(barrier: str) -> tuple[int, bool]:
    """Depth step and firmness; flat is step 0."""
    depth = barrier.rpartition("_")[2]
    step = _DEPTHS.index(depth) + 1 if depth in _DEPTHS else 0
    return step, barrier.startswith("firm_convex")


def _stronger(new: str, old: str) -> bool:
    (depth, firm), (old_depth, old_firm) = _rank(new), _rank(old)
    return depth > old_depth or (depth == old_depth and firm and not old_firm)


def _no_stronger(new: str, old: str) -> bool:
    """Neither deeper nor firmer; a flat, firm plate counts as firm."""
    (depth, firm), (old_depth, old_firm) = _pressure(new), _pressure(old)
    return depth <= old_depth and firm <= old_firm


def _pressure(barrier: str) -> tuple[int, bool]:
    return _rank(barrier)[0], barrier.startswith("firm_convex") or barrier == "flat_firm"

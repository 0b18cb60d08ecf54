"""How much must be watched until a halving would show."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache

from planning.inputs.usable_numbers import check_numbers
from planning.statistics.rates import kept_share, tails


@lru_cache(maxsize=512)
def weeks_to_show(
    events: int,
    days: float,
    times: float,
    *,
    level: float,
    power: float,
    most: int,
    drift_after: Callable[[float], float] = lambda _: 0.0,
) -> int | None:
    """Weeks after which a rate ``times`` as high (below 1) would show, in ``power`` of cases.

    ``events`` in ``days`` before are taken as they are; those after are Poisson. It shows where the
    comparison of ``compare_rates`` is below ``level``, with the drift ``drift_after`` so many days.
    None: not within ``most`` weeks.
    """
    check_numbers(events=events, days=days, times=times, most=most, low=0)
    check_numbers(level=level, power=power, above=0, below=1)
    if not events or days <= 0:
        return None
    from scipy.stats import poisson  # slow to load

    for weeks in range(1, most + 1):
        after = 7.0 * weeks
        mean = events / days * after * times
        shown = _most_that_shows(events, days, after, level, drift_after(after))
        if shown is not None and float(poisson.cdf(shown, mean)) >= power:
            return weeks
    return None


def _most_that_shows(
    events: int, days: float, after: float, level: float, drift: float
) -> int | None:
    """So many events in ``after`` days, and no more, are fewer than before beyond chance."""
    share, found = after / (days + after), None
    for many in range(events * 100):
        kept = kept_share(events + many, share, drift)
        if 2 * tails(events * kept, many * kept, share)[0] > level:
            break
        found = many
    return found

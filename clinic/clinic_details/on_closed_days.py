"""What other apps have planned for a day, asked when the lead closes it."""

from collections.abc import Callable
from datetime import date

#: How many next visits are set for that day.
Counter = Callable[[date], int]

_counters: list[Counter] = []


def register(counter: Counter) -> None:
    """Have ``counter`` asked. Call it from ``AppConfig.ready``."""
    if counter not in _counters:
        _counters.append(counter)


def visits_on(day: date) -> int:
    """Next visits that are set for ``day``."""
    return sum(counter(day) for counter in _counters)

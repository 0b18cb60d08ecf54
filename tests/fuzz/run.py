"""Episodes until enough requests are sent, and what came of them."""

from __future__ import annotations

import logging
import os
from collections import Counter, defaultdict
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from random import Random
from unittest.mock import patch

from tests.fuzz import values
from tests.fuzz.clinic import Clinic, made
from tests.fuzz.episode import Answer, Episode


@dataclass
class Outcome:
    """``counts`` by status; ``faults``: number of the episode and its answer, for every 5xx."""

    seed: int
    counts: Counter[int] = field(default_factory=Counter)
    faults: list[tuple[int, Answer]] = field(default_factory=list)
    turned_away: int = 0

    @property
    def sent(self) -> int:
        return self.counts.total()

    def lines(self) -> Iterator[str]:
        """For people: the counts, then each cause with how to repeat it."""
        yield f"{self.sent} requests, seed {self.seed}"
        for status, count in sorted(self.counts.items()):
            yield f"  {status}  {count}"
        yield f"  {self.turned_away} of them were led to signing in"
        causes: dict[str, list[tuple[int, Answer]]] = defaultdict(list)
        for number, answer in self.faults:
            causes[f"{answer.status} {answer.fault}"].append((number, answer))
        for cause, found in sorted(causes.items(), key=lambda one: -len(one[1])):
            yield f"\n{cause}: {len(found)}"
            for number, answer in found:
                yield f"  --seed {self.seed} --only {number}   {answer.asked[:160]}"


def clinic_of(seed: int) -> Clinic:
    """The clinic, the same for the same seed; made in an empty database."""
    with _repeatable(seed, "clinic"):
        return made()


def run(
    clinic: Clinic,
    *,
    seed: int,
    requests: int,
    only: int | None = None,
    until_fault: bool = False,
    slow: float = 1.0,
    show: bool = False,
) -> Outcome:
    """At least ``requests`` of them, or one episode ``only``; nothing of it stays. ``show`` prints
    each request and what broke; ``slow``: how often whole pages are opened (``Episode``)."""
    outcome = Outcome(seed)
    stock = values.stock(seed, min(max(requests // 4, 200), 3000))
    number = only or 0
    while outcome.sent < requests:
        with _repeatable(seed, f"ids {number}"):
            chance = Random(f"{seed} {number}")  # noqa: S311
            answers = Episode(clinic, stock, chance, slow).play()
        for answer in answers:
            outcome.counts[answer.status] += 1
            outcome.turned_away += answer.turned_away
            # 503 says that the database is away: no fault of the program.
            if answer.status >= 500 and answer.status != 503:
                outcome.faults.append((number, answer))
            if show:
                print(f"{answer.status}  {answer.asked}\n{answer.trace}")
        if only is not None or (until_fault and outcome.faults):
            break
        number += 1
    return outcome


@contextmanager
def _repeatable(seed: int, what: str) -> Iterator[None]:
    """Ids made in the meantime are the same every time; the log is quiet."""
    before = logging.root.manager.disable
    logging.disable(logging.CRITICAL)
    with patch.object(os, "urandom", Random(f"{seed} {what}").randbytes):  # noqa: S311
        try:
            yield
        finally:
            logging.disable(before)

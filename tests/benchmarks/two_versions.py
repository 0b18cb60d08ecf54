"""The cost of one plan in two checkouts, in turns, each in its own process.

The assessment is ``FULL`` with ``HISTORY`` of ``tests.benchmarks.assessment``, which either
checkout builds of its own types; whatever the older one records, the newer one must record alike.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from pathlib import Path
from statistics import median
from typing import Any, Final, NamedTuple

_HERE: Final = Path(__file__).parents[2]
_WORKER: Final = Path(__file__).with_name("timed_plans.py")
#: Plans made at each turn: so few that either version meets the same moments of a busy machine.
_A_TURN: Final = 5


class Compared(NamedTuple):
    """Median processor seconds of one plan, here and there, and the median of the turns' ratios."""

    rule_set: str
    here: float
    older_rule_set: str
    older: float
    ratio: float


class _Version:
    """A process that plans with the code of one checkout."""

    def __init__(self, root: Path) -> None:
        self._process = subprocess.Popen(
            [sys.executable, "-P", str(_WORKER)],
            cwd=root,
            env={**os.environ, "PYTHONPATH": str(root), "PYTHONHASHSEED": "0"},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        self.about: dict[str, Any] = json.loads(self._line())

    def turn(self) -> float:
        """Processor seconds of one plan."""
        assert self._process.stdin is not None
        self._process.stdin.write(f"{_A_TURN}\n")
        self._process.stdin.flush()
        return float(self._line()) / _A_TURN

    def end(self) -> None:
        """Lets the process finish."""
        self._process.communicate()

    def _line(self) -> str:
        assert self._process.stdout is not None
        return self._process.stdout.readline()


def compare(older: Path, rounds: int) -> Compared:
    """``rounds`` turns of each. Raises ``ValueError`` where they do not plan from the same."""
    new, old = _Version(_HERE), _Version(older.resolve())
    try:
        for part in ("findings", "history"):
            if differs := _differs(old.about[part], new.about[part], part):
                raise ValueError(f"Not the same assessment: {differs}")
        new.turn(), old.turn()
        turns = [(new.turn(), old.turn()) for _ in range(rounds)]
    finally:
        new.end()
        old.end()
    return Compared(
        new.about["rule_set"],
        median(mine for mine, _ in turns),
        old.about["rule_set"],
        median(its for _, its in turns),
        median(mine / its for mine, its in turns),
    )


def _differs(old: Any, new: Any, path: str) -> str | None:
    """The first place where ``new`` lacks or changes what ``old`` records; more is no matter."""
    if isinstance(old, dict):
        pairs = [(value, new.get(name), f"{path}.{name}") for name, value in old.items()]
    elif isinstance(old, list) and all(isinstance(word, str) for word in old):
        return None if set(old) <= set(new) else path
    elif isinstance(old, list) and len(old) == len(new):
        pairs = [(*two, f"{path}.{i}") for i, two in enumerate(zip(old, new, strict=True))]
    else:
        return None if old == new else path
    return next((found for pair in pairs if (found := _differs(*pair))), None)

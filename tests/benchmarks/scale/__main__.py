"""Every page at two sizes of the clinic, side by side in one run.

    python -m tests.benchmarks.scale [--people 100000] [--rounds 15] [--explain 0.05]

Prints queries, median seconds and the server's own processor time of each page at 1,000 people and
at ``--people``, and the ratio of the seconds. ``--explain``: the database's plan of each page's
statements over so many seconds.
The databases are kept in a hidden folder, so that a second run starts at once; delete it to begin
again. The large one takes some minutes and about 30 GB to make.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
from pathlib import Path
from statistics import median
from typing import Any

from clinic.bootstrap.database import running

ROOT = Path(__file__).resolve().parents[3]
SMALL = 1_000


class Side:
    """A worker on one database."""

    def __init__(self, address: str, people: int) -> None:
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.benchmarks.scale.worker", str(people)],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
            env=os.environ
            | {
                "DATABASE_URL": address,
                "CLINIC_MODE": "demo",
                "SECRET_KEY": "only-for-measuring-nothing-real-is-kept-here-at-all",
                "DJANGO_SETTINGS_MODULE": "clinic.settings",
            },
        )
        self.made = self._read()

    def ask(self, line: str) -> dict[str, Any]:
        """One page opened."""
        assert self.process.stdin is not None
        self.process.stdin.write(line + "\n")
        self.process.stdin.flush()
        return self._read()

    def _read(self) -> dict[str, Any]:
        assert self.process.stdout is not None
        for line in self.process.stdout:
            if line.startswith("{"):
                return dict(json.loads(line))
            print(line, end="", flush=True)
        sys.exit("A side of the benchmark ended early.")


def main() -> None:
    """Makes what is missing, measures in turns, prints."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--people", type=int, default=100_000)
    parser.add_argument("--rounds", type=int, default=15)
    parser.add_argument("--explain", type=float)
    options = parser.parse_args()
    home = ROOT / ".postgres-scale"
    with running(home, "small") as small, running(home, f"large_{options.people}") as large:
        sides = (Side(small, SMALL), Side(large, options.people))
        for side in sides:
            print(f"{side.made['people']:,} people, {side.made['visits']:,} visits")
        for page in sides[0].made["pages"]:
            _measure(page, sides, options.rounds, options.explain)


def _measure(page: str, sides: tuple[Side, Side], rounds: int, explain: float | None) -> None:
    for side in sides:
        side.ask(page)  # what is read once and kept does not count
    taken = [[side.ask(page) for side in sides] for _ in range(rounds)]
    low, high = ([turn[i] for turn in taken] for i in (0, 1))
    seconds = [median(one["seconds"] for one in side) for side in (low, high)]
    own = [median(one["processor"] for one in side) for side in (low, high)]
    print(
        f"{page:18} queries {low[-1]['queries']:3} and {high[-1]['queries']:3}   "
        f"{seconds[0] * 1000:7.1f} ms and {seconds[1] * 1000:8.1f} ms   "
        f"ratio {seconds[1] / seconds[0]:5.2f}   "
        f"processor {own[0] * 1000:6.1f} ms and {own[1] * 1000:6.1f} ms"
    )
    if explain is not None:
        print(*sides[1].ask(f"{page}\t{explain}")["plans"], sep="\n", end="")


if __name__ == "__main__":
    main()

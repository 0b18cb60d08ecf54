"""``python -m tests.mutation planning/causes [--sample N] [--seed K] [--tests PATH ...]``"""

from __future__ import annotations

import argparse
import random
from collections import Counter
from pathlib import Path
from typing import Final

from tests.mutation.child import load_libraries
from tests.mutation.mutants import Mutant, mutants_of
from tests.mutation.tests_by_function import entered
from tests.mutation.trial import survives

ROOT: Final = Path(__file__).resolve().parents[2]


def main() -> None:
    asked = _arguments()
    name, _, line = asked.area.partition(":")
    area = (ROOT / name).resolve()
    if not area.exists() or not area.is_relative_to(ROOT / "planning"):
        raise SystemExit(f"{asked.area}: name a file or folder of planning/")
    load_libraries()
    known = entered(asked.tests or [_mirror(area)], ROOT)
    killed: Counter[str] = Counter()
    tried: Counter[str] = Counter()
    every = [m for m in _every(area) if line in ("", str(m.line))]
    for mutant in _sample(every, asked.sample, asked.seed):
        lives = survives(mutant, known, ROOT)
        file = mutant.path.relative_to(ROOT)
        tried[str(file.parent)] += 1
        killed[str(file.parent)] += not lives
        verdict = "survived" if lives else "killed  "
        print(f"{verdict} {file}:{mutant.line}  {mutant.change}", flush=True)
    for folder, count in tried.items():
        print(f"{folder}: {killed[folder]} of {count} killed ({killed[folder] / count:.0%})")


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("area", help="a folder of planning/, a file, or file:line")
    parser.add_argument("--sample", type=int, help="so many mutants, drawn at random; else all")
    parser.add_argument("--seed", type=int, default=0, help="which sample")
    parser.add_argument("--tests", nargs="+", help="tests to try; else the folder that mirrors it")
    return parser.parse_args()


def _every(area: Path) -> list[Mutant]:
    files = sorted(area.rglob("*.py")) if area.is_dir() else [area]
    return [mutant for file in files for mutant in mutants_of(file)]


def _sample(every: list[Mutant], size: int | None, seed: int) -> list[Mutant]:
    if size is None or size >= len(every):
        return every
    # Repeatable on purpose; nothing secret is drawn.
    chosen = random.Random(seed).sample(every, size)  # noqa: S311
    return sorted(chosen, key=lambda mutant: (mutant.path, mutant.number))


def _mirror(area: Path) -> str:
    """The tests that mirror an area: the nearest folder of the same name."""
    folder = area if area.is_dir() else area.parent
    while not (ROOT / "tests" / folder.relative_to(ROOT)).is_dir():
        folder = folder.parent
    return f"tests/{folder.relative_to(ROOT)}"


if __name__ == "__main__":
    main()

"""``python -m tests.mutation planning/causes [--sample N] [--seed K] [--tests PATH ...]``"""

from __future__ import annotations

import argparse
import random
from collections import Counter
from collections.abc import Iterable
from pathlib import Path
from typing import Final

from tests.mutation.child import load_libraries
from tests.mutation.equivalent import LIST, without_equivalent
from tests.mutation.mutants import Mutant, mutants_of
from tests.mutation.tests_by_function import entered
from tests.mutation.trial import Trial
from tests.mutation.verdicts import Verdicts, line_of, survivors

ROOT: Final = Path(__file__).resolve().parents[2]


def main() -> None:
    asked = _arguments()
    name, _, line = asked.area.partition(":")
    area = (ROOT / name).resolve()
    if not area.exists() or not area.is_relative_to(ROOT / "planning"):
        raise SystemExit(f"{asked.area}: name a file or folder of planning/")
    mutants = [m for m in _every(area) if line in ("", str(m.line))]
    if asked.again:
        wanted = survivors(asked.again.read_text())
        mutants = [m for m in mutants if (_file(m), m.change) in wanted]
    load_libraries()
    paths = asked.tests or [_mirror(area)]
    known = entered(paths, ROOT)
    trial = Trial(paths, known, ROOT, asked.longest)
    verdicts = Verdicts(known.kept.with_suffix(".verdicts"))
    killed: list[str] = []
    tried: list[str] = []
    for mutant in _sample(mutants, asked.sample, asked.seed):
        lives = verdicts.of(mutant, ROOT, trial.survives)
        tried.append(_file(mutant))
        killed += [] if lives else [_file(mutant)]
        print(line_of(mutant, _file(mutant), lives), flush=True)
    trial.end()
    _print_counts(tried, killed)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.mutation", description=__doc__)
    parser.add_argument("area", help="a folder of planning/, a file, or file:line")
    parser.add_argument("--sample", type=int, help="so many mutants, drawn at random; else all")
    parser.add_argument("--seed", type=int, default=0, help="which sample")
    parser.add_argument("--tests", nargs="+", help="tests to try; else the folder that mirrors it")
    parser.add_argument("--longest", type=float, default=60.0, help="no test of more seconds")
    parser.add_argument("--again", type=Path, help="only what survived in this earlier output")
    return parser.parse_args()


def _every(area: Path) -> list[Mutant]:
    """File by file, without those known to make no difference."""
    text = LIST.read_text()
    files = sorted(area.rglob("*.py")) if area.is_dir() else [area]
    return [m for file in files for m in without_equivalent(mutants_of(file), ROOT, text)]


def _sample(every: list[Mutant], size: int | None, seed: int) -> list[Mutant]:
    if size is None or size >= len(every):
        return every
    # Repeatable on purpose; nothing secret is drawn.
    chosen = random.Random(seed).sample(every, size)  # noqa: S311
    return sorted(chosen, key=lambda mutant: (mutant.path, mutant.number))


def _print_counts(tried: Iterable[str], killed: Iterable[str]) -> None:
    """Of each file, then of each folder."""
    for name in (str, lambda file: str(Path(file).parent)):
        dead = Counter(map(name, killed))
        for key, count in Counter(map(name, tried)).items():
            print(f"{key}: {dead[key]} of {count} killed ({dead[key] / count:.1%})")


def _file(mutant: Mutant) -> str:
    return str(mutant.path.relative_to(ROOT))


def _mirror(area: Path) -> str:
    """The tests that mirror an area: the nearest folder of the same name."""
    folder = area if area.is_dir() else area.parent
    while not (ROOT / "tests" / folder.relative_to(ROOT)).is_dir():
        folder = folder.parent
    return f"tests/{folder.relative_to(ROOT)}"


if __name__ == "__main__":
    main()

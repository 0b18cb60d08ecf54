"""What was found out already: kept until a file changes, and read back from earlier output."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Final

from tests.mutation.mutants import Mutant

_SURVIVED: Final = "survived"
_KILLED: Final = "killed  "


class Verdicts:
    """A run that was stopped goes on where it was, as long as planner and tests are the same."""

    def __init__(self, path: Path) -> None:
        self.path = path
        lines = path.read_text().splitlines() if path.exists() else []
        self.known = {name: verdict == _SURVIVED for verdict, name in map(_two, lines)}

    def of(self, mutant: Mutant, root: Path, survives: Callable[[Mutant], bool]) -> bool:
        name = f"{mutant.path.relative_to(root)} {mutant.number}"
        if name not in self.known:
            self.known[name] = survives(mutant)
            with self.path.open("a") as file:
                file.write(f"{_SURVIVED if self.known[name] else _KILLED}{name}\n")
        return self.known[name]


def _two(line: str) -> tuple[str, str]:
    return line[: len(_KILLED)], line[len(_KILLED) :]


def line_of(mutant: Mutant, file: str, lives: bool) -> str:
    verdict = _SURVIVED if lives else _KILLED
    return f"{verdict} {file}:{mutant.line}  {mutant.function}  {mutant.change}"


def survivors(output: str) -> set[tuple[str, str]]:
    """File and change of each; the line may be another by now."""
    return set(_survivors(output))


def _survivors(output: str) -> Iterator[tuple[str, str]]:
    for line in output.splitlines():
        if line.startswith(_SURVIVED):
            place, _function, change = line.removeprefix(f"{_SURVIVED} ").split("  ", 2)
            yield place.rpartition(":")[0], change

"""Changes that no test can notice: checked by hand, left out of the count."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Final

from tests.mutation.mutants import Mutant

LIST: Final = Path(__file__).with_name("equivalent.txt")


def listed(text: str) -> Iterator[str]:
    """The entries of the list. ValueError where one gives no reason."""
    lines = [line for line in text.splitlines() if line and not line.startswith("#")]
    for entry, reason in zip(lines[::2], [*lines[1::2], ""], strict=False):
        if entry.startswith(" ") or not reason.startswith("    "):
            raise ValueError(f"an entry, then its reason indented: {entry}")
        yield entry


def named(mutants: Iterable[Mutant], root: Path) -> dict[str, Mutant]:
    """Each mutant by its name in the list; the second of the same words ends in ``(2)``."""
    seen: Counter[str] = Counter()
    by_name = {}
    for mutant in mutants:
        name = f"{mutant.path.relative_to(root)}::{mutant.function}  {mutant.change}"
        seen[name] += 1
        by_name[name if seen[name] == 1 else f"{name} ({seen[name]})"] = mutant
    return by_name


def without_equivalent(mutants: list[Mutant], root: Path, text: str) -> list[Mutant]:
    """ValueError where an entry of these files names no mutant any more."""
    by_name = named(mutants, root)
    files = {str(mutant.path.relative_to(root)) for mutant in mutants}
    entries = {entry for entry in listed(text) if entry.split("::")[0] in files}
    if gone := entries - by_name.keys():
        raise ValueError("no such mutant any more: " + "; ".join(sorted(gone)))
    return [mutant for name, mutant in by_name.items() if name not in entries]

"""``python -m tests.planning.acceptance``: how many cases are met, and what is unmet in the rest.

``--take-off-mended`` takes statements that are met now off the list of known failures; it never
adds one.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator

from tests.planning.acceptance.cases import Case, cases
from tests.planning.acceptance.judge import Unmet, unmet
from tests.planning.acceptance.known import known_failures, write


def table(judged: list[tuple[Case, tuple[Unmet, ...]]]) -> Iterator[str]:
    """Themes with passed of all, then every failed case with its unmet statements."""
    themes = dict.fromkeys(case.theme for case, _ in judged)
    width = max(len(_words(theme)) for theme in themes)
    for theme in themes:
        mine = [left for case, left in judged if case.theme == theme]
        yield f"{_words(theme):{width}}  {sum(not left for left in mine):2} of {len(mine):2}"
    passed = sum(not left for _, left in judged)
    yield f"{'All':{width}}  {passed:2} of {len(judged):2}"
    open_ = sum(len(left) for _, left in judged)
    yield f"Statements met: {sum(_size(case) for case, _ in judged) - open_}, unmet: {open_}"
    for case, left in judged:
        if left:
            yield ""
            yield f"{case.name} {case.title}"
            for one in left:
                yield f"  - {one.statement}"
                yield f"      plan: {one.said}"


def _size(case: Case) -> int:
    """Statements judged in one case: its own, urgency and number of changes."""
    emergency = case.expect["urgency"] == "emergency"
    return len(case.expect["must"]) + len(case.expect["must_not"]) + 2 + emergency


def _words(theme: str) -> str:
    return theme.replace("_", " ").capitalize()


def take_off_mended(judged: list[tuple[Case, tuple[Unmet, ...]]]) -> int:
    """How many statements left the list of known failures."""
    known, kept = known_failures(), {}
    for case, left in judged:
        still = [one.statement for one in left]
        if both := [statement for statement in known.get(case.name, []) if statement in still]:
            kept[case.name] = both
    write(kept)
    return sum(map(len, known.values())) - sum(map(len, kept.values()))


if __name__ == "__main__":
    found = [(case, unmet(case)) for case in cases()]
    print("\n".join(table(found)))
    if "--take-off-mended" in sys.argv[1:]:
        print(f"\nTaken off the list of known failures: {take_off_mended(found)}")

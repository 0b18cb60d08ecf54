"""Statements that the plans do not meet yet, by case. The list only ever gets shorter."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Final

LIST: Final = Path(__file__).with_name("known_failures.json")


def known_failures() -> dict[str, list[str]]:
    """Case -> its statements that are known to be unmet."""
    found: dict[str, list[str]] = json.loads(LIST.read_text())
    return found


def write(known: dict[str, list[str]]) -> None:
    """Put ``known`` in the place of the list."""
    LIST.write_text(json.dumps(known, indent=2, ensure_ascii=False) + "\n")

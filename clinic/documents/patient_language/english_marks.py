"""Words that stay English on a sheet of another language, marked where they stand.

They lie between LEFT-TO-RIGHT ISOLATE and POP DIRECTIONAL ISOLATE (Unicode UAX 9): marks that
text keeps wherever it is put together, and that set it rightly inside Arabic as well.
"""

from __future__ import annotations

import re

OPEN, CLOSE = "\u2066", "\u2069"
#: For names, which may be of any script: the first letter decides.
OPEN_ANY = "\u2068"
_CONTROLS = re.compile("[\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069]")
_RUN = re.compile(f"{OPEN}([^{OPEN}{CLOSE}]*){CLOSE}")


def in_english(words: str) -> str:
    """``words`` marked as English; "" stays "".

    >>> runs(in_english("Cut it round."))
    [('Cut it round.', True)]
    """
    words = bare(words)
    return f"{OPEN}{words}{CLOSE}" if words else ""


def apart(name: str) -> str:
    """A name that cannot turn the words beside it round, whatever its script."""
    name = bare(name)
    return f"{OPEN_ANY}{name}{CLOSE}" if name else ""


def bare(words: str) -> str:
    """Without any mark of direction, such as somebody may have pasted."""
    return _CONTROLS.sub("", words)


def runs(words: str) -> list[tuple[str, bool]]:
    """The words in pieces, each with whether it is marked as English."""
    found, at = [], 0
    for run in _RUN.finditer(words):
        found += [(words[at : run.start()], False), (run[1], True)]
        at = run.end()
    return [(piece, marked) for piece, marked in (*found, (words[at:], False)) if piece]


def english_in(words: str) -> list[str]:
    """The pieces marked as English."""
    return [piece for piece, marked in runs(words) if marked]

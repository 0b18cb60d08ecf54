"""How hard a sentence of the nurse's own is to read: Flesch-Kincaid grade of English.

grade = 0.39 * words / sentences + 11.8 * syllables / words - 15.59 (Kincaid and others 1975).
"""

from __future__ import annotations

import re

#: The sheet itself keeps to this grade.
PLAIN_GRADE = 6
#: Fewer words make no sentence that a formula could judge.
LEAST_WORDS = 4


def hint(words: str) -> str:
    """What to do about hard words; "" where they read easily.

    >>> hint("Wash the skin with warm water. Pat it dry.")
    ''
    >>> hint("Peristomal maceration necessitates meticulous reapplication.")[:34]
    'This reads like school grade 20 or'
    """
    found = grade(words)
    if found is None or found <= PLAIN_GRADE:
        return ""
    level = "20 or more" if found >= 20 else f"{found:.0f}"
    return (
        f"This reads like school grade {level}; the rest of the sheet keeps to {PLAIN_GRADE}. "
        "Shorter words and shorter sentences are easier to follow at home."
    )


def grade(words: str) -> float | None:
    """None for too few words to say."""
    said = re.findall(r"[A-Za-z]+(?:'[a-z]+)?|\d+(?:[./]\d+)?", words)
    if len(said) < LEAST_WORDS:
        return None
    sentences = [part for part in re.split(r"[.!?](?:\s|$)", words) if re.search(r"\w", part)]
    spoken = sum(_syllables(word) for word in said)
    return 0.39 * len(said) / len(sentences) + 11.8 * spoken / len(said) - 15.59


def _syllables(word: str) -> int:
    """Groups of vowels, without a silent e at the end."""
    groups = len(re.findall(r"[aeiouy]+", word.lower()))
    silent = re.search(r"[^aeiouyl]e$|[^aeioudty]ed$", word.lower())
    return max(1, groups - bool(silent))

"""What the plan says to the patient, in the patient's language.

The plan is stored in English; each of its sentences is a key of the catalogue. Nothing is cut out
of English and pasted into another language: a sentence is found whole or it is not translated.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from unicodedata import bidirectional

from clinic.documents.patient_language.english_marks import bare, in_english
from clinic.documents.patient_language.lay_terms import sentence, with_inches
from clinic.documents.patient_language.sentence_templates import matches
from clinic.documents.patient_language.translator import ENGLISH, Translator
from clinic.documents.patient_language.withdrawn_sentences import said_today

#: Contexts of the catalogue.
DANGER, AFTER, SUPPLY = "danger", "after a danger", "supply"
_SENTENCES = re.compile(r"(?<=[.!?]) ")
#: Between two dangers of one line, and what the catalogue calls it.
_JOINS = {", or ": "{first}, or {second}", ". Or ": "{first}. Or {second}"}
_JOIN = re.compile("(, or |[.] Or )")


def from_plan(text: str, translator: Translator) -> str:
    """A patient text of the plan; in English, and marked, where it has no translation."""
    text = said_today(text)
    english = with_inches(sentence(text))
    if translator == ENGLISH:
        return english
    told = translated(text.strip(), translator)
    return in_english(english) if told is None else told


def as_typed(text: str, translator: Translator) -> str:
    """A clinician's own words, which nobody has translated. Taken for English, as the record is
    kept in it; on a sheet from right to left, letters of its script are taken for its language."""
    if translator.direction == "rtl" and any(bidirectional(sign) == "AL" for sign in text):
        return sentence(bare(text))
    english = with_inches(sentence(text))
    return english if translator == ENGLISH else in_english(english)


def translated(text: str, translator: Translator) -> str | None:
    """One sentence or several, each found whole; None where one of them is not."""
    whole = _sentence(text, translator)
    if whole is not None:
        return whole
    parts = _SENTENCES.split(text)
    return _longest(parts, lambda words: _sentence(words, translator))


def danger_line(text: str, translator: Translator) -> str:
    """A line of *when to call*: dangers joined by "or", then what to do about them."""
    told = (
        None
        if translator == ENGLISH
        else translated(text, translator) or _dangers(text, translator)
    )
    return told or from_plan(text, translator)


def _longest(parts: Sequence[str], told: Callable[[str], str | None]) -> str | None:
    """Parts taken together as far as they are known; None where one is left over."""
    said: list[str] = []
    at = 0
    while at < len(parts):
        for end in range(len(parts), at, -1):
            if (found := told(" ".join(parts[at:end]))) is not None:
                said.append(found)
                at = end
                break
        else:
            return None
    return " ".join(said) if said else None


def _sentence(words: str, translator: Translator) -> str | None:
    if (found := translator.find(words)) is not None:
        return found
    if (name := _named(words, translator)) is not None:
        return name
    for template, parts in matches(words):
        told = {name: _part(name, said, translator) for name, said in parts.items()}
        frame = translator.find(template)
        if frame is not None and None not in told.values():
            return frame.format(**told)
    return None


def _named(words: str, translator: Translator) -> str | None:
    """A supply's name standing as a sentence."""
    if not words.endswith("."):
        return None
    found = translator.find(f"{words[:1].lower()}{words[1:-1]}", SUPPLY)
    return sentence(found) if found else None


def _part(name: str, said: str, translator: Translator) -> str | None:
    if name == "supply":
        return translator.find(said, SUPPLY)
    return translator.count("{number} day", "{number} days", int(said.split()[-1]))


def _dangers(text: str, translator: Translator) -> str | None:
    """The line without what stands after it, then that."""
    parts = _SENTENCES.split(text)
    for last in range(len(parts), 0, -1):
        after = [translator.find(one, AFTER) for one in parts[last:]]
        line = " ".join(parts[:last])
        if None in after or not line.endswith("."):
            continue
        if told := _joined(line[:-1], translator):
            return " ".join([sentence(told), *filter(None, after)])
    return None


def _joined(line: str, translator: Translator) -> str | None:
    """Dangers and the words between them; a danger may itself hold an "or"."""
    found = translator.find(f"{line[:1].lower()}{line[1:]}", DANGER)
    if found is not None:
        return found
    for join in _JOIN.finditer(line):
        first = translator.find(f"{line[:1].lower()}{line[1 : join.start()]}", DANGER)
        rest = _joined(line[join.end() :], translator) if first else None
        if first and rest:
            return translator.translate(_JOINS[join[0]], first=first, second=rest)
    return None

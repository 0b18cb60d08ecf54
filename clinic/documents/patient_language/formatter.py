"""Words said in one language: sentences with their parts, plurals, sizes, joins.

A message is found whole in the catalogue or it is not translated: nothing is cut out of English
and pasted into another language. Where one message of a text has no translation, all of it stays
English and is marked so: a warning must not stand in one language and its reason in another.
"""

from __future__ import annotations

from functools import cache

from clinic.documents.patient_language.english_marks import in_english
from clinic.documents.patient_language.lay_terms import size, tied
from clinic.documents.patient_language.translator import ENGLISH, Translator
from clinic.documents.patient_language.typed_words import as_typed
from clinic.documents.patient_language.unsaid import Given, Joined, Phrase, Typed, Unsaid
from planning.results.message import Day, Days, Length, Message, Part, Text, sentence


class Formatter:
    """Of a language with a catalogue."""

    def __init__(self, translator: Translator) -> None:
        self.translator = translator

    def words(self, words: Unsaid | int) -> str:
        """Anything that a paper says, or a figure in it."""
        match words:
            case Text():
                return self.text(words)
            case Phrase(id_, context, parts):
                told = {name: self.words(part) for name, part in parts}
                return self.translator.translate(id_, context, **told)
            case Joined(some, between):
                return between.join(filter(None, map(self.words, some)))
            case Typed(typed):
                return as_typed(typed, self.translator)
            case Given():
                return self.given(words)
        return self.part(words) or ""

    def given(self, words: Given) -> str:
        """English is marked where it was given in no other language."""
        return words.others.get(self.translator.code) or in_english(words.english)

    def text(self, text: Text) -> str:
        """Everything that ``text`` says, in whole sentences."""
        told = None if text.stored else self._told(text)
        return in_english(IN_ENGLISH.text(text)) if told is None else told

    def _told(self, text: Text) -> str | None:
        told = [self.message(one) for one in text.messages]
        return None if None in told else " ".join(sentence(one) for one in told if one)

    def message(self, message: Message) -> str | None:
        """As it stands inside a sentence; None where it, or a part of it, has no translation."""
        frame = self.translator.find(message.id, message.context)
        parts = {name: self.part(part) for name, part in message.parts}
        if frame is None or None in parts.values():
            return None
        return frame.format(**parts)

    def part(self, part: Part) -> str | None:
        match part:
            case Message():
                return self.message(part)
            case Day():
                return self.day(part)
            case Days():
                return self._days(part.number)
            case Length():
                return tied(self.words(size(part)))
        return str(part)

    def day(self, day: Day) -> str | None:
        """As a number of days from the change: no language here says "day 3" as English does."""
        return self._days(day.number)

    def _days(self, days: int) -> str | None:
        return self.translator.count("{number} day", "{number} days", days)


class EnglishFormatter(Formatter):
    """Needs no catalogue: a message is its own English."""

    def text(self, text: Text) -> str:
        return sentence(text.stored) if text.stored else self._told(text) or ""

    def day(self, day: Day) -> str:
        return str(day)

    def given(self, words: Given) -> str:
        return words.english


IN_ENGLISH = EnglishFormatter(ENGLISH)


@cache
def formatter_of(translator: Translator) -> Formatter:
    """The one formatter of a language."""
    return IN_ENGLISH if translator == ENGLISH else Formatter(translator)


def say(words: Unsaid, translator: Translator) -> str:
    """``words`` in the language of ``translator``."""
    return formatter_of(translator).words(words)

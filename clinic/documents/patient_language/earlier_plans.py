"""Plans signed before plans held messages: their finished English, read back as messages, once.

Only here is English taken apart. What is recognised becomes the messages that said it; what is
not stays the English it is. A plan of today passes through untouched, but for ids that have been
replaced since it was signed.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Final

from clinic.documents.patient_language.recorded_ids import recorded_ids
from clinic.documents.patient_language.replaced_ids import REPLACED, today
from clinic.documents.patient_language.typed_words import with_inches
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency
from planning.results.message import AFTER, DANGER, SUPPLY, Day, Message, Text, sentence

#: Context of a sentence that no catalogue holds.
AS_STORED: Final = "as stored"
_SENTENCES: Final = re.compile(r"(?<=[.!?]) ")
_JOIN: Final = re.compile("(, or |[.] Or )")
_BY_DAY: Final = re.compile(r"Change on day (\d+) at the latest\.")
_USING: Final = re.compile(r"(Keep|Stop) using: ([a-z][^.:]*)\.")
#: Read as a rule for every day, or as a least number of changes: never said any more.
_EVERY: Final = re.compile(r"Change at least every (\d+) days\.")
#: How English that was not recognised says how soon somebody looks; the first that fits counts.
_TIMES: Final = tuple(
    (urgency, re.compile(words, re.IGNORECASE))
    for urgency, words in (
        (Urgency.EMERGENCY, r"\b(now|at once|immediately)\b"),
        (Urgency.SAME_DAY, r"\b(today|same day)\b"),
        (Urgency.DAYS, r"\b(within|in) (a few |[1-6] )?days\b|\bthis week\b"),
        (Urgency.TWO_WEEKS, r"\b(within|in) (two|2|a few) weeks\b"),
        (Urgency.ROUTINE, r"\bnext (time|visit)\b"),
    )
)
_REASSURES: Final = re.compile(r"\b(all is|is) (still )?(well|fine|normal)\b", re.IGNORECASE)


def as_of_today(decided: DecidedPlan) -> DecidedPlan:
    """``decided`` with everything for the patient as messages, in the ids of today."""
    plan = decided.plan
    again = plan.follow_up
    told = replace(
        plan,
        red_flags=tuple(
            replace(flag, patient_text=_read(flag.patient_text)) for flag in plan.red_flags
        ),
        recommendations=tuple(
            replace(item, patient_text=_read(item.patient_text)) for item in plan.recommendations
        ),
        steps=tuple(replace(step, patient_text=_read(step.patient_text)) for step in plan.steps),
        follow_up=replace(again, patient_text=_read(again.patient_text)),
        call_when=tuple(
            replace(line, patient_text=_read(line.patient_text, danger_line) or Text())
            for line in plan.call_when
        ),
    )
    return replace(decided, plan=told)


def _read(text: Text | None, messages_of: Callable[[str], Text] | None = None) -> Text | None:
    if text is None:
        return None
    return today((messages_of or sentences)(text.stored) if text.stored else text)


def sentences(stored: str) -> Text:
    """What an item of an earlier plan said to the patient."""
    stored = _as_said_today(stored)
    return _known(stored) or _as_stored(stored)


def danger_line(stored: str) -> Text:
    """A line of *when to call*: dangers joined by "or", then what to do about them."""
    stored = _as_said_today(stored)
    return _known(stored) or _dangers(stored) or _as_stored(stored)


def _as_said_today(stored: str) -> str:
    """Without what was withdrawn, whatever it stands beside."""
    stored = _EVERY.sub(r"Change on day \1 at the latest.", stored.strip())
    return " ".join(REPLACED.get(("", one), ("", one))[1] for one in _SENTENCES.split(stored))


def _as_stored(stored: str) -> Text:
    """Sentence by sentence; braces, which no plan has ever said, would be taken for parts."""
    english = with_inches(sentence(stored)).replace("{", "(").replace("}", ")")
    return Text(tuple(Message(words, AS_STORED) for words in _SENTENCES.split(english) if words))


def time_in(stored: str) -> Urgency | None:
    """How soon a sentence that stayed the English it was says that somebody looks."""
    return next((urgency for urgency, words in _TIMES if words.search(stored)), None)


def reassures(stored: str) -> bool:
    """Whether such a sentence says that all is well."""
    return bool(_REASSURES.search(stored))


def _known(stored: str) -> Text | None:
    """One message or several, each found whole; None where one of them is not."""
    whole = _message(stored)
    return Text((whole,)) if whole else _longest(_SENTENCES.split(stored))


def _longest(parts: Sequence[str]) -> Text | None:
    """Sentences taken together as far as they are known; None where one is left over."""
    found: list[Message] = []
    at = 0
    while at < len(parts):
        for end in range(len(parts), at, -1):
            if (message := _message(" ".join(parts[at:end]))) is not None:
                found.append(message)
                at = end
                break
        else:
            return None
    return Text(tuple(found)) if found else None


def _message(words: str) -> Message | None:
    if (found := _recorded(words)) is not None:
        return found
    if words.endswith(".") and (named := _recorded(_inside(words[:-1]), SUPPLY)):
        return named
    if by_day := _BY_DAY.fullmatch(words):
        return Message.of("Change on {day} at the latest.", day=Day(int(by_day[1])))
    if (using := _USING.fullmatch(words)) and (supply := _recorded(using[2], SUPPLY)):
        return Message.of(f"{using[1]} using: {{supply}}.", supply=supply)
    return None


def _recorded(words: str, context: str = "") -> Message | None:
    """A message without parts that some plan has been able to say."""
    known = "{" not in words and (context, words) in recorded_ids()
    return Message(words, context) if known else None


def _inside(words: str) -> str:
    """As it stands inside a sentence."""
    return f"{words[:1].lower()}{words[1:]}"


def _dangers(stored: str) -> Text | None:
    """The line without what stands after it, then that."""
    parts = _SENTENCES.split(stored)
    for last in range(len(parts), 0, -1):
        after = [_recorded(one, AFTER) for one in parts[last:]]
        line = " ".join(parts[:last])
        if None not in after and line.endswith(".") and (told := _joined(line[:-1])):
            return Text((told, *filter(None, after)))
    return None


def _joined(line: str) -> Message | None:
    """Dangers and the words between them; a danger may itself hold an "or"."""
    if (found := _recorded(_inside(line), DANGER)) is not None:
        return found
    for join in _JOIN.finditer(line):
        first = _recorded(_inside(line[: join.start()]), DANGER)
        rest = _joined(line[join.end() :]) if first else None
        if first and rest:
            return Message.of(f"{{first}}{join[0]}{{second}}", first=first, second=rest)
    return None

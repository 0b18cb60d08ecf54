"""Why a barrier came off, from one letter or the words people write, and what was the matter."""

from __future__ import annotations

from dataclasses import dataclass

from clinic.visits.choices import Circumstance, RemovalReason

LETTERS = {
    "p": RemovalReason.PLANNED,
    "l": RemovalReason.LEAK,
    "i": RemovalReason.ITCH_OR_PAIN,
    "f": RemovalReason.FELL_OFF,
}
#: Said beside the field and in its errors.
KEY = "p planned, l leak, i itch or pain, f fell off"
#: What may be written after the reason, each by the first of its words.
CIRCUMSTANCE_KEY = "too full, soaked, illness, other system, pulled off, strap"
_WORDS = {
    RemovalReason.PLANNED: (
        *("planned", "plan", "planned change", "routine", "routine change", "change", "changed"),
        *("scheduled", "as planned"),
    ),
    RemovalReason.LEAK: ("leak", "leaks", "leaked", "leaking", "leakage", "it leaked"),
    RemovalReason.ITCH_OR_PAIN: (
        *("itch", "itchy", "itching", "itched", "pain", "painful", "itch or pain", "itch/pain"),
        *("pain or itch", "sore", "hurt", "burning"),
    ),
    RemovalReason.FELL_OFF: ("fell off", "fell", "fallen off", "fall off", "it fell off"),
}
_READ = {word: reason for reason, words in _WORDS.items() for word in words}


_CIRCUMSTANCES = {
    Circumstance.OVERFULL: ("too full", "overfull", "full", "full pouch", "pouch full"),
    Circumstance.SOAKED: ("soaked", "soaked through", "wet through"),
    Circumstance.PASSING_ILLNESS: ("illness", "short illness", "passing illness", "ill", "was ill"),
    Circumstance.OTHER_SYSTEM: (
        *("other system", "another system", "different system", "other pouch", "another pouch"),
    ),
    Circumstance.PULLED_OFF: ("pulled off", "pulled", "torn off", "tore off"),
    Circumstance.LOAD_ACROSS: (
        *("strap", "load", "load across", "clothing", "waistband", "seat belt"),
        *("seatbelt", "tool belt", "pressed"),
    ),
}
_READ_CIRCUMSTANCE = {
    word: circumstance
    for circumstance, words in _CIRCUMSTANCES.items()
    for word in (*words, circumstance.value.replace("_", " "), circumstance.label.lower())
}


@dataclass(frozen=True, slots=True)
class Why:
    """What an entry says, each None where it does not say it. ``unread``: none of it is known."""

    reason: RemovalReason | None = None
    circumstance: Circumstance | None = None
    unread: bool = False


def read_why(text: str) -> Why:
    """A reason, and after it what else was the matter: with a comma, in brackets, or by itself.

    >>> [str(read_why(t).circumstance) for t in ("l, too full", "f pulled off", "l")]
    ['overfull', 'pulled_off', 'None']
    """
    plain = _plain(text)
    if (reason := read_reason(plain)) is not None:
        return Why(reason)
    if (alone := _READ_CIRCUMSTANCE.get(plain)) is not None:
        return Why(None, alone)
    words = plain.replace(",", " ").replace("(", " ").replace(")", " ").replace(":", " ").split()
    for cut in range(len(words) - 1, 0, -1):
        reason = read_reason(" ".join(words[:cut]))
        circumstance = _READ_CIRCUMSTANCE.get(" ".join(words[cut:]))
        if reason is not None and circumstance is not None:
            return Why(reason, circumstance)
    return Why(unread=True)


def why_words(reason: str, circumstance: str) -> str:
    """``leak, pouch too full``: as it is typed, and read back."""
    said = [reason.replace("_", " ")] if reason else []
    said += [str(Circumstance(circumstance).label).lower()] if circumstance else []
    return ", ".join(said)


def _plain(text: str) -> str:
    return " ".join(text.lower().replace("_", " ").split()).strip(" .!,;")


def read_reason(text: str) -> RemovalReason | None:
    """The reason ``text`` means; None where it is none that is known.

    >>> [str(read_reason(t)) for t in ("p", "Leaked!", "pain", "fell_off", "rain")]
    ['planned', 'leak', 'itch_or_pain', 'fell_off', 'None']
    """
    plain = _plain(text)
    return LETTERS.get(plain) or _READ.get(plain)

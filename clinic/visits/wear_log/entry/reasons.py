"""Why a barrier came off, from one letter or the words people write."""

from clinic.visits.choices import RemovalReason

LETTERS = {
    "p": RemovalReason.PLANNED,
    "l": RemovalReason.LEAK,
    "i": RemovalReason.ITCH_OR_PAIN,
    "f": RemovalReason.FELL_OFF,
}
#: Said beside the field and in its errors.
KEY = "p planned, l leak, i itch or pain, f fell off"
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


def read_reason(text: str) -> RemovalReason | None:
    """The reason ``text`` means; None where it is none that is known.

    >>> [str(read_reason(t)) for t in ("p", "Leaked!", "pain", "fell_off", "rain")]
    ['planned', 'leak', 'itch_or_pain', 'fell_off', 'None']
    """
    plain = " ".join(text.lower().replace("_", " ").split()).strip(" .!,;")
    return LETTERS.get(plain) or _READ.get(plain)

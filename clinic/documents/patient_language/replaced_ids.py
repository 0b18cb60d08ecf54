"""What no sheet says any more, and what it says instead: the id of a message -> today's id.

A plan keeps the ids it was signed with; a sheet printed anew says what is right today. A sentence
that was reworded, were it by a comma, has a row here, or keeps its old entry in the catalogues:
``tests/clinic/documents/patient_language/test_recorded_ids.py`` fails for one that has neither.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import Final

from planning.results.message import Message, Text

#: Context of the catalogues ("" for none) and id: a whole one, or one sentence of it.
Key = tuple[str, str]


def _row(old: str, new: str, context: str = "") -> tuple[Key, Key]:
    return (context, old), (context, new)


_ASK: Final = "If your size has changed, ask us for a new template."
REPLACED: Final[Mapping[Key, Key]] = dict(
    (
        # A shrinking stoma would get a hole far too large.
        _row("If your size has changed, cut 2 mm bigger all round.", _ASK),
        # The hole is cut along the template, which leaves the gap.
        _row("Cut the hole to the size you measured.", f"Cut along your template. {_ASK}"),
        _row(
            "Let your helper cut the hole to the size just measured.",
            f"Let your helper cut along your template. {_ASK}",
        ),
        # A cut hole gets a new template, which leaves the gap; nobody cuts it bigger by eye.
        _row(
            "The hole rubs on your stoma. Make it bigger.",
            "The hole rubs on your stoma. Ask us for a new template.",
        ),
        # No reassurance while drugs, platelets and liver are not all known.
        _row(
            "A little blood on the cloth is normal.",
            "If it bleeds, press lightly and see “When to call”.",
        ),
    )
)


def today(text: Text) -> Text:
    """``text`` in the ids of today.

    >>> print(today(Text((Message("Pat the skin dry. A little blood on the cloth is normal."),))))
    Pat the skin dry. If it bleeds, press lightly and see “When to call”.
    """
    return text if text.stored else Text(tuple(_today(one) for one in text.messages))


def _today(message: Message) -> Message:
    parts = tuple(
        (name, _today(part) if isinstance(part, Message) else part) for name, part in message.parts
    )
    whole = _newest((message.context, message.id))
    if whole[1] == message.id:
        sentences = (_newest((message.context, one.id))[1] for one in message.sentences)
        whole = (whole[0], " ".join(sentences))
    return replace(message, context=whole[0], id=whole[1], parts=parts)


def _newest(key: Key) -> Key:
    while key in REPLACED:
        key = REPLACED[key]
    return key

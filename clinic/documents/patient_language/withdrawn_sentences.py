"""Sentences that plans signed earlier still hold and no sheet may say any more.

A plan keeps the words it was signed with; a sheet printed anew says what is right today.
"""

from __future__ import annotations

import re
from typing import Final

BLEEDS: Final = "If it bleeds, press lightly and see “When to call”."
NEW_TEMPLATE: Final = "If your size has changed, ask us for a new template."
#: What was said, and what is said instead.
WITHDRAWN: Final = (
    # A shrinking stoma would get a hole far too large.
    (re.compile(r"If your size has changed, cut 2 mm bigger all round\."), NEW_TEMPLATE),
    # No reassurance while drugs, platelets and liver are not all known.
    (re.compile(r"A little blood on the cloth is normal\."), BLEEDS),
    # Read as a rule for every day, or as a least number of changes.
    (re.compile(r"Change at least every (\d+) days\."), r"Change on day \1 at the latest."),
)


def said_today(text: str) -> str:
    """``text`` without what was withdrawn.

    >>> said_today("Pat the skin dry. A little blood on the cloth is normal.")
    'Pat the skin dry. If it bleeds, press lightly and see “When to call”.'
    """
    for old, new in WITHDRAWN:
        text = old.sub(new, text)
    return text

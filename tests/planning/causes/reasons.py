"""Ask what one cause says of some findings, in the very words of its reasons."""

from __future__ import annotations

from typing import Any

from planning.inputs.findings import History
from planning.results.plan import Cause
from tests.planning.builders import situation, well

#: Fields changed on a stoma that is well.
Changes = dict[str, Any]
#: A cause, how a reason begins; findings that it is said of, and findings just short of it.
Row = tuple[str, str, list[Changes], list[Changes]]


def cause_of(key: str, changes: Changes) -> Cause | None:
    found = situation(well(**changes), History()).causes.causes
    return next((cause for cause in found if cause.key == key), None)


def is_said(cause: Cause | None, words: str, *, against: bool) -> bool:
    reasons = () if cause is None else cause.against if against else cause.supports
    return any(reason.text.startswith(words) for reason in reasons)


def told_apart(row: Row, *, against: bool) -> None:
    """The reason is given for each of the first findings and for none of the others; those must
    still have the cause, so that it is the reason alone that is missing."""
    key, words, with_it, without = row
    for changes in with_it:
        assert is_said(cause_of(key, changes), words, against=against), changes
    for changes in without:
        cause = cause_of(key, changes)
        assert cause is not None, changes
        assert not is_said(cause, words, against=against), changes

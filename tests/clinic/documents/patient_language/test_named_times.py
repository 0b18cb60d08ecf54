"""What a sentence says of how soon somebody looks, and that all is well, is declared: for each on
record that reads as if it said so, there is a row."""

from __future__ import annotations

import re
from collections.abc import Iterable
from string import Formatter

import pytest

from clinic.documents.care_sheet.build import STILL_WELL
from clinic.documents.patient_language.earlier_plans import AS_STORED
from clinic.documents.patient_language.named_times import (
    NAMED,
    REASSURING,
    reassures,
    time_named,
)
from clinic.documents.patient_language.recorded_ids import recorded_ids
from clinic.documents.patient_language.replaced_ids import Key
from clinic.referrals.models import Urgency
from planning.results.message import Message

#: Wider than any sentence needs today, so that a new turn of words is noticed too.
_TIME = re.compile(
    r"\b(now|at once|immediately|straight away|right away|without delay|soon|today|tonight|"
    r"tomorrow|same day|within|in (a few |two |\d+ )?(hours|days|weeks)|"
    r"(this|next) (time|visit|week|month|change))\b",
    re.IGNORECASE,
)
_WELL = re.compile(
    r"\b((all|everything|that|it|cloth) is (still )?(well|fine|normal|good|safe)|harmless|"
    r"no danger|nothing to worry|do not worry|no need to)\b",
    re.IGNORECASE,
)
#: As plain as the words say it, for each urgency that is named.
_PLAINLY = {
    Urgency.EMERGENCY: r"\b(now|at once)\b",
    Urgency.SAME_DAY: r"\b(today|same day)\b",
    Urgency.DAYS: r"\bwithin days\b",
    Urgency.TWO_WEEKS: r"\bwithin two weeks\b",
}


def sentences(keys: Iterable[Key]) -> set[str]:
    """Each sentence of these ids."""
    found = set()
    for context, id_ in keys:
        names = {name for _, name, _, _ in Formatter().parse(id_) if name}
        message = Message.of(id_, context, **dict.fromkeys(names, "part"))
        found |= {one.id for one in message.sentences}
    return found


def without_row(keys: Iterable[Key]) -> set[str]:
    """What reads as if it named a time or reassured, and is not declared."""
    every = sentences(keys)
    times = {one for one in every if _TIME.search(one) and one not in NAMED}
    return times | {one for one in every if _WELL.search(one) and one not in REASSURING}


def test_every_sentence_on_record_that_speaks_of_it_has_a_row() -> None:
    assert not without_row(recorded_ids()), "Give it a row in named_times.py."


@pytest.mark.parametrize(
    "words",
    ["A nurse will look tomorrow.", "Lie down. The team must look now.", "It is fine. Eat."],
)
def test_a_new_one_without_a_row_is_found(words: str) -> None:
    """What that test relies on."""
    assert len(without_row({*recorded_ids(), ("", words)})) == 1


def test_every_row_is_of_a_sentence_on_record() -> None:
    """``STILL_WELL`` is the sheet's own."""
    assert {*NAMED, *REASSURING} - sentences(recorded_ids()) == {STILL_WELL}


@pytest.mark.parametrize("urgency", Urgency)
def test_a_row_says_the_urgency_of_its_words(urgency: Urgency) -> None:
    rows = [sentence for sentence, named in NAMED.items() if named is urgency]
    assert bool(rows) is (urgency in _PLAINLY)
    for sentence in rows:
        assert re.search(_PLAINLY[urgency], sentence, re.IGNORECASE), sentence


@pytest.mark.parametrize(
    ("words", "urgency"),
    [
        ("See a doctor immediately.", Urgency.EMERGENCY),
        ("A nurse rings you the same day.", Urgency.SAME_DAY),
        ("We look at it this week.", Urgency.DAYS),
        ("Somebody looks in a few weeks.", Urgency.TWO_WEEKS),
        ("We look next time.", Urgency.ROUTINE),
        ("Your stoma is red.", None),
    ],
)
def test_english_that_was_not_recognised_is_read(words: str, urgency: Urgency | None) -> None:
    """Plans from before messages hold finished English, and no row can be of it."""
    assert time_named(Message(words, AS_STORED)) is urgency
    assert time_named(Message(words)) is None


def test_reassurance_that_was_not_recognised_is_read() -> None:
    assert reassures(Message("All is fine.", AS_STORED))
    assert not reassures(Message("It bleeds.", AS_STORED))
    assert reassures(Message(STILL_WELL))

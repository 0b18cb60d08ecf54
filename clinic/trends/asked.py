"""What is asked of colleagues about one stoma, and what they answered; one query however much."""

from __future__ import annotations

import textwrap
from dataclasses import dataclass
from datetime import datetime

from clinic.patients.models import Stoma
from clinic.referrals.models import Referral
from clinic.referrals.models.referral import URGENCY_ORDER
from clinic.referrals.presenters.waiting import row_of

#: A line holds so much of a question or an answer; the whole of it is a press away.
SHORT = 110


@dataclass(frozen=True, slots=True)
class Asked:
    """A question: its first line, what was sent with it, how long it waited, how late it is."""

    referral: Referral
    short: str
    rest: str
    waits: str
    late: str

    @property
    def first_line(self) -> str:
        """Short enough for one line."""
        return shortened(self.short)

    @property
    def answer_line(self) -> str:
        """The answer, short enough for one line."""
        return shortened(self.referral.answer)


@dataclass(frozen=True, slots=True)
class Questions:
    """``waiting``: most urgent first, then the oldest; ``answered``: the latest answer first."""

    waiting: tuple[Asked, ...]
    answered: tuple[Asked, ...]

    @property
    def pressing(self) -> tuple[Asked, ...]:
        """Asked for now or today, and no answer."""
        return tuple(one for one in self.waiting if one.referral.pressing)


def questions_of(stoma: Stoma, now: datetime) -> Questions:
    """Every referral of this stoma."""
    rows = (
        Referral.objects.filter(assessment__stoma=stoma)
        .select_related("made_by", "answered_by", "assessment__visit")
        .order_by("made_at", "pk")
    )
    every = [_asked(row, now) for row in rows]
    waiting = [one for one in every if one.referral.answered_at is None]
    answered = [one for one in every if one.referral.answered_at is not None]
    return Questions(
        tuple(sorted(waiting, key=lambda one: URGENCY_ORDER[one.referral.urgency])),
        tuple(sorted(answered, key=lambda one: one.referral.answered_at or now, reverse=True)),
    )


def _asked(referral: Referral, now: datetime) -> Asked:
    short, _, rest = referral.question.strip().partition("\n")
    row = row_of(referral, now)
    return Asked(referral, short, rest.strip(), row.waits, row.late)


def shortened(text: str) -> str:
    """The first line, at most ``SHORT`` letters of it."""
    first = text.strip().partition("\n")[0]
    return textwrap.shorten(first, SHORT, placeholder=" …")

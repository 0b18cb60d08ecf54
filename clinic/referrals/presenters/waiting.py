"""A referral in a list: how long it waits in words, and whether it is late for its urgency."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta

from clinic import formatting
from clinic.referrals.models import Referral


@dataclass(frozen=True)
class Row:
    """``late`` is "" while an answer is not overdue for the urgency; ``first_line`` what is asked.

    ``seen`` says who opened it first; "" once answered.
    """

    referral: Referral
    waits: str
    late: str
    seen: str
    first_line: str


def rows_of(referrals: Iterable[Referral], now: datetime) -> list[Row]:
    """One row a referral, in the order given."""
    return [row_of(referral, now) for referral in referrals]


def row_of(referral: Referral, now: datetime) -> Row:
    late = referral.late_by(now)
    until = referral.answered_at or now
    return Row(
        referral=referral,
        waits=lasting(until - referral.made_at),
        late="" if late is None else _late(referral, late),
        seen="" if referral.answered_at else seen_words(referral),
        first_line=referral.asks,
    )


def seen_words(referral: Referral) -> str:
    """Who of those who may answer opened it first, and when."""
    if referral.seen_at is None or referral.seen_by is None:
        return "Referral not opened yet by anyone who may answer"
    return f"Opened by {referral.seen_by.display_name}, {formatting.moment(referral.seen_at)}"


def lasting(span: timedelta) -> str:
    """How long, as people say it.

    >>> [lasting(timedelta(minutes=m)) for m in (0, 1, 59, 60, 60 * 47, 60 * 48)]
    ['less than a minute', '1 minute', '59 minutes', '1 hour', '47 hours', '2 days']
    """
    minutes = int(span.total_seconds() // 60)
    if minutes < 1:
        return "less than a minute"
    if minutes < 60:
        return _many(minutes, "minute")
    if minutes < 48 * 60:
        return _many(minutes // 60, "hour")
    return _many(minutes // (24 * 60), "day")


def _many(number: int, unit: str) -> str:
    return f"{number} {unit}{'s' * (number != 1)}"


def _late(referral: Referral, late: timedelta) -> str:
    if referral.urgency == "emergency":
        return "needs an answer now"
    return f"{_many(late.days, 'day')} overdue"

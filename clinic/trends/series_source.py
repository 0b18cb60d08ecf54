"""What the trend page reads of the record; the number of queries does not grow with visits."""

from __future__ import annotations

from dataclasses import dataclass

from clinic.patients.models import Stoma
from clinic.referrals.models import Referral
from clinic.referrals.models.referral import URGENCY_ORDER


@dataclass(frozen=True, slots=True)
class Asked:
    """A question: its first line, and what was sent with it."""

    referral: Referral
    short: str
    rest: str


def waiting_referrals(stoma: Stoma) -> list[Asked]:
    """Referrals of this stoma without an answer, most urgent first, then the oldest."""
    waiting = (
        Referral.objects.unanswered()
        .filter(assessment__stoma=stoma)
        .select_related("made_by", "assessment__visit")
    )
    ordered = sorted(waiting, key=lambda r: (URGENCY_ORDER[r.urgency], r.made_at))
    return [_asked(referral) for referral in ordered]


def _asked(referral: Referral) -> Asked:
    short, _, rest = referral.question.strip().partition("\n")
    return Asked(referral, short, rest.strip())

"""What the trend page reads of the record; the number of queries does not grow with visits."""

from __future__ import annotations

from clinic.patients.models import Stoma
from clinic.plans.models import Referral
from clinic.plans.models.referral import URGENCY_ORDER


def waiting_referrals(stoma: Stoma) -> list[Referral]:
    """Referrals of this stoma without an answer, most urgent first, then the oldest."""
    waiting = (
        Referral.objects.unanswered()
        .filter(assessment__stoma=stoma)
        .select_related("made_by", "assessment__visit")
    )
    return sorted(waiting, key=lambda r: (URGENCY_ORDER[r.urgency], r.made_at))

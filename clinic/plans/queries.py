"""Questions asked of plans in more than one place."""

from clinic.plans.models import Referral
from clinic.plans.models.referral import URGENCY_ORDER


def urgent_first() -> list[Referral]:
    """Referrals without an answer, most urgent first, then the oldest."""
    waiting = Referral.objects.unanswered().select_related(
        "assessment__visit__patient", "assessment__stoma", "made_by"
    )
    return sorted(waiting, key=lambda r: (URGENCY_ORDER[r.urgency], r.made_at))

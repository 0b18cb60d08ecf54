"""Questions asked of plans in more than one place."""

from clinic.plans.models import Referral
from clinic.plans.models.referral import URGENCY_ORDER
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment


def urgent_first() -> list[Referral]:
    """Referrals without an answer, most urgent first, then the oldest."""
    waiting = Referral.objects.unanswered().select_related(
        "assessment__visit__patient", "assessment__stoma", "made_by"
    )
    return sorted(waiting, key=lambda r: (URGENCY_ORDER[r.urgency], r.made_at))


def begun_stomas() -> set[int]:
    """Stomas whose visit is begun and not signed yet."""
    return set(
        Assessment.objects.filter(visit__state=VisitState.DRAFT).values_list("stoma_id", flat=True)
    )

"""Whether the leaf is to be given: at the first visit, and again when what it says has changed."""

from __future__ import annotations

from clinic.documents.how_soon import has_emergency, level_of
from clinic.documents.kinds import Kind
from clinic.documents.living.build import content_of
from clinic.documents.models import PrintedDocument
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.referrals.models import Urgency

NOT_GIVEN = "not given yet"
CHANGED = "changed since it was printed"
CHILD = "Under 16 the children's stoma team says how to live with it: there is no leaf."
EMERGENCY = "There is an emergency, so there is no leaf: nothing may say that it can wait."
CARE_SHEET = "Print the care sheet: it says what to do now."


def why_none(decided: DecidedPlan) -> str:
    """Why there is no leaf now; "" where there is one."""
    if has_emergency(decided):
        return EMERGENCY
    return "" if decided.for_adult else CHILD


def why_due(decided: DecidedPlan) -> str:
    """Why it should be printed with this visit; "" where it need not be, or where being seen today
    comes first."""
    today = level_of(decided) == Urgency.SAME_DAY
    if today or why_none(decided) or not decided.assessment.stoma.is_open:
        return ""
    printed = PrintedDocument.objects.filter(kind=Kind.LIVING, stoma_id=decided.assessment.stoma_id)
    last = printed.order_by("-printed_at", "-id").values_list("content", flat=True).first()
    if last is None:
        return NOT_GIVEN
    return "" if last == content_of(decided) else CHANGED

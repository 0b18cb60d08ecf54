"""A referral of the clinician's own, without a red flag behind it."""

from datetime import datetime

from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.plans.models import Referral, Urgency
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment
from clinic.visits.policies import NotAllowedNow


def refer(
    *,
    assessment: Assessment,
    to: str,
    urgency: Urgency,
    question: str,
    by: User,
    at: datetime,
    request: HttpRequest | None = None,
) -> Referral:
    """Ask ``to`` now, from a draft as from a signed visit; a discarded one raises
    ``NotAllowedNow``."""
    if assessment.visit.state == VisitState.DISCARDED:
        raise NotAllowedNow("This visit was discarded: nothing can be asked about it.")
    made = Referral.objects.create(
        assessment=assessment, to=to, urgency=urgency, question=question, made_at=at, made_by=by
    )
    record(request_or_actor=request or by, action="referred", subject=made)
    return made

"""A referral of the clinician's own, without a red flag behind it."""

from datetime import datetime
from uuid import UUID, uuid4

from django.db.models import QuerySet
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.referrals.models import Referral, Urgency
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
    sent_as: UUID | None = None,
    request: HttpRequest | None = None,
) -> Referral:
    """Ask ``to`` now, from a draft as from a signed visit; a discarded one raises
    ``NotAllowedNow``.

    ``sent_as``: made where the form was shown. The same words sent twice under it are one
    referral, and the second sending gives back the first; other words are another referral.
    """
    if assessment.visit.state == VisitState.DISCARDED:
        raise NotAllowedNow("This visit was discarded: nothing can be asked about it.")
    words = {"to": to, "urgency": urgency, "question": question}
    same = Referral.objects.filter(assessment=assessment, made_by=by, **words)
    if sent_as is None or _taken(sent_as, but_by=same):
        sent_as = uuid4()
    # Two at the same moment meet at the id, which is unique: the later one gets the earlier.
    made, first = Referral.objects.get_or_create(
        uuid=sent_as, assessment=assessment, made_by=by, **words, defaults={"made_at": at}
    )
    if first:
        record(request_or_actor=request or by, action="referred", subject=made)
    return made


def _taken(sent_as: UUID, *, but_by: QuerySet[Referral]) -> bool:
    """Whether another referral has this id already."""
    there = Referral.objects.filter(uuid=sent_as)
    return there.exists() and not but_by.filter(uuid=sent_as).exists()

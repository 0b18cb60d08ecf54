"""Say something more after signing."""

from datetime import datetime

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.visits.models import Addendum, Visit
from clinic.visits.policies import NotAllowedNow, can_add_addendum


@transaction.atomic
def add_addendum(
    *, visit: Visit, text: str, by: User, at: datetime, request: HttpRequest | None = None
) -> Addendum:
    """A signed addendum. Raises ``NotAllowedNow`` for a draft."""
    if not can_add_addendum(visit):
        raise NotAllowedNow("Only a signed visit takes an addendum; this one can still be edited.")
    addendum = Addendum.objects.create(visit=visit, text=text, by=by, at=at)
    record(request_or_actor=request or by, action="added to", subject=visit)
    return addendum

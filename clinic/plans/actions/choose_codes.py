"""Keep the diagnosis codes a clinician chose for a signed visit."""

from collections.abc import Collection
from datetime import datetime

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.plans.diagnosis_codes import Offer, refused
from clinic.plans.models import ChosenCode
from clinic.visits.models import Assessment
from clinic.visits.policies import NotAllowedNow


class CodesRefusedError(Exception):
    """Codes that may not be combined; ``problems`` in words. Nothing was written."""

    def __init__(self, problems: tuple[str, ...]) -> None:
        self.problems = problems
        super().__init__("These codes cannot be combined.")


@transaction.atomic
def choose_codes(
    *,
    assessment: Assessment,
    offered: Collection[Offer],
    codes: Collection[str],
    by: User,
    at: datetime,
    request: HttpRequest | None = None,
) -> None:
    """From now on these codes and no others, each one of ``offered``.

    What was chosen before and still is keeps who chose it and when. Raises ``NotAllowedNow``
    before the visit is signed, ``CodesRefusedError`` for a pair the code list forbids.
    """
    locked = Assessment.objects.select_for_update(of=("self",)).select_related("visit")
    assessment = locked.get(pk=assessment.pk)
    if not assessment.visit.is_signed:
        raise NotAllowedNow("Codes are chosen once the visit is signed.")
    wanted = [offer for offer in offered if offer.code in codes]
    if problems := refused([offer.code for offer in wanted]):
        raise CodesRefusedError(problems)
    assessment.codes.exclude(code__in=[offer.code for offer in wanted]).delete()
    kept = set(assessment.codes.values_list("code", flat=True))
    for offer in wanted:
        if offer.code not in kept:
            _choose(assessment, offer, by, at)
    record(
        request_or_actor=request or by,
        action="chose codes",
        subject=assessment,
        patient=assessment.visit.patient,
    )


def _choose(assessment: Assessment, offer: Offer, by: User, at: datetime) -> None:
    ChosenCode.objects.create(
        assessment=assessment,
        code=offer.code,
        title=offer.title,
        release=offer.release,
        chosen_by=by,
        chosen_at=at,
    )

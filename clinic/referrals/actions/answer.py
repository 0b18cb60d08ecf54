"""Answer a referral, record an answer received, and who has opened it."""

from datetime import datetime

from django.db import transaction
from django.http import HttpRequest

from clinic import formatting
from clinic.accounts.models import User
from clinic.accounts.permissions import Right, may
from clinic.audit.record import record
from clinic.referrals.models import CameBy, Referral
from clinic.visits.policies import NotAllowedNow


def mark_seen(*, referral: Referral, by: User, at: datetime) -> None:
    """The first of those who may answer has opened it; anyone else's look does not count."""
    if referral.seen_at is not None or referral.answered_at is not None:
        return
    if not may(by, Right.ANSWER_REFERRAL) or referral.made_by_id == by.pk:
        return
    unseen = Referral.objects.filter(pk=referral.pk, seen_at__isnull=True)
    if unseen.update(seen_at=at, seen_by=by):
        referral.seen_at, referral.seen_by = at, by


def mark_read(*, referral: Referral, by: User, at: datetime) -> None:
    """The answer has been seen by the person who asked; anyone else's look does not count."""
    if referral.answered_at and referral.made_by_id == by.pk and not referral.answer_read_at:
        Referral.objects.filter(pk=referral.pk).update(answer_read_at=at)


def _answered_before(referral: Referral) -> str:
    who = referral.answered_by.display_name if referral.answered_by else "Someone"
    at = formatting.moment(referral.answered_at)
    return f"This referral has been answered already, on {at} by {who}. Your answer was not saved."


@transaction.atomic
def answer_referral(
    *, referral: Referral, answer: str, by: User, at: datetime, request: HttpRequest | None = None
) -> Referral:
    """Once; a second answer raises ``NotAllowedNow``, so that no answer is overwritten."""
    referral = Referral.objects.select_for_update().get(pk=referral.pk)
    if referral.answered_at is not None:
        raise NotAllowedNow(_answered_before(referral))
    referral.answer, referral.answered_by, referral.answered_at = answer, by, at
    if referral.seen_at is None:
        referral.seen_by, referral.seen_at = by, at
    referral.save()
    record(
        request_or_actor=request or by,
        action="answered",
        subject=referral,
        patient=referral.assessment.visit.patient,
    )
    return referral


@transaction.atomic
def record_received(
    *,
    referral: Referral,
    answer: str,
    answer_from: str,
    came_by: CameBy,
    by: User,
    at: datetime,
    request: HttpRequest | None = None,
) -> Referral:
    """The words of somebody who does not use the record, written down by the colleague who took
    the call or opened the letter.

    One who does not chart, or a second answer, raises ``NotAllowedNow``.
    """
    referral = Referral.objects.select_for_update().get(pk=referral.pk)
    if not may(by, Right.CHART):
        raise NotAllowedNow("Only users who chart can record an answer received.")
    if referral.answered_at is not None:
        raise NotAllowedNow(_answered_before(referral))
    referral.answer, referral.answer_from, referral.came_by = answer, answer_from, came_by
    referral.answered_by, referral.answered_at = by, at
    if referral.made_by_id == by.pk:  # a colleague's entry is news to the person who asked
        referral.answer_read_at = at
    referral.save()
    record(
        request_or_actor=request or by,
        action="recorded answer received",
        subject=referral,
        patient=referral.assessment.visit.patient,
        detail=came_by.value,
    )
    return referral

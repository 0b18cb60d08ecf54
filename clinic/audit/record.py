"""The one way to write the access log."""

from collections.abc import Iterable
from typing import Any
from uuid import UUID

from django.contrib.auth.base_user import AbstractBaseUser
from django.contrib.auth.models import AnonymousUser
from django.db.models import Model
from django.http import HttpRequest
from django.utils import timezone

from clinic.audit.models import AccessLog
from clinic.audit.whose import patient_of
from clinic.requests import client_address

NOBODY = "nobody signed in"


def record(
    *,
    request_or_actor: HttpRequest | AbstractBaseUser | None,
    action: str,
    subject: Model | str,
    patient: Model | None = None,
    detail: str = "",
) -> None:
    """Write one row: who (with the address, given a request) did ``action`` to ``subject``.

    ``action`` is a verb in the past ("viewed", "signed", "printed"); ``subject`` a row, or a
    word where there is none. The patient is found from the subject unless given. ``detail``
    is a few words, never record contents.
    """
    actor = _actor(request_or_actor)
    kind = subject if isinstance(subject, str) else str(subject._meta.verbose_name)
    AccessLog.objects.create(
        actor_id=actor.pk if actor else None,
        actor_words=_words(actor)[:240],
        action=action[:60],
        subject_kind=kind[:60],
        subject_uuid=_uuid(subject),
        patient_uuid=_uuid(patient if patient is not None else _patient(subject)),
        remote_address=_address(request_or_actor),
        detail=detail[:240],
    )


def record_each(
    *,
    request_or_actor: HttpRequest | AbstractBaseUser | None,
    action: str,
    subject: str,
    patients: Iterable[Model],
    detail: str = "",
) -> None:
    """One row for each of ``patients``, in one statement: a list showed all of them at once."""
    actor = _actor(request_or_actor)
    AccessLog.objects.bulk_create(
        AccessLog(
            actor_id=actor.pk if actor else None,
            actor_words=_words(actor)[:240],
            action=action[:60],
            subject_kind=subject[:60],
            patient_uuid=_uuid(patient),
            remote_address=_address(request_or_actor),
            detail=detail[:240],
        )
        for patient in patients
    )


def record_listed(
    *, request: HttpRequest, action: str, subject: str, patients: Iterable[Model]
) -> None:
    """One row for each of ``patients`` on a list that is opened many times a day: the first time
    today that this person is shown them by it."""
    actor = _actor(request)
    midnight = timezone.localtime().replace(hour=0, minute=0, second=0, microsecond=0)
    today = AccessLog.objects.filter(
        actor_id=actor.pk if actor else None, at__gte=midnight, action=action, subject_kind=subject
    )
    known = set(today.values_list("patient_uuid", flat=True))
    unseen = [one for one in patients if _uuid(one) not in known]
    if unseen:
        record_each(request_or_actor=request, action=action, subject=subject, patients=unseen)


def _actor(given: HttpRequest | AbstractBaseUser | None) -> AbstractBaseUser | None:
    user: Any = getattr(given, "user", None) if isinstance(given, HttpRequest) else given
    return None if user is None or isinstance(user, AnonymousUser) else user


def _words(actor: AbstractBaseUser | None) -> str:
    return NOBODY if actor is None else str(getattr(actor, "display_name", actor))


def _address(given: HttpRequest | AbstractBaseUser | None) -> str | None:
    return client_address(given) if isinstance(given, HttpRequest) else None


def _uuid(subject: Model | str | None) -> UUID | None:
    return getattr(subject, "uuid", None)


def _patient(subject: Model | str) -> Model | None:
    return None if isinstance(subject, str) else patient_of(subject)

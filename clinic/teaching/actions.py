"""Write what was taught; withdraw an entry that was a mistake."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from uuid import UUID, uuid5

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import Stoma
from clinic.teaching.choices import Item, Learner, Level, TeachBack, Withdrawn
from clinic.teaching.models import TaughtPoint, Withdrawal
from clinic.visits.models import Visit


@dataclass(frozen=True)
class Taught:
    """How far somebody came with one point; ``back`` None: not asked to say or show it."""

    level: Level
    back: TeachBack | None = None
    words: str = ""


@dataclass(frozen=True)
class Session:
    """One time of teaching. ``key`` was made with the page. ``taught_by`` "": who records it."""

    key: UUID
    on: date
    learner: Learner
    learner_name: str = ""
    taught_by: str = ""
    visit: Visit | None = None


@transaction.atomic
def record_teaching(
    *,
    stoma: Stoma,
    session: Session,
    points: Mapping[Item, Taught],
    by: User,
    request: HttpRequest | None = None,
) -> list[TaughtPoint]:
    """An entry for each point; a page sent twice adds none twice."""
    Stoma.objects.select_for_update().get(pk=stoma.pk)
    keys = {item: uuid5(session.key, item.value) for item in points}
    stored = set(TaughtPoint.objects.filter(uuid__in=keys.values()).values_list("uuid", flat=True))
    added = []
    for item, taught in points.items():
        if keys[item] in stored:
            continue
        row = TaughtPoint(
            uuid=keys[item],
            stoma=stoma,
            visit=session.visit,
            on=session.on,
            item=item,
            level=taught.level,
            learner=session.learner,
            learner_name=session.learner_name,
            teach_back=taught.back or "",
            words=taught.words,
            taught_by=session.taught_by,
            recorded_by=by,
        )
        row.full_clean()
        row.save()
        added.append(row)
    if added:
        detail = f"{len(added)} points"
        record(
            request_or_actor=request or by,
            action="recorded teaching",
            subject=stoma,
            patient=stoma.patient,
            detail=detail,
        )
    return added


@transaction.atomic
def withdraw(
    *, point: TaughtPoint, why: Withdrawn, by: User, request: HttpRequest | None = None
) -> Withdrawal:
    """The entry stays and no longer counts; withdrawn twice, the first time holds."""
    TaughtPoint.objects.select_for_update().get(pk=point.pk)
    found, made = Withdrawal.objects.get_or_create(point=point, defaults={"why": why, "by": by})
    if made:
        record(
            request_or_actor=request or by,
            action="withdrew",
            subject=point,
            patient=point.stoma.patient,
            detail=why.label,
        )
    return found

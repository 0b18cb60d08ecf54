"""Pictures of one stoma by date, and which two are shown side by side."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime
from uuid import UUID

from django.http import QueryDict
from django.urls import reverse
from django.utils import timezone

from clinic import formatting
from clinic.patients.models import Stoma
from clinic.visits.choices import VisitState
from clinic.visits.models import Photo


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture to choose; ``words`` its date and caption."""

    id: UUID
    url: str
    words: str
    width: int
    height: int
    day: date


@dataclass(frozen=True, slots=True)
class Bracket:
    """The last picture before the newest change of the plan and the newest one after it; None
    where there is none. ``changed`` None: no plan has changed anything, so ``after`` is merely the
    newest."""

    changed: date | None
    before: Picture | None
    after: Picture | None


@dataclass(frozen=True, slots=True)
class Pair:
    """All that can be chosen, oldest first, and the two shown."""

    every: tuple[Picture, ...]
    first: Picture
    second: Picture


def pictures_of(stoma: Stoma) -> tuple[Picture, ...]:
    """Every picture, oldest first, without loading any of them."""
    rows = (
        Photo.objects.filter(assessment__stoma=stoma)
        .exclude(assessment__visit__state=VisitState.DISCARDED)
        .order_by("assessment__visit__happened_at", "at", "pk")
        .values_list("pk", "assessment__visit__happened_at", "caption", "width", "height")
    )
    return tuple(_picture(*row) for row in rows)


def _picture(pk: UUID, seen: datetime, caption: str, width: int, height: int) -> Picture:
    day = formatting.day(seen)
    words = f"{day}, {caption}" if caption else day
    on = timezone.localdate(seen)
    return Picture(pk, reverse("visits:photo", args=[pk]), words, width, height, on)


def bracket_of(pictures: Sequence[Picture], changed: date | None) -> Bracket:
    """A picture of the day of the change itself was taken before it."""
    if changed is None:
        return Bracket(None, None, pictures[-1] if pictures else None)
    before = [one for one in pictures if one.day <= changed]
    after = [one for one in pictures if one.day > changed]
    return Bracket(changed, before[-1] if before else None, after[-1] if after else None)


def pair_of(pictures: Sequence[Picture], asked: QueryDict) -> Pair | None:
    """The two asked for, else the oldest and the newest; None with fewer than two."""
    if len(pictures) < 2:
        return None
    by_id = {str(one.id): one for one in pictures}
    first = by_id.get(asked.get("first") or "", pictures[0])
    second = by_id.get(asked.get("second") or "", pictures[-1])
    return Pair(tuple(pictures), first, second)

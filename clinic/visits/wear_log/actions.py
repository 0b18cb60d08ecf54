"""Save the log page: new barriers, corrections and removals, in one step."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import Stoma
from clinic.requests import whole_number
from clinic.visits.models import WornBarrier
from clinic.visits.wear_log.entry.rows import RowRead

#: On, off, reason and circumstance of a row.
Said = tuple[date | None, date | None, str, str]


class LogChanged(Exception):  # noqa: N818
    """Somebody else changed this log since the page was opened; nothing was stored."""

    def __init__(self, by: str, at: datetime | None) -> None:
        self.by, self.at = by, at
        super().__init__("The log was changed by someone else in between.")


@dataclass(frozen=True)
class Saved:
    """How many rows were written."""

    added: int = 0
    changed: int = 0
    removed: int = 0

    @property
    def words(self) -> str:
        """``30 barriers added, 1 corrected.``"""
        parts = [
            f"{self.added} barrier{'s' * (self.added != 1)} added" if self.added else "",
            f"{self.changed} corrected" if self.changed else "",
            f"{self.removed} removed; the history keeps what was there" if self.removed else "",
        ]
        return ", ".join(part for part in parts if part) + "." if any(parts) else ""


def newest(stoma: Stoma) -> str:
    """Which version of the log is stored: its newest line of history; "" before the first."""
    event = _newest_event(stoma)
    return str(event.pgh_id) if event else ""


@transaction.atomic
def save_log(
    *,
    stoma: Stoma,
    rows: Sequence[RowRead],
    removed: Collection[str],
    seen: str,
    by: User,
    request: HttpRequest | None = None,
) -> Saved:
    """Store ``rows`` (read without problems) and delete ``removed``, made on version ``seen``.

    Raises ``LogChanged`` where somebody changed the log since; a page sent twice says the same
    the second time and changes nothing.
    """
    Stoma.objects.select_for_update().get(pk=stoma.pk)
    stored = {str(row.pk): row for row in WornBarrier.objects.filter(stoma=stoma)}
    new = [row for row in rows if row.typed.key not in stored]
    changed = [row for row in rows if row.typed.key in stored and _differs(row, stored)]
    gone = [stored[key] for key in removed if key in stored]
    saved = Saved(len(new), len(changed), len(gone))
    if not saved.words:
        return saved
    if newest(stoma) != seen:
        raise _changed_by(stoma)
    for barrier in gone:
        barrier.delete()
    for row in changed:
        kept: Any = stored[row.typed.key]
        kept.on, kept.off = row.on, row.off
        kept.reason, kept.circumstance = row.reason, row.circumstance
        kept.save()
    WornBarrier.objects.bulk_create(_row(stoma, row, by) for row in new)
    record(
        request_or_actor=request or by,
        action="changed wear log",
        subject=stoma,
        detail=f"{saved.added} added, {saved.changed} corrected, {saved.removed} removed",
    )
    return saved


def _row(stoma: Stoma, read: RowRead, by: User) -> WornBarrier:
    names = ("on", "off", "reason", "circumstance")
    values: dict[str, Any] = dict(zip(names, said(read), strict=True))
    return WornBarrier(pk=UUID(read.typed.key), stoma=stoma, entered_by=by, **values)


def said(row: Any) -> Said:
    """What a row says, as read or as stored, to be compared."""
    return row.on, row.off, row.reason, row.circumstance


def _differs(read: RowRead, stored: dict[str, WornBarrier]) -> bool:
    return said(stored[read.typed.key]) != said(read)


def _newest_event(stoma: Stoma) -> Any:
    events: Any = WornBarrier._meta.get_field("events").related_model
    return events.objects.filter(stoma_id=stoma.pk).order_by("-pgh_id").first()


def as_opened(stoma: Stoma, seen: str) -> dict[str, Said]:
    """What every row said as version ``seen`` had it, by its id."""
    version = whole_number(seen)
    if version is None:
        return {}
    events: Any = WornBarrier._meta.get_field("events").related_model
    past = events.objects.filter(stoma_id=stoma.pk, pgh_id__lte=version).order_by("pgh_id")
    return {str(row.pgh_obj_id): said(row) for row in past}


def _changed_by(stoma: Stoma) -> LogChanged:
    event = _newest_event(stoma)
    if event is None:
        return LogChanged("", None)
    changed_by = (event.pgh_context.metadata if event.pgh_context_id else {}).get("user")
    user = User.objects.filter(pk=changed_by).first() if changed_by else None
    return LogChanged(user.display_name if user else "", event.pgh_created_at)

"""Save a draft: what holds together goes to its columns, the rest is kept as typed."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID

from django.db import transaction
from django.forms import BaseForm
from django.http import HttpRequest, QueryDict

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.visits.chart import Chart, raw_of
from clinic.visits.forms.rows import RowSet
from clinic.visits.locking import locked_draft
from clinic.visits.merging import HOUSEKEEPING, differences
from clinic.visits.models import Assessment, ConflictCopy, PendingEntry, Visit
from clinic.visits.queries import with_parts


class ConflictError(Exception):
    """Somebody saved in between; ``copy`` keeps this save whole, nothing was overwritten."""

    def __init__(self, copy: ConflictCopy) -> None:
        self.copy = copy
        super().__init__("This draft was saved by someone else in between.")


@dataclass(frozen=True)
class Turn:
    """Which version a save was made on; and, from a page with scripts, which open page sends it
    and its how-manieth save it is, so that a page never conflicts with itself."""

    version: int
    page: UUID | None = None
    number: int = 0


@dataclass
class Saved:
    """The outcome: the chart as checked, and whether anything was written."""

    chart: Chart
    visit: Visit
    changed: bool
    errors: dict[str, list[str]] = field(default_factory=dict)


#: What else the page holds: its forms, to compare; and how to store them, True where changed.
Also = Callable[[Assessment], Sequence[BaseForm]]
Then = Callable[[Assessment], bool]


def save_chart(
    *,
    assessment: Assessment,
    data: QueryDict,
    turn: Turn,
    by: User,
    previous: Assessment | None = None,
    also: Also = lambda _: (),
    then: Then = lambda _: False,
    request: HttpRequest | None = None,
) -> Saved:
    """Save everything posted for ``assessment``; one step of the visit's version, if any.

    ``then`` stores what the page holds besides the chart, in the same transaction. Raises
    ``ConflictError`` where somebody else saved since, ``NotAllowedNow`` where it is signed.
    """
    with transaction.atomic():
        visit = locked_draft(assessment.visit)
        # Read behind the lock: no one writes between the comparison and the storing.
        stored = with_parts().get(pk=assessment.pk)
        stored.visit = visit
        if _overtaken(visit, turn) or (
            not _is_next(visit, turn) and says_the_same(stored, data, also)
        ):
            return _nothing_new(stored, previous)
        if _is_next(visit, turn):
            return _save(stored, data, turn, by, previous, then, request)
        copy = keep_copy(assessment=assessment, data=data, turn=turn, by=by)
    # Raised after the copy is committed.
    raise ConflictError(copy)


@transaction.atomic
def keep_copy(*, assessment: Assessment, data: QueryDict, turn: Turn, by: User) -> ConflictCopy:
    """Keep a save that came too late, whole. One page's later copy replaces its earlier one."""
    # One at a time, so that two sends of one page never make two copies.
    Visit.objects.select_for_update().get(pk=assessment.visit_id)
    # The entries alone: no token of the session that sent them stays behind.
    entries = {name: said for name, said in data.lists() if name not in HOUSEKEEPING}
    values: dict[str, Any] = {"base_version": turn.version, "data": entries}
    if turn.page is None:
        copy, _ = ConflictCopy.objects.get_or_create(assessment=assessment, by=by, **values)
    else:
        copy, _ = ConflictCopy.objects.update_or_create(
            assessment=assessment, by=by, page=turn.page, defaults=values
        )
    return copy


def _same_page(visit: Visit, turn: Turn) -> bool:
    return turn.page is not None and turn.page == visit.saved_page


def _is_next(visit: Visit, turn: Turn) -> bool:
    """Made on what is stored now, or by the very page that stored it."""
    return visit.version == turn.version or _same_page(visit, turn)


def _overtaken(visit: Visit, turn: Turn) -> bool:
    """An older save of the same page, arriving after a newer one that holds all it says."""
    return _same_page(visit, turn) and turn.number <= visit.saved_turn


def says_the_same(assessment: Assessment, data: QueryDict, also: Also) -> bool:
    """Whether a late save only repeats what is stored: then there is nothing to choose."""
    chart = Chart(assessment)
    chart.check()
    return not differences(dict(data.lists()), chart, also(assessment))


def _nothing_new(assessment: Assessment, previous: Assessment | None) -> Saved:
    chart = Chart(assessment, previous=previous)
    chart.check()
    return Saved(chart, assessment.visit, changed=False, errors=chart.errors())


def _save(
    assessment: Assessment,
    data: QueryDict,
    turn: Turn,
    by: User,
    previous: Assessment | None,
    then: Then,
    request: HttpRequest | None,
) -> Saved:
    visit = assessment.visit
    chart = Chart(assessment, data=data, previous=previous)
    chart.check()
    # Every part is stored, so no short cut through any().
    written = [
        _store_forms(chart),
        *[_store_gone(rows) for rows in chart.rows.values()],
        _store_pending(chart),
    ]
    written.append(then(assessment))
    changed = any(written)
    if changed:
        visit.version += 1
        visit.saved_by = by
        visit.saved_page, visit.saved_turn = turn.page, turn.number
        visit.save()
        record(request_or_actor=request or by, action="saved", subject=visit)
    elif _same_page(visit, turn):
        # Counted too, so that an older save still on its way finds itself overtaken.
        Visit.objects.filter(pk=visit.pk).update(saved_turn=turn.number)
    return Saved(chart=chart, visit=visit, changed=changed, errors=chart.errors())


def _store_forms(chart: Chart) -> bool:
    """Write whatever is right and differs from what is stored."""
    changed = False
    for position, (prefix, form) in enumerate(chart.forms()):
        row: Any = form.row_to_store()
        if row is None:
            continue
        if form.is_new_row:
            row.position = position
        if prefix != "visit":  # saved with its version by the caller
            row.save()
        changed = True
    return changed


def _store_gone(rows: RowSet) -> bool:
    gone = [rows.stored[key] for key in rows.gone()]
    for row in gone:
        row.delete()
    return bool(gone)


def _store_pending(chart: Chart) -> bool:
    """Keep as typed what does not hold together; forget what now does."""
    waiting = {
        prefix: raw_of(form)
        for prefix, form in chart.forms()
        if form.is_bound and not form.is_valid()
    }
    stored = {e.prefix: e for e in chart.assessment.pending.all() if chart.owns(e.prefix)}
    changed = False
    for prefix, raw in waiting.items():
        if prefix not in stored or stored[prefix].data != raw:
            PendingEntry.objects.update_or_create(
                assessment=chart.assessment, prefix=prefix, defaults={"data": raw}
            )
            changed = True
    for prefix, entry in stored.items():
        if prefix not in waiting:
            entry.delete()
            changed = True
    return changed

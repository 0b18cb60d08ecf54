"""Save a draft: what holds together goes to its columns, the rest is kept as typed."""

import time
from dataclasses import dataclass, field
from typing import Any

from django.db import transaction
from django.http import HttpRequest, QueryDict

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.visits.chart import Chart, raw_of
from clinic.visits.forms.rows import RowSet
from clinic.visits.history import with_parts
from clinic.visits.merging import differences
from clinic.visits.models import Assessment, ConflictCopy, PendingEntry, Visit
from clinic.visits.policies import check_can_edit

WAIT = 0.1  # seconds
MOST_WAITS = 20


class ConflictError(Exception):
    """Somebody saved in between; ``copy`` keeps this save whole, nothing was overwritten."""

    def __init__(self, copy: ConflictCopy) -> None:
        self.copy = copy
        super().__init__("This draft was saved by someone else in between.")


@dataclass
class Saved:
    """The outcome: the chart as checked, and whether anything was written."""

    chart: Chart
    visit: Visit
    changed: bool
    errors: dict[str, list[str]] = field(default_factory=dict)


def save_chart(
    *,
    assessment: Assessment,
    data: QueryDict,
    version: int,
    by: User,
    previous: Assessment | None = None,
    request: HttpRequest | None = None,
) -> Saved:
    """Save everything posted for ``assessment``, if the page was opened on ``version``.

    Raises ``ConflictError`` where it was not, ``NotAllowedNow`` where the visit is signed.
    """
    assessment = _behind_the_save_under_way(assessment, version)
    with transaction.atomic():
        visit = Visit.objects.select_for_update().get(pk=assessment.visit_id)
        check_can_edit(visit)
        if visit.version == version or _says_the_same(assessment, data):
            assessment.visit = visit
            return _save(assessment, data, by, previous, request)
        copy = _keep_copy(assessment, data, version, by)
    # Raised after the copy is committed.
    raise ConflictError(copy)


def _behind_the_save_under_way(assessment: Assessment, version: int) -> Assessment:
    """The assessment as the save before this one leaves it.

    A page that is left while it saves sends what came after at once, for the version that the
    save under way will make. Overtaking it on the way must not look like a second person.
    """
    for _ in range(MOST_WAITS):
        if version != assessment.visit.version + 1:
            break
        time.sleep(WAIT)
        assessment = with_parts().get(pk=assessment.pk)
    return assessment


def _says_the_same(assessment: Assessment, data: QueryDict) -> bool:
    """Whether a late save only repeats what is stored: then there is nothing to choose."""
    chart = Chart(with_parts().get(pk=assessment.pk))
    chart.check()
    return not differences(dict(data.lists()), chart)


def _keep_copy(assessment: Assessment, data: QueryDict, version: int, by: User) -> ConflictCopy:
    # One waiting copy an author: a page that goes on saving replaces its own.
    copy, _ = ConflictCopy.objects.update_or_create(
        assessment=assessment, by=by, defaults={"base_version": version, "data": dict(data.lists())}
    )
    return copy


def _save(
    assessment: Assessment,
    data: QueryDict,
    by: User,
    previous: Assessment | None,
    request: HttpRequest | None,
) -> Saved:
    visit = assessment.visit
    chart = Chart(assessment, data=data, previous=previous)
    chart.check()
    changed = any([_store_forms(chart), *[_store_gone(rows) for rows in chart.rows.values()]])
    changed |= _store_pending(chart)
    if changed:
        visit.version += 1
        visit.saved_by = by
        visit.save()
        record(request_or_actor=request or by, action="saved", subject=visit)
    return Saved(chart=chart, visit=visit, changed=changed, errors=chart.errors())


def _store_forms(chart: Chart) -> bool:
    """Write every form that is valid and differs from what is stored."""
    changed = False
    for position, (prefix, form) in enumerate(chart.forms()):
        if not form.is_valid() or not (form.has_changed() or _is_new_row(form)):
            continue
        row: Any = form.save(commit=False)
        if hasattr(row, "position") and _is_new_row(form):
            row.position = position
        if prefix == "visit":
            # Saved with its version by the caller.
            changed = True
            continue
        row.save()
        changed = True
    return changed


def _is_new_row(form: Any) -> bool:
    return hasattr(form, "key") and bool(form.instance._state.adding)


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
    stored = {entry.prefix: entry for entry in chart.assessment.pending.all()}
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

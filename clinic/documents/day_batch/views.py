"""Print the care sheets of everyone due, or seen, on a day as one PDF."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from uuid import UUID

from django.http import FileResponse, HttpRequest, HttpResponseBase, JsonResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record_listed
from clinic.documents.day_batch import build as day_batch
from clinic.documents.day_batch.day_lists import AT_MOST, DayLists, Row, day_lists
from clinic.documents.desk import is_desk, people_of_the_day, prints_day
from clinic.documents.printed.actions import put_on_record
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.patients.restricted.reasons import restricted
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.PRINT)
def day_sheets(request: HttpRequest) -> HttpResponseBase:
    """Choose by name and date alone, then one file. Without scripts a long list takes several
    presses of the same button; each says how far it has come."""
    if request.method != "POST":
        return _choose(request, _day(request.GET.get("day", "")))
    day, sheets = _day(request.POST.get("day", "")), _posted(request)
    if not sheets:
        return _choose(request, day, error="Choose at least one sheet.", chosen=())
    try:
        progress = day_batch.prepare(sheets)
        if not progress.done:
            return _choose(request, day, progress=progress, chosen=sheets)
        joined = day_batch.joined(sheets)
    except PrintingUnavailable as unavailable:
        return _choose(request, day, error=str(unavailable), chosen=sheets, status=503)
    for printing, file_id in joined.printings:
        put_on_record(printing, file_id, by=request.user, request=request)  # type: ignore[arg-type]
    return FileResponse(
        joined.file,
        content_type="application/pdf",
        headers={"Content-Disposition": 'inline; filename="care-sheets.pdf"'},
    )


@require_POST
@needs(Right.PRINT)
def day_sheet_ready(request: HttpRequest) -> JsonResponse:
    """Set one sheet, for the page's script to count. Nothing of it is sent."""
    sheets = _posted(request)[:1]
    if not sheets:
        return JsonResponse({"message": "No sheet was named."}, status=400)
    try:
        day_batch.prepare(sheets)
    except PrintingUnavailable as unavailable:
        return JsonResponse({"message": str(unavailable)}, status=503)
    return JsonResponse({"ready": True})


def _day(typed: str) -> date:
    """Today for what is no day, and for the ends of the calendar, which have no day beside them."""
    try:
        day = date.fromisoformat(typed)
    except ValueError:
        return timezone.localdate()
    return day if date.min < day < date.max else timezone.localdate()


def _posted(request: HttpRequest) -> list[UUID]:
    """The sheets asked for, in the order of the page; each is a signed visit's, of no
    restricted record, and at the desk of a person of the day, or there is none."""
    asked: list[UUID] = []
    for typed in request.POST.getlist("sheet")[: 2 * AT_MOST]:
        try:
            asked.append(UUID(typed))
        except ValueError:
            continue
    asked = list(dict.fromkeys(asked))
    signed = Assessment.objects.filter(uuid__in=asked, visit__state=VisitState.SIGNED)
    # Each prints by itself, from its record, with the reason that was given for it.
    signed = signed.exclude(stoma__patient__in=restricted())
    if is_desk(request):
        signed = signed.filter(stoma__patient__in=people_of_the_day())
    known = set(signed.values_list("uuid", flat=True))
    for one in asked:
        if one not in known:
            get_object_or_404(signed, uuid=one)
    return asked


def _choose(
    request: HttpRequest,
    day: date,
    *,
    error: str = "",
    progress: day_batch.Progress | None = None,
    chosen: Iterable[UUID] | None = None,
    status: int | None = None,
) -> HttpResponseBase:
    """``chosen`` None: as ``?tick=`` asks, else what is still to be printed."""
    prints = prints_day(request, day)
    lists = day_lists(day, timezone.localdate()) if prints else DayLists((), (), 0)
    people = dict.fromkeys(row.assessment.visit.patient for row in lists.rows)
    record_listed(request=request, action="listed", subject="day's sheets", patients=people)
    ticked = _ticked(lists, request.GET.get("tick", "")) if chosen is None else set(chosen)
    page = {
        "day": day,
        "ahead": day > timezone.localdate(),
        "lists": lists,
        "other_day": not prints,
        "ticked": ticked,
        "error": error,
        "progress": progress,
        "at_most": AT_MOST,
    }
    return render(
        request,
        "documents/day_batch/day_sheets.html",
        page,
        status=status or (422 if error else 200),
    )


def _ticked(lists: DayLists, asked: str) -> set[UUID]:
    """``seen``, ``due`` or ``none``; anything else: what is still to be printed."""
    wholes: dict[str, tuple[Row, ...]] = {"seen": lists.seen, "due": lists.due, "none": ()}
    rows = wholes.get(asked, tuple(row for row in lists.rows if row.ticked))
    return {row.assessment.uuid for row in rows}

"""The wear log of a stoma: read by anyone who sees the record, filled in by anyone who charts."""

from __future__ import annotations

from dataclasses import replace
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from clinic import formatting
from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.patients.models import Stoma
from clinic.visits.wear_log.actions import LogChanged, as_opened, newest, said, save_log
from clinic.visits.wear_log.entry.reasons import CIRCUMSTANCE_KEY, KEY
from clinic.visits.wear_log.entry.rows import Life, RowRead, Typed, reading, uncounted_words
from clinic.visits.wear_log.grid_form import SPARE_ROWS, Grid, Known, first_day, of_stored, posted
from clinic.visits.wear_log.presenter import Caution, cautions_of, lines_of, summary_of

#: How many stored rows "correct the newest" puts into the grid.
NEWEST = 30


def _stoma(uuid: UUID) -> Stoma:
    return get_object_or_404(Stoma.objects.select_related("patient"), uuid=uuid)


def _life(stoma: Stoma) -> Life:
    return Life(timezone.localdate(), stoma.surgery_date, stoma.closed_on)


@require_GET
@needs(Right.SEE_CLINICAL)
def show(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """The log; for anyone who charts with the grid, in which the barrier still on comes first.

    ``row`` (several) puts stored rows into the grid; ``rows=newest`` the newest of them.
    """
    found = _stoma(stoma)
    record(request_or_actor=request, action="viewed wear log", subject=found)
    known = Known.of(found)
    wanted = set(request.GET.getlist("row"))
    rows = [row for row in known.page if str(row.pk) in wanted or (not row.off and not wanted)]
    if request.GET.get("rows") == "newest":
        rows = list(known.page[-NEWEST:])
    return _render(request, Grid(found, known, _life(found), of_stored(rows)))


@require_http_methods(["GET", "POST"])
@needs(Right.CHART)
def save(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """Check, take in what was pasted or ruled, or store. Nothing is stored but by ``save``."""
    found = _stoma(stoma)
    if request.method == "GET":  # led here by signing in again
        return redirect("visits:wear_log", found.uuid)
    grid = posted(found, Known.of(found), _life(found), request.POST)
    press = request.POST.get("press", "check")
    if press == "save":
        return _save(request, grid)
    if press == "paste":
        grid.read_paste()
    elif press == "rule":
        grid.read_rule()
    status = 422 if grid.rule_read.problems else 200
    return _render(request, grid, status=status, checked=True)


def _save(request: HttpRequest, grid: Grid) -> HttpResponse:
    if waiting := _still_typed(grid):
        return _render(request, grid, status=422, checked=True, waiting=waiting)
    if not grid.good:
        return _render(request, grid, status=422, checked=True)
    try:
        saved = save_log(
            stoma=grid.stoma,
            rows=grid.to_store,
            removed=grid.removed,
            seen=request.POST.get("seen", ""),
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
    except LogChanged as changed:
        who, when = changed.by or "Someone", formatting.moment(changed.at)
        text = f"{who} changed this log ({when}) after you opened it."
        now = newest(grid.stoma)
        grid = _caught_up(grid, request.POST.get("seen", ""))
        return _render(request, grid, status=409, checked=True, changed=text, seen=now)
    waits = [uncounted_words(row) for row in grid.uncounted]
    messages.success(request, " ".join([saved.words or "Nothing had changed.", *waits]))
    known, rows = Known.of(grid.stoma), tuple(row.typed for row in grid.uncounted)
    if grid.paste.strip() or _would_go(rows, known):
        # Lines for which the page had no room, and days that the page as reopened lacks.
        left = Grid(grid.stoma, known, grid.life, rows, grid.order, paste=grid.paste)
        return _render(request, left, seen=newest(grid.stoma))
    return redirect("visits:wear_log", grid.stoma.uuid)


def _would_go(uncounted: tuple[Typed, ...], known: Known) -> bool:
    """Whether a row no one finished is missing from the page as it opens next."""
    opens = "" if any(row.off is None for row in known.page) else first_day(known)
    return any(one.on.strip() != opens for one in uncounted)


def _caught_up(grid: Grid, seen: str) -> Grid:
    """With what was typed; a stored row that no one touched on this page is as it is now, or
    saving again would take the other person's correction back."""
    known, opened = Known.of(grid.stoma), as_opened(grid.stoma, seen)
    idle = {r.typed.key for r in grid.rows if opened.get(r.typed.key) == said(r)}
    now = {one.key: one for one in of_stored(known.page)}
    return replace(
        grid,
        known=known,
        typed=tuple(
            now.get(one.key, one) if one.key in idle else one
            for one in grid.typed
            if one.key not in idle or one.key in now
        ),
    )


def _still_typed(grid: Grid) -> str:
    """What is still to be read into rows; pasted lines may wait where the page has no room."""
    if grid.paste.strip() and grid.room:
        return "There is text in the paste box. Read it into the rows, or empty the box."
    if grid.rule.since.strip() or grid.rule.exceptions.strip():
        return "“Every few days” is filled in. Make its rows, or empty it."
    return ""


@require_POST
@needs(Right.CHART)
def read(request: HttpRequest, stoma: UUID) -> JsonResponse:
    """What the rows say, for the page's script: readings, problems, cautions. Stores nothing."""
    found = _stoma(stoma)
    grid = posted(found, Known.of(found), _life(found), request.POST)
    return JsonResponse(
        {
            "rows": {row.typed.key: _row_json(row) for row in grid.rows},
            "cautions": [caution.text for caution in _new_cautions(grid)],
            "count": grid.changes,
        }
    )


def _new_cautions(grid: Grid) -> list[Caution]:
    """What the typed rows bring with them; the stored log's own are shown above it."""
    keys = {row.typed.key for row in grid.rows}
    known = cautions_of(grid.known.log())
    return [caution for caution in cautions_of(grid.log(), keys) if caution not in known]


def _row_json(row: RowRead) -> dict[str, Any]:
    return {
        "said": reading(row),
        "problems": {name: " ".join(texts) for name, texts in row.problems.items()},
        "worn": row.worn,
        "on": formatting.day(row.on) if row.on else "",
        "off": formatting.day(row.off) if row.off else "",
        "blank": row.typed.blank,
        "uncounted": uncounted_words(row),
    }


def _render(
    request: HttpRequest, grid: Grid, *, status: int = 200, checked: bool = False, **extra: Any
) -> HttpResponse:
    stored = grid.known.log()
    context = {
        "stoma": grid.stoma,
        "patient": grid.stoma.patient,
        "lines": lines_of(stored),
        "sums": summary_of(stored),
        "cautions": cautions_of(stored),
        "typed_cautions": _new_cautions(grid) if checked else [],
        "edits": may(request.user, Right.CHART),
        "grid": grid,
        "rows": [
            {
                "row": row,
                "stored": is_stored,
                "said": reading(row),
                "key": row.typed.key,
                "uncounted": uncounted_words(row),
            }
            for row, is_stored in grid.shown(min(SPARE_ROWS, max(1, grid.room)))
        ],
        "problems": sum(bool(row.problems) for row in grid.rows),
        "filled": any(row.filled for row in grid.rows),
        "ready": grid.changes,
        # A page that was only checked still rests on the version it was opened on.
        "seen": request.POST.get("seen", newest(grid.stoma)),
        "checked": checked,
        "reason_key": KEY,
        "circumstance_key": CIRCUMSTANCE_KEY,
        "newest": NEWEST,
        **extra,
    }
    return render(request, "visits/wear_log/page.html", context, status=status)

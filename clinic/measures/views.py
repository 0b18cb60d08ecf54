"""The lead's measures: the page, the file, and the people behind a number.

A file names no patient and hides small numbers; so does the page on paper. On the screen of
somebody who may open each record nothing is hidden.
"""

from __future__ import annotations

from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record, record_each
from clinic.measures.act_today import act_today
from clinic.measures.asked import Asked, asked
from clinic.measures.at_risk import KINDS
from clinic.measures.export import as_csv
from clinic.measures.over_time import by_quarter, drawing
from clinic.measures.people import people_behind
from clinic.measures.period import Period
from clinic.measures.report import for_file, measures, over_time_measures, tried_measures
from clinic.measures.tried import tried
from clinic.patients.models import Patient


@require_safe
@needs(Right.SEE_MEASURES)
def clinic(request: HttpRequest) -> HttpResponse:
    """Who waits today, then the figures of the usual months or of those asked for; where those
    are no months, no figures."""
    want, now = asked(request), timezone.now()
    inside = may(request.user, Right.SEE_CLINICAL)
    waiting = act_today(now) if inside else []
    record(request_or_actor=request, action="viewed", subject="measures")
    _record_shown(request, [one.patient for reason in waiting for one in reason.people])
    context = {
        **_context(want),
        "waiting": waiting,
        "inside": inside,
        "measures": measures(want.period, now, want.group) if want.period else (),
    }
    return render(request, "measures/clinic.html", context)


@require_safe
@needs(Right.SEE_MEASURES)
def csv(request: HttpRequest) -> HttpResponse:
    """The same as a file; back to the page where the months are none."""
    want = asked(request)
    if want.period is None:
        return redirect(f"{reverse('measures:clinic')}?{request.GET.urlencode()}")
    found = for_file(measures(want.period, timezone.now(), want.group), want.group)
    return _file(request, as_csv(found, want.period, want.group), "measures", want.period)


@require_safe
@needs(Right.SEE_MEASURES)
def what_was_tried(request: HttpRequest) -> HttpResponse:
    """For each need what was tried and what came of it, and what was tried before this record."""
    want = asked(request)
    record(request_or_actor=request, action="viewed", subject="measures")
    found = tried(want.period, timezone.localdate(), want.group) if want.period else None
    context = {
        **_context(want),
        "inside": may(request.user, Right.SEE_CLINICAL),
        "found": found,
        "measures": tried_measures(found),
    }
    return render(request, "measures/tried.html", context)


@require_safe
@needs(Right.SEE_MEASURES)
def tried_csv(request: HttpRequest) -> HttpResponse:
    """The same as a file, of every stoma together."""
    want = asked(request)
    if want.period is None or want.group.asked:
        return redirect(f"{reverse('measures:tried')}?{request.GET.urlencode()}")
    found = tried(want.period, timezone.localdate())
    if not found.whole:
        return redirect(f"{reverse('measures:tried')}?{request.GET.urlencode()}")
    return _file(request, as_csv(tried_measures(found), want.period), "tried", want.period)


@require_safe
@needs(Right.SEE_MEASURES)
def over_time(request: HttpRequest) -> HttpResponse:
    """``?kind=``: one finding by quarter and by kind of stoma."""
    want, kind = asked(request), _kind(request)
    record(request_or_actor=request, action="viewed", subject="measures")
    context: dict[str, object] = {
        **_context(want),
        "inside": may(request.user, Right.SEE_CLINICAL),
        "kind": kind,
        "kinds": KINDS,
        "words": KINDS[kind],
    }
    if want.period is not None:
        cut = by_quarter(kind, want.period, want.group)
        context |= {
            "drawn": drawing(cut),
            "measures": over_time_measures(kind, cut, want.period, want.group),
        }
    return render(request, "measures/over_time.html", context)


@require_safe
@needs(Right.SEE_MEASURES)
def over_time_csv(request: HttpRequest) -> HttpResponse:
    """The same as a file, of every stoma together."""
    want, kind = asked(request), _kind(request)
    if want.period is None or want.group.asked:
        return redirect(f"{reverse('measures:over_time')}?{request.GET.urlencode()}")
    found = over_time_measures(kind, by_quarter(kind, want.period), want.period)
    return _file(request, as_csv(found, want.period), f"{kind}-by-quarter", want.period)


def _kind(request: HttpRequest) -> str:
    kind = request.GET.get("kind", "")
    return kind if kind in KINDS else next(iter(KINDS))


@require_safe
@needs(Right.SEE_MEASURES)
def people(request: HttpRequest) -> HttpResponse:
    """Who is behind a number: ``?of=…&kind=…&which=…`` with the months and the group."""
    if not may(request.user, Right.SEE_CLINICAL):
        raise PermissionDenied
    want = asked(request)
    if want.period is None:
        return redirect(f"{reverse('measures:clinic')}?{request.GET.urlencode()}")
    found = people_behind(request.GET, want.period, want.group, timezone.now())
    if found is None:
        raise Http404
    _record_shown(request, [one.patient for one in found.people])
    context = {**_context(want), "found": found, "page_query": _page_query(request)}
    return render(request, "measures/people.html", context)


def _context(want: Asked) -> dict[str, object]:
    return {
        "form": want.form,
        "period": want.period,
        "group": want.group,
        "usual": want.usual,
        "query": want.query,
    }


def _record_shown(request: HttpRequest, patients: list[Patient]) -> None:
    """One line a patient, however often the list names them."""
    once = {patient.uuid: patient for patient in patients}
    record_each(
        request_or_actor=request, action="listed", subject="measures", patients=once.values()
    )


def _page_query(request: HttpRequest) -> str:
    asked_for = request.GET.copy()
    asked_for.pop("page", None)
    return asked_for.urlencode()


def _file(request: HttpRequest, text: str, name: str, period: Period) -> HttpResponse:
    record(request_or_actor=request, action="exported", subject="measures")
    name = f"{name}-{period.since.isoformat()}-{period.until.isoformat()}.csv"
    return HttpResponse(
        text,
        content_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )

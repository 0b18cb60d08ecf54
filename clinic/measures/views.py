"""The lead's measures: the page and the file. No patient is on either."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_safe

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.measures.export import as_csv
from clinic.measures.forms import PeriodForm
from clinic.measures.period import Period
from clinic.measures.report import measures


@require_safe
@needs(Right.SEE_MEASURES)
def clinic(request: HttpRequest) -> HttpResponse:
    """The usual months, or ``?since=…&until=…``; where those are no months, no figures."""
    form = _asked(request)
    period = _period(form)
    found = measures(period, timezone.now()) if period else ()
    record(request_or_actor=request, action="viewed", subject="measures")
    context = {
        "form": form,
        "period": period,
        "usual": not form.is_bound,
        "measures": found,
        "query": request.GET.urlencode(),
    }
    return render(request, "measures/clinic.html", context)


@require_safe
@needs(Right.SEE_MEASURES)
def csv(request: HttpRequest) -> HttpResponse:
    """The same as a file; back to the page where the months are none."""
    period = _period(_asked(request))
    if period is None:
        return redirect(f"{reverse('measures:clinic')}?{request.GET.urlencode()}")
    text = as_csv(measures(period, timezone.now()), period)
    record(request_or_actor=request, action="exported", subject="measures")
    name = f"measures-{period.since.isoformat()}-{period.until.isoformat()}.csv"
    return HttpResponse(
        text,
        content_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{name}"'},
    )


def _asked(request: HttpRequest) -> PeriodForm:
    today = timezone.localdate()
    if "since" in request.GET or "until" in request.GET:
        return PeriodForm(request.GET, today=today)
    usual = Period.usual(today)
    return PeriodForm(initial={"since": usual.since, "until": usual.until}, today=today)


def _period(form: PeriodForm) -> Period | None:
    if not form.is_bound:
        return Period.usual(form.today)
    return form.period if form.is_valid() else None

"""The access log, for the clinic lead. A search goes by POST: it may name a patient."""

from datetime import datetime, time, timedelta
from typing import Any
from uuid import UUID

from django.apps import apps
from django.core.paginator import Paginator
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.audit.forms import LogFilterForm
from clinic.audit.models import AccessLog
from clinic.audit.record import record
from clinic.requests import posted

A_PAGE = 50


def _patients() -> Any:
    """Patients by name: the app that holds them builds on this one."""
    return apps.get_model("patients", "Patient")._default_manager


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.READ_AUDIT)
def log(request: HttpRequest) -> HttpResponse:
    """Newest first. Reading the log is itself on record."""
    form = LogFilterForm(posted(request))
    rows = AccessLog.objects.all()
    if form.is_bound and form.is_valid():
        rows = _narrowed(rows, form)
    number = request.POST.get("page") or request.GET.get("page")
    page = Paginator(rows, A_PAGE).get_page(number)
    record(request_or_actor=request, action="read", subject="audit trail")
    shown = list(page.object_list)
    context = {"form": form, "page": page, "rows": shown, "numbers": _record_numbers(shown)}
    return render(request, "audit/log.html", context)


def _narrowed(rows: QuerySet[AccessLog], form: LogFilterForm) -> QuerySet[AccessLog]:
    asked = form.cleaned_data
    if asked["record_number"]:
        numbers = _patients().filter(record_number=asked["record_number"])
        rows = rows.filter(patient_uuid__in=numbers.values("uuid"))
    if asked["person"]:
        rows = rows.filter(actor_words__icontains=asked["person"])
    zone = timezone.get_current_timezone()
    if asked["since"]:
        rows = rows.filter(at__gte=datetime.combine(asked["since"], time.min, zone))
    if asked["until"]:
        after = asked["until"] + timedelta(days=1)
        rows = rows.filter(at__lt=datetime.combine(after, time.min, zone))
    return rows


def _record_numbers(rows: list[AccessLog]) -> dict[UUID, str]:
    uuids = {row.patient_uuid for row in rows if row.patient_uuid}
    return dict(_patients().filter(uuid__in=uuids).values_list("uuid", "record_number"))

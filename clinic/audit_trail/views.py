"""The access log, for the clinic lead. A search goes by POST: it may name a patient."""

from datetime import datetime, time, timedelta
from typing import Any
from uuid import UUID

from django.apps import apps
from django.contrib.auth import get_user_model
from django.core.paginator import Paginator
from django.db.models import QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.audit.models import AccessLog
from clinic.audit.record import record
from clinic.audit_trail.forms import LogFilterForm
from clinic.audit_trail.sentences import Sentence, sentence_for
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
    shown = list(page.object_list)  # before this reading is written, which would push one off
    record(request_or_actor=request, action="read", subject="audit trail")
    context = {"form": form, "page": page, "rows": shown, "numbers": _record_numbers(shown)}
    context["lines"] = _lines(shown)
    return render(request, "audit_trail/log.html", context)


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


def _lines(rows: list[AccessLog]) -> list[tuple[AccessLog, Sentence]]:
    """Each row with what it says; accounts by name."""
    uuids = {row.subject_uuid for row in rows if row.subject_kind == "user"}
    users: Any = get_user_model()._default_manager
    people = {user.uuid: user.display_name for user in users.filter(uuid__in=uuids - {None})}
    return [(row, sentence_for(row, people)) for row in rows]


def _record_numbers(rows: list[AccessLog]) -> dict[UUID, str]:
    uuids = {row.patient_uuid for row in rows if row.patient_uuid}
    return dict(_patients().filter(uuid__in=uuids).values_list("uuid", "record_number"))

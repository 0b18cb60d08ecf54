"""Add a task; mark it done, or not done after all."""

from datetime import date
from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from clinic import formatting
from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.clinic_details.closed_days import closed_words
from clinic.once.sending import once, once_key
from clinic.patients.models import Patient
from clinic.requests import posted, whole_number
from clinic.tasks import actions
from clinic.tasks.forms import TaskForm
from clinic.tasks.models import Task

CHANGED_BEFORE = "Someone changed this task since the page was opened. Look at it again."


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.KEEP_TASKS)
@once
def add(request: HttpRequest, patient: UUID) -> HttpResponse:
    """A reminder for a person and a day."""
    person = get_object_or_404(Patient, uuid=patient)
    form = TaskForm(posted(request), patient=person, user=request.user)  # type: ignore[arg-type]
    if request.method == "POST" and form.is_valid():
        task = actions.add_task(
            patient=person,
            once=once_key(request),
            values=form.values(),
            by=request.user,  # type: ignore[arg-type]
            at=timezone.now(),
            request=request,
        )
        closed = closed_words(task.day)
        words = f"Task added for {task.day:%A}, {formatting.day(task.day)}. {closed}"
        messages.success(request, words.strip())
        return redirect("patients:record", person.uuid)
    record(request_or_actor=request, action="opened to add task", subject=person)
    page = {
        "form": form,
        "words": {"title": "Add a task", "button": "Add"},
        "patient": person,
        "cancel": reverse("patients:record", args=[person.uuid]),
    }
    return render(request, "_components/form_page.html", page)


@require_POST
@needs(Right.KEEP_TASKS)
@once
def done(request: HttpRequest, task: UUID) -> HttpResponse:
    found = get_object_or_404(Task.objects.select_related("patient"), uuid=task)
    try:
        actions.mark_done(
            task=found,
            version=_version(request),
            by=request.user,  # type: ignore[arg-type]
            at=timezone.now(),
            request=request,
        )
    except actions.ChangedBeforeError:
        messages.error(request, CHANGED_BEFORE)
    return _back(request, found)


@require_POST
@needs(Right.KEEP_TASKS)
@once
def not_done(request: HttpRequest, task: UUID) -> HttpResponse:
    found = get_object_or_404(Task.objects.select_related("patient"), uuid=task)
    try:
        actions.mark_open(
            task=found,
            version=_version(request),
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
    except actions.ChangedBeforeError:
        messages.error(request, CHANGED_BEFORE)
    return _back(request, found)


def _version(request: HttpRequest) -> int:
    """Of the task as the page showed it; -1, which no task has, for anything else."""
    seen = whole_number(request.POST.get("version"))
    return -1 if seen is None else seen


def _back(request: HttpRequest, task: Task) -> HttpResponse:
    """To the day it was pressed on, or else to the record."""
    try:
        day = date.fromisoformat(request.POST.get("day", ""))
    except ValueError:
        return redirect("patients:record", task.patient.uuid)
    return redirect(f"{reverse('clinic_day:day')}?day={day.isoformat()}#tasks")

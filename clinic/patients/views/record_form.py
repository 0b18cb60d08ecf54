"""One page with one form about a patient: shown, put on record, answered."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from django.contrib import messages
from django.core.exceptions import NON_FIELD_ERRORS, ValidationError
from django.db.models import Model
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse

from clinic.audit.record import record
from clinic.patients.models import Patient


@dataclass(frozen=True)
class Question:
    """The words of the page: ``title`` lands in the browser's history, so it names no one
    and nothing clinical; ``heading`` may. ``done`` is shown once it is saved.
    """

    title: str
    button: str
    done: str
    heading: str = ""
    lead: str = ""


def ask(
    request: HttpRequest,
    person: Patient,
    form: Any,
    words: Question,
    save: Callable[[], str | None],
    *,
    about: Model | None = None,
    back: str = "",
) -> HttpResponse:
    """Save a form in order and go on to ``back`` (the record unless given), or the page that
    ``save`` names.

    Any other time show it, which is on record as opening ``about`` (the patient unless given).
    If somebody else's change has made it impossible, the page says so.
    """
    leave = back or reverse("patients:record", args=[person.uuid])
    if request.method == "POST" and form.is_valid():
        try:
            onward = save()
        except ValidationError as refused:
            form.add_error(None, _beside_fields(refused, form))
        else:
            messages.success(request, words.done)
            return redirect(onward, person.uuid) if onward else redirect(leave)
    record(request_or_actor=request, action="opened to change", subject=about or person)
    page = {
        "form": form,
        "words": words,
        # The form has changed its own copy; the banner shows what is on record.
        "patient": Patient.objects.get(pk=person.pk),
        "cancel": leave,
    }
    return render(request, "_components/form_page.html", page)


def _beside_fields(refused: ValidationError, form: Any) -> ValidationError:
    """``refused``, each sentence at the field it is about; above the form where that has none."""
    by_field = getattr(refused, "error_dict", None)
    if by_field and set(by_field) <= {*form.fields, NON_FIELD_ERRORS}:
        return refused
    return ValidationError(refused.messages)

"""Add to a signed visit."""

from uuid import UUID

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.once.sending import once
from clinic.visits.actions.addendum import add_addendum
from clinic.visits.models import Visit


class AddendumForm(forms.Form):
    text = forms.CharField(
        label="Addendum",
        widget=forms.Textarea(attrs={"rows": 5}),
        max_length=4000,
        error_messages={"required": "Write what you want to add."},
    )


@require_http_methods(["GET", "POST"])
@needs(Right.CHART)
@once
def add(request: HttpRequest, visit: UUID) -> HttpResponse:
    """Write and sign an addendum."""
    found = get_object_or_404(Visit.objects.signed().select_related("patient"), uuid=visit)
    form = AddendumForm(request.POST if request.method == "POST" else None)
    if form.is_bound and form.is_valid():
        add_addendum(
            visit=found,
            text=form.cleaned_data["text"],
            by=request.user,  # type: ignore[arg-type]
            at=timezone.now(),
            request=request,
        )
        messages.success(request, "Addendum signed.")
        return redirect("charting:visit", found.uuid)
    return render(
        request,
        "visits/addendum.html",
        {"visit": found, "patient": found.patient, "form": form},
        status=422 if form.errors else 200,
    )

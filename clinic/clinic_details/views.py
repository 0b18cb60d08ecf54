"""The page on which the lead keeps the clinic's details and holidays."""

from datetime import date
from typing import Any
from uuid import UUID

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST

from clinic import formatting
from clinic.accounts.permissions import Right, needs
from clinic.clinic_details.actions import add_holiday, change_details, remove_holiday
from clinic.clinic_details.current import current
from clinic.clinic_details.forms import DetailsForm, HolidayForm
from clinic.clinic_details.models import Holiday
from clinic.clinic_details.on_closed_days import visits_on
from clinic.once.sending import once
from clinic.requests import posted


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.KEEP_CLINIC)
@once
def edit(request: HttpRequest) -> HttpResponse:
    """The details; the holidays are added and removed on the same page, each by itself."""
    form = DetailsForm(posted(request), instance=current())
    if request.method == "POST" and form.is_valid():
        change_details(by=request, values=form.values())
        messages.success(request, "Saved. Pages and papers show it from now on.")
        return redirect("clinic_details:edit")
    return _page(request, form, HolidayForm())


@require_POST
@needs(Right.KEEP_CLINIC)
@once
def holiday_add(request: HttpRequest) -> HttpResponse:
    """A day more; the same one sent twice is one."""
    form = HolidayForm(request.POST)
    if form.is_valid():
        day, name = form.cleaned_data["day"], form.cleaned_data["name"]
        try:
            add_holiday(by=request, day=day, name=name)
        except ValidationError as refused:
            form.add_error(None, refused)
        else:
            _say_closed(request, day, name)
            return redirect("clinic_details:edit")
    elif _is_kept(form):
        return redirect("clinic_details:edit")
    return _page(request, DetailsForm(instance=current()), form, status=422)


@require_POST
@needs(Right.KEEP_CLINIC)
@once
def holiday_remove(request: HttpRequest, holiday: UUID) -> HttpResponse:
    """Pressed twice, the second press finds it gone, which is what was asked for."""
    found = Holiday.objects.filter(uuid=holiday).first()
    if found:
        remove_holiday(by=request, holiday=found)
        messages.success(request, f"{found.name} is off the list.")
    return redirect("clinic_details:edit")


def _is_kept(form: HolidayForm) -> bool:
    """Whether exactly this day with this name is in the list: the button was pressed twice."""
    typed = form.instance
    if not typed.day:
        return False
    return Holiday.objects.filter(day=typed.day, name=typed.name).exists()


def _say_closed(request: HttpRequest, day: date, name: str) -> None:
    messages.success(request, f"{name}, {formatting.day(day)}, is in the list.")
    if count := visits_on(day):
        plural = "visit is" if count == 1 else "visits are"
        words = f"{count} next {plural} set for that day. Open the day and move them."
        messages.warning(request, words)


def _page(
    request: HttpRequest, form: DetailsForm, holiday_form: HolidayForm, *, status: int = 200
) -> HttpResponse:
    today = timezone.localdate()
    rows: list[dict[str, Any]] = [
        {"holiday": one, "visits": visits_on(one.day) if one.day >= today else 0}
        for one in Holiday.objects.filter(day__gte=today)
    ]
    page = {
        "form": form,
        "holiday_form": holiday_form,
        "holidays": rows,
        "past": Holiday.objects.filter(day__lt=today).order_by("-day")[:20],
    }
    return render(request, "clinic_details/edit.html", page, status=status)

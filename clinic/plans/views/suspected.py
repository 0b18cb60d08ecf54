"""A suspected material, pressed into the record as a sensitivity."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_POST

from clinic.accounts.permissions import Right, needs
from clinic.once.sending import once
from clinic.patients.models import Material
from clinic.plans.actions.record_suspected import NOT_SUSPECTED, record_suspected
from clinic.visits.policies import NotAllowedNow
from clinic.visits.queries import with_parts


@require_POST
@needs(Right.CHART)
@once
def suspected(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """Record ``material`` as a sensitivity; back to the visit, which then says so."""
    stored = with_parts().with_rows("decisions")
    found = get_object_or_404(stored, uuid=assessment, visit__state="signed")
    wanted = request.POST.get("material", "")
    try:
        if wanted not in Material.values:
            raise NotAllowedNow(NOT_SUSPECTED)
        one = record_suspected(
            assessment=found,
            material=Material(wanted),
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
    except NotAllowedNow as refused:
        messages.error(request, str(refused))
    else:
        words = one.material_words.lower()
        messages.success(request, f"Recorded as a sensitivity: {words}, suspected, not proven.")
    return redirect("charting:visit", found.visit.uuid)

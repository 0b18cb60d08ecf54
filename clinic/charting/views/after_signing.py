"""A save that comes once the visit is signed: pressed twice, or typed too late."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse, QueryDict
from django.shortcuts import redirect
from django.urls import reverse

from clinic import formatting
from clinic.accounts.models import User
from clinic.charting.page import decision_forms
from clinic.charting.views.conflict import SIGNED
from clinic.visits.actions.save import Turn, keep_copy, says_the_same
from clinic.visits.merging import ABOUT
from clinic.visits.models import Assessment


def already_signed(
    request: HttpRequest, assessment: Assessment, data: QueryDict, turn: Turn, *, quiet: bool
) -> HttpResponse:
    """Led to the signed visit; what says anything else than what was signed is kept beside it.

    ``quiet``: the answer is data for the page's script.
    """
    by: User = request.user  # type: ignore[assignment]
    visit = assessment.visit
    url = reverse("charting:visit", args=[visit.uuid])
    if not quiet and _same_again(assessment, data, by):
        at = formatting.moment(visit.signed_at)
        messages.info(request, f"You signed this visit at {at}. Nothing was changed since.")
        return redirect(url)
    keep_copy(assessment=assessment, data=data, turn=turn, by=by)
    if quiet:
        return JsonResponse({"signed": url, "message": SIGNED}, status=409)
    messages.error(request, SIGNED)
    return redirect(url)


def _same_again(assessment: Assessment, data: QueryDict, by: User) -> bool:
    """The same signed twice by the same person. What was kept without a decision was accepted by
    the first press, and asks for none in the second."""
    if assessment.visit.signed_by_id != by.pk:
        return False
    decided = [form for form in decision_forms(assessment) if data.get(form.add_prefix("choice"))]
    chosen = {form.prefix for form in decided}
    open_still = [
        name
        for name in data
        if name.startswith("decision-") and name.rpartition("-")[0] not in chosen
    ]
    if any(any(data.getlist(name)) for name in open_still if not name.endswith(ABOUT)):
        return False
    said = data.copy()
    for name in open_still:
        del said[name]
    return says_the_same(assessment, said, lambda _: decided)

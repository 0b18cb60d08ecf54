"""A save that comes once the visit is signed or discarded: pressed twice, or typed too late."""

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, JsonResponse, QueryDict
from django.shortcuts import redirect
from django.urls import reverse

from clinic import formatting
from clinic.accounts.models import User
from clinic.charting.page import decision_forms
from clinic.charting.views.conflict import kept_beside
from clinic.visits.actions.save import Turn, keep_copy, says_the_same
from clinic.visits.merging import ABOUT
from clinic.visits.models import Assessment, Visit
from clinic.visits.policies import draft_ended


def draft_is_over(
    request: HttpRequest, assessment: Assessment, data: QueryDict, turn: Turn, *, quiet: bool
) -> HttpResponse:
    """Led to what became of the draft; what says anything else is kept beside it.

    ``quiet``: the answer is data for the page's script.
    """
    by: User = request.user  # type: ignore[assignment]
    visit = assessment.visit
    if not visit.is_signed:
        url, ended = reverse("charting:conflict", args=[assessment.uuid]), "discarded"
        words = f"{draft_ended(visit)} What you typed is kept."
    else:
        url, ended = reverse("charting:visit", args=[visit.uuid]), "signed"
        words = kept_beside(visit)
        if not quiet and _same_again(assessment, data):
            messages.info(request, _nothing_else(visit, by))
            return redirect(url)
    keep_copy(assessment=assessment, data=data, turn=turn, by=by)
    if quiet:
        return JsonResponse({ended: url, "message": words}, status=409)
    messages.error(request, words)
    return redirect(url)


def _nothing_else(visit: Visit, by: User) -> str:
    if visit.signed_by_id != by.pk:
        return f"{draft_ended(visit)} All you sent is in it."
    at = formatting.moment(visit.signed_at)
    return f"You signed this visit at {at}. Nothing was changed since."


def _same_again(assessment: Assessment, data: QueryDict) -> bool:
    """Nothing else than what was signed. What was kept without a decision was accepted with the
    signature, and asks for none in the second press."""
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

"""Two people saved one draft: both versions side by side, nothing lost."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import require_http_methods

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.charting.actions.settle import AlreadySettled, NotSettled, settle_copy
from clinic.charting.versions import Versions
from clinic.charting.views.posted import number
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment, ConflictCopy, Visit
from clinic.visits.policies import NotAllowedNow, can_edit, draft_ended
from clinic.visits.presenters.late_entries import kept_copies
from clinic.visits.presenters.unsent_entries import sealing
from clinic.visits.queries import with_parts


@require_http_methods(["GET", "POST"])
@needs(Right.CHART)
def conflict(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """Choose, field by field, between one's own copy and what is stored now; of a draft that was
    discarded, what one had typed."""
    stored = get_object_or_404(with_parts(), uuid=assessment)
    if stored.visit.state == VisitState.DISCARDED:
        return _discarded(request, stored)
    copies = ConflictCopy.objects.filter(assessment=stored, by_id=request.user.pk)
    copy = copies.first()
    if copy is not None and not can_edit(stored.visit):
        return _signed(request, stored)
    if request.method == "POST":
        return _settle(request, stored)
    if copy is None:
        return redirect("charting:chart", stored.uuid)
    return _page(request, Versions(stored, copy))


def _settle(request: HttpRequest, stored: Assessment) -> HttpResponse:
    try:
        settle_copy(
            assessment=stored,
            copy=number(request, "copy"),
            post=request.POST,
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
    except NotSettled as open_still:
        status = 409 if open_still.versions.moved_on else 422
        return _page(request, open_still.versions, status=status)
    except NotAllowedNow:
        # Signed or discarded while the choice was on its way: the copy is kept, and shown there.
        return redirect("charting:conflict", stored.uuid)
    except AlreadySettled:
        messages.warning(request, "These two versions were already merged on another page.")
    else:
        messages.success(request, "The two versions are merged.")
    # Another page's copy may wait; without one this leads on to the chart.
    return redirect("charting:conflict", stored.uuid)


def kept_beside(visit: Visit) -> str:
    """Of a visit that was signed while somebody typed."""
    return f"{draft_ended(visit)} What you typed since is kept beside it, for an addendum."


def _signed(request: HttpRequest, stored: Assessment) -> HttpResponse:
    messages.error(request, kept_beside(stored.visit))
    return redirect("charting:visit", stored.visit.uuid)


def _discarded(request: HttpRequest, stored: Assessment) -> HttpResponse:
    visit = stored.visit
    record(request_or_actor=request, action="viewed", subject=visit)
    context = {
        "assessment": stored,
        "visit": visit,
        "patient": visit.patient,
        "ended": draft_ended(visit),
        "kept": kept_copies(visit, request.user.pk),
        "sealing": sealing(request.user, stored),
    }
    return render(request, "charting/discarded.html", context)


def _page(request: HttpRequest, versions: Versions, *, status: int = 200) -> HttpResponse:
    visit = versions.stored.visit
    record(request_or_actor=request, action="compared versions", subject=visit)
    context = {
        "assessment": versions.stored,
        "visit": visit,
        "patient": visit.patient,
        "versions": versions,
        "posted": request.method == "POST",
        # Otherwise it is one's own copy that another page has replaced.
        "saved_again": status == 409 and number(request, "version") != visit.version,
    }
    return render(request, "charting/conflict.html", context, status=status)

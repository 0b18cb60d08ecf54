"""Referrals: the list, one of them, answering it, and making one of one's own."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from clinic import capped_count
from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record, record_listed
from clinic.once.sending import once, once_key
from clinic.paging import leaf
from clinic.patients.search import find
from clinic.referrals import queries as referrals_queries
from clinic.referrals.actions.answer import answer_referral, mark_read, mark_seen, record_received
from clinic.referrals.actions.refer import refer as ask
from clinic.referrals.forms import AnswerForm, ReceivedForm, ReferForm
from clinic.referrals.models import CameBy, Referral, Urgency
from clinic.referrals.presenters.question import own_question
from clinic.referrals.presenters.waiting import row_of, rows_of
from clinic.requests import posted
from clinic.visits.choices import VisitState
from clinic.visits.queries import with_parts

SHOWN = ("waiting", "answered", "mine")
FOUND = 50


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.SEE_CLINICAL)
def referrals(request: HttpRequest) -> HttpResponse:
    """Unanswered by urgency, then age; or the answered; or one's own. A search for a patient
    goes by POST, so that no name is in an address."""
    words = request.POST.get("words", "")[:80].strip()
    show = request.GET.get("show", "waiting")
    show = show if show in SHOWN else "waiting"
    page = {"show": "found" if words else show, "words": words, "today": timezone.localdate()}
    if words:
        rows = _found(request, words)
    else:
        shown = leaf(_shown(request, show), request.GET.get("page"))
        page["leaf"], rows = shown, shown.rows
    people = dict.fromkeys(one.assessment.visit.patient for one in rows)
    record_listed(request=request, action="listed", subject="referrals", patients=people)
    page["rows"] = rows_of(rows, timezone.now())
    page["count"] = capped_count.counted(Referral.objects.unanswered())
    return render(request, "referrals/referrals.html", page)


def _shown(request: HttpRequest, show: str) -> referrals_queries.ReferralQuerySet:
    if show == "answered":
        return referrals_queries.answered()
    if show == "mine":
        own = Referral.objects.filter(made_by_id=request.user.pk)
        return referrals_queries.for_list(own.order_by("-made_at", "-id"))
    return referrals_queries.waiting()


def _found(request: HttpRequest, words: str) -> list[Referral]:
    """About the patients whom the words fit, the unanswered first."""
    people = [person.pk for person in find(words)]
    about = referrals_queries.for_list(
        referrals_queries.about_patient(Referral.objects.all(), people)
    )
    found = list(about.order_by("-made_at", "-id")[:FOUND])
    record(
        request_or_actor=request,
        action="searched",
        subject="referrals",
        detail=f"{len(found)} shown",
    )
    return sorted(found, key=lambda one: one.answered_at is not None)


@require_GET
@needs(Right.SEE_CLINICAL)
def referral(request: HttpRequest, referral: UUID) -> HttpResponse:
    """One referral; anyone who may answer finds the form here, and has now seen it."""
    found, now = _referral(referral), timezone.now()
    mark_seen(referral=found, by=request.user, at=now)  # type: ignore[arg-type]
    mark_read(referral=found, by=request.user, at=now)  # type: ignore[arg-type]
    return _show(request, found, AnswerForm())


@require_POST
@needs(Right.ANSWER_REFERRAL)
@once
def answer(request: HttpRequest, referral: UUID) -> HttpResponse:
    """Send the answer to the nurse."""
    found, form = _referral(referral), AnswerForm(request.POST)
    if not form.is_valid() and found.answered_at is None:
        return _show(request, found, form)
    answer_referral(
        referral=found,
        answer=form.cleaned_data.get("answer", ""),
        by=request.user,  # type: ignore[arg-type]
        at=timezone.now(),
        request=request,
    )
    messages.success(request, f"Answer sent to {found.made_by.display_name}.")
    return redirect("referrals:referrals")


@require_POST
@needs(Right.CHART)
@once
def received(request: HttpRequest, referral: UUID) -> HttpResponse:
    """An answer that came by telephone or letter, recorded by any clinician who charts."""
    found, form = _referral(referral), ReceivedForm(request.POST)
    if not form.is_valid() and found.answered_at is None:
        return _show(request, found, AnswerForm(), form)
    given = form.cleaned_data
    record_received(
        referral=found,
        answer=given.get("received", ""),
        answer_from=given.get("answer_from", ""),
        came_by=CameBy(given.get("came_by", CameBy.TELEPHONE)),
        by=request.user,  # type: ignore[arg-type]
        at=timezone.now(),
        request=request,
    )
    messages.success(
        request, f"Answer recorded. The referral no longer waits.{_reader_note(request, found)}"
    )
    return redirect("referrals:referral", found.uuid)


@require_http_methods(["GET", "HEAD", "POST"])
@needs(Right.CHART)
@once
def refer(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """A question of the nurse's own, begun with what this visit found."""
    visits = with_parts().exclude(visit__state=VisitState.DISCARDED)
    about = get_object_or_404(visits, uuid=assessment)
    starts = {"question": own_question(about), "to": about.stoma.surgeon}
    form = ReferForm(posted(request), initial=starts)
    if request.method == "POST" and form.is_valid():
        made = ask(
            assessment=about,
            to=form.cleaned_data["to"],
            urgency=Urgency(form.cleaned_data["urgency"]),
            question=form.cleaned_data["question"],
            by=request.user,  # type: ignore[arg-type]
            at=timezone.now(),
            sent_as=once_key(request),
            request=request,
        )
        messages.success(request, "Referral made. It now waits for an answer.")
        return redirect("referrals:referral", made.uuid)
    person = about.visit.patient
    record(request_or_actor=request, action="opened to refer", subject=about, patient=person)
    page = {"form": form, "assessment": about, "patient": person}
    return render(request, "referrals/refer.html", page, status=422 if form.errors else 200)


def _reader_note(request: HttpRequest, found: Referral) -> str:
    """Where the person who asked finds an answer that a colleague wrote down."""
    if found.made_by_id == request.user.pk:
        return ""
    return f" {found.made_by.display_name}, sees it as a new answer."


def _referral(uuid: UUID) -> Referral:
    return get_object_or_404(referrals_queries.for_list(Referral.objects.all()), uuid=uuid)


def _show(
    request: HttpRequest, found: Referral, form: AnswerForm, received: ReceivedForm | None = None
) -> HttpResponse:
    patient = found.assessment.visit.patient
    record(request_or_actor=request, action="viewed", subject=found, patient=patient)
    wrong = form.errors or (received is not None and received.errors)
    page = {
        "referral": found,
        "row": row_of(found, timezone.now()),
        "patient": patient,
        "form": form,
        "received": received or ReceivedForm(),
        # The user who may answer is the one to be called.
        "telephone": found.pressing and not may(request.user, Right.ANSWER_REFERRAL),
        "has_visit": found.assessment.visit.state != VisitState.DISCARDED,
    }
    return render(request, "referrals/referral.html", page, status=422 if wrong else 200)

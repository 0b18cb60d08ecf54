"""The supply list: looked through and coded on a page, then printed or saved as a table."""

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.documents.models import Kind
from clinic.documents.printed.responses import (
    Paper,
    csv_answer,
    decided_or_page,
    no_paper,
    own_size,
    paper_size,
    pdf_answer,
    printable,
)
from clinic.documents.supply_list.build import SupplyList
from clinic.documents.supply_list.build import supply_list as list_of
from clinic.documents.supply_list.csv_file import supply_csv
from clinic.once.sending import once
from clinic.plans.actions.choose_codes import CodesRefusedError, choose_codes
from clinic.plans.diagnosis_codes import asked_for, offers
from clinic.plans.order_lines import order_lines
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.visits.models import Assessment


@require_GET
@needs(Right.SEE_CLINICAL)
def supplies(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """The list as it will print, with the codes to choose."""
    stored = printable(request, assessment)
    decided = _decided(request, _paper(stored))
    if isinstance(decided, HttpResponse):
        return decided
    record(request_or_actor=request, action="viewed", subject=stored, detail="supply list",
           patient=stored.visit.patient)  # fmt: skip
    return _page(request, stored, decided, [code.code for code in stored.codes.all()])


@require_POST
@needs(Right.CHART)
@once
def codes(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """Keep the codes ticked, and no others."""
    stored = printable(request, assessment)
    decided = _decided(request, _paper(stored))
    if isinstance(decided, HttpResponse):
        return decided
    ticked = request.POST.getlist("code")
    try:
        choose_codes(
            assessment=stored,
            offered=offers(decided.plan, stored.stoma.kind),
            codes=ticked,
            by=request.user,  # type: ignore[arg-type]
            at=timezone.now(),
            request=request,
        )
    except CodesRefusedError as refused:
        return _page(request, stored, decided, ticked, refused.problems)
    messages.success(request, "Codes saved.")
    return redirect("documents:supplies", stored.uuid)


@require_GET
@needs(Right.PRINT)
def supply_list(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """As PDF; ``?paper=a4`` or ``letter``."""
    paper = _paper(printable(request, assessment), paper_size(request))
    decided = _decided(request, paper)
    if isinstance(decided, HttpResponse):
        return decided
    context = {"list": list_of(decided), "paper": paper.size}
    return pdf_answer(request, paper, "documents/supply_list/list.html", context)


@require_GET
@needs(Right.SEE_CLINICAL)
@needs(Right.PRINT)
def supply_list_csv(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """As a table, for anyone who may also see on screen the need and the diagnosis codes in it: a
    file outlives the desk's errand, the paper goes with the patient."""
    paper = _paper(printable(request, assessment))
    decided = _decided(request, paper)
    if isinstance(decided, HttpResponse):
        return decided
    return csv_answer(request, paper, supply_csv(list_of(decided), paper.patient))


def _paper(stored: Assessment, size: str = "") -> Paper:
    return Paper(Kind.SUPPLY_LIST, stored, size or own_size())


def _decided(request: HttpRequest, paper: Paper) -> DecidedPlan | HttpResponse:
    """The plan, or the page that says why there is nothing to order."""
    decided = decided_or_page(request, paper)
    if isinstance(decided, HttpResponse) or not all(line.dropped for line in order_lines(decided)):
        return decided
    if not decided.for_adult:
        return no_paper(
            request,
            paper,
            "The list is empty: these rules cover no supplies for children.",
            instead="The paediatric stoma team says what to order, and how much.",
        )
    if decided.plan.quantities:
        return no_paper(request, paper, "Every supply of this plan was dropped: nothing to order.")
    return no_paper(request, paper, "This plan has no supplies to order.")


def _page(
    request: HttpRequest,
    stored: Assessment,
    decided: DecidedPlan,
    ticked: list[str],
    problems: tuple[str, ...] = (),
) -> HttpResponse:
    listed: SupplyList = list_of(decided)
    context = {
        "list": listed,
        "assessment": stored,
        "patient": stored.visit.patient,
        "offers": offers(decided.plan, stored.stoma.kind),
        "ticked": ticked,
        "problems": problems,
        "asked_for": asked_for(one.code for one in listed.codes),
        "may_choose": listed.signed and may(request.user, Right.CHART),
    }
    return render(
        request, "documents/supply_list/supplies.html", context, status=422 if problems else 200
    )

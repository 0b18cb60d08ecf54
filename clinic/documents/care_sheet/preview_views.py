"""Look at a care sheet, change what it says, then print it."""

from __future__ import annotations

from uuid import UUID

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils import timezone
from django.views.decorators.http import require_GET, require_POST

from clinic.accounts.permissions import Right, may, needs
from clinic.audit.record import record
from clinic.documents.care_sheet.readability import hint
from clinic.documents.care_sheet.sheet_edit import EditedSheet, edit_of, edited_sheet
from clinic.documents.care_sheet.sheet_edit_actions import Change, EditRefusedError, edit_sheet
from clinic.documents.care_sheet.taught_steps import not_alone
from clinic.documents.care_sheet.views import SIZES, decide_first
from clinic.documents.models import SheetEdit
from clinic.documents.models.sheet_edit import MOST_LETTERS
from clinic.documents.patient_language.said import said
from clinic.documents.printed.responses import asked_language, printable
from clinic.documents.printed.superseded import seen_again
from clinic.patients.models import SheetLanguage
from clinic.plans.plan_with_decisions import DecidedPlan, decided_plan
from clinic.requests import whole_number
from clinic.teaching.missing import teaching_of
from clinic.visits.models import Assessment

PRINT = "print"
#: Posted where the sheet tells of the steps only what is different today.
ONLY_CHANGES = "changes"


@require_GET
@needs(Right.SEE_CLINICAL)
def preview(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """The sheet as a page, with buttons to change it for anyone who charts."""
    stored = printable(request, assessment)
    decided = decided_plan(stored)
    if decided is None or decided.open_items:
        return decide_first(request, stored, decided)
    record(
        request_or_actor=request,
        action="viewed",
        subject=stored,
        patient=stored.visit.patient,
        detail="care sheet before printing",
    )
    return _page(request, decided)


@require_POST
@needs(Right.CHART)
def edit(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """Store everything on the page, and do what the pressed button says."""
    stored = printable(request, assessment)
    decided = decided_plan(stored)
    if decided is None or decided.open_items:
        return decide_first(request, stored, decided)
    change = _posted(request)
    try:
        edit_sheet(
            decided=decided,
            change=change,
            by=request.user,  # type: ignore[arg-type]
            at=timezone.now(),
            request=request,
        )
    except EditRefusedError as refused:
        return _page(request, decided, change, refused.problems)
    language = _looked_at_in(request)
    asked = f"?language={language}" if language else ""
    if change.press == PRINT:
        return redirect(reverse("documents:care_sheet", args=[stored.uuid]) + asked)
    messages.success(request, "Saved. It prints as shown here.")
    place = f"#step-{change.key}" if change.key else ""
    return redirect(reverse("documents:preview", args=[stored.uuid]) + asked + place)


def _looked_at_in(request: HttpRequest) -> str:
    """The language that the page shows for this once: what is pressed there prints in it."""
    posted = request.POST.get("language", "")
    return posted if posted in SheetLanguage.values else asked_language(request)


def _posted(request: HttpRequest) -> Change:
    """Line ends become spaces: what is added is one paragraph."""
    given = request.POST
    press, _, key = given.get("press", "").partition(":")
    return Change(
        after_uses=" ".join(given.get("after_uses", "").split()),
        after_steps=" ".join(given.get("after_steps", "").split()),
        large=SIZES.get(given.get("print", "")),
        only_changes=given.get("tells", "") == ONLY_CHANGES,
        seen=whole_number(given.get("seen")) or 0,
        press=press,
        key=key,
    )


def _page(
    request: HttpRequest,
    decided: DecidedPlan,
    typed: Change | None = None,
    problems: dict[str, str] | None = None,
) -> HttpResponse:
    about: Assessment = decided.assessment
    stored = edit_of(about)
    teaching = teaching_of(about.stoma)
    language = _looked_at_in(request)
    own = about.visit.patient.sheet_language
    edited: EditedSheet[str] = said(edited_sheet(decided, stored), language or own)
    shown = typed or stored or SheetEdit()
    words = {"after_uses": shown.after_uses, "after_steps": shown.after_steps}
    context = {
        "assessment": about,
        "patient": about.visit.patient,
        "sheet": edited.sheet,
        "sheet_languages": SheetLanguage.choices,
        "asked_language": language,
        "steps": edited.steps,
        "added_steps": edited.sheet.steps[sum(one.printed for one in edited.steps) :],
        "own_words": bool(stored and stored.after_uses),
        "notices": edited.notices,
        "problems": problems or {},
        "problem_step": typed.key if typed and problems and "steps" in problems else "",
        "words": words,
        "hints": _hints(words) if edited.sheet.language == "en" else {},
        "most_letters": MOST_LETTERS,
        "edit": stored,
        "size": _size(shown.large),
        "only_changes": shown.only_changes,
        "taught": teaching.begun,
        "not_alone": not_alone(teaching),
        "newer": seen_again([about]).get(about.pk),
        "may_edit": may(request.user, Right.CHART) and not edited.sheet.emergency,
    }
    return render(
        request, "documents/care_sheet/preview.html", context, status=422 if problems else 200
    )


def _hints(words: dict[str, str]) -> dict[str, str]:
    return {name: hint(text) for name, text in words.items()}


def _size(large: bool | None) -> str:
    return next((name for name, size in SIZES.items() if size is large), "")

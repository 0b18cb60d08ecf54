"""Change what a care sheet says before it prints: the one way to write a ``SheetEdit``."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import datetime

from django.db import transaction
from django.http import HttpRequest

from clinic import formatting
from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.bad_input import BESIDE_A_FIELD, BROKEN
from clinic.documents.care_sheet.sheet_edit import arrange, edit_of, named
from clinic.documents.models import SheetEdit
from clinic.documents.models.sheet_edit import MOST_LETTERS
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.plans.step_order import is_safety, refused, sheet_steps
from clinic.visits.models import Assessment

#: What the buttons beside a step do.
HIDE, SHOW, RISE, SINK = OF_A_STEP = "hide", "show", "up", "down"
#: And the one above them all.
AS_PLANNED = "plan"


@dataclass(frozen=True)
class Change:
    """What was posted: every field of the page, and the button pressed beside a step."""

    after_uses: str
    after_steps: str
    large: bool | None
    only_changes: bool
    #: The edit's version the page showed; 0 where there was none.
    seen: int
    press: str = ""
    key: str = ""


class EditRefusedError(Exception):
    """Why nothing was stored: field or step -> sentence."""

    def __init__(self, problems: dict[str, str]) -> None:
        self.problems = problems
        super().__init__("The change was refused.")


@dataclass
class _Draft:
    """The edit to be."""

    order: list[str]
    hidden: set[str]
    planned: list[str]
    problems: dict[str, str] = field(default_factory=dict)


@transaction.atomic
def edit_sheet(
    *,
    decided: DecidedPlan,
    change: Change,
    by: User,
    at: datetime,
    request: HttpRequest | None = None,
) -> None:
    """Store the change; what no longer fits the plan falls away with it.

    Raises ``EditRefusedError``, in words, for a safety step hidden, an order the technique does
    not allow, words too long or unreadable, or a sheet changed by somebody else since the page
    was opened.
    """
    about = decided.assessment
    # One writer a sheet: the row of the edit may not be there yet.
    Assessment.objects.select_for_update(of=("self",)).get(pk=about.pk)
    stored = edit_of(about)
    _refuse_second(stored, change, by)
    draft = _drafted(decided, stored, change)
    for name in ("after_uses", "after_steps"):
        if BROKEN in getattr(change, name):
            draft.problems[name] = BESIDE_A_FIELD
        over = len(getattr(change, name)) - MOST_LETTERS
        if over > 0:
            draft.problems[name] = f"At most {MOST_LETTERS} letters: {over} too many."
    if draft.problems:
        raise EditRefusedError(draft.problems)
    _store(about, stored, change, draft, by, at, request)


def _refuse_second(stored: SheetEdit | None, change: Change, by: User) -> None:
    if stored and stored.version != change.seen and stored.changed_by_id != by.pk:
        raise EditRefusedError(
            {
                "seen": f"{stored.changed_by.display_name} changed this sheet before you, "
                f"{formatting.moment(stored.changed_at)}. Your change was not stored: look at "
                "the sheet as it is now, then save again."
            }
        )


def _drafted(decided: DecidedPlan, stored: SheetEdit | None, change: Change) -> _Draft:
    planned = list(sheet_steps(decided.accepted_by_default()))
    now = arrange(planned, stored)
    draft = _Draft(list(now.order), set(now.hidden), planned)
    if change.press == AS_PLANNED:
        draft.order, draft.hidden = list(planned), set()
    elif change.press in OF_A_STEP and change.key not in planned:
        draft.problems["steps"] = "This step is no longer in the plan."
    elif change.press in {RISE, SINK}:
        _move(draft, change)
    elif change.press == SHOW:
        draft.hidden.discard(change.key)
    elif change.press == HIDE and is_safety(change.key):
        draft.problems["steps"] = (
            f"This step guards against harm, so it can't be hidden: {named(change.key)}"
        )
    elif change.press == HIDE:
        draft.hidden.add(change.key)
    return draft


def _move(draft: _Draft, change: Change) -> None:
    place = draft.order.index(change.key)
    to = place + (1 if change.press == SINK else -1)
    if not 0 <= to < len(draft.order):
        return
    order = list(draft.order)
    order[place], order[to] = order[to], order[place]
    if wrong := refused(order):
        draft.problems["steps"] = " ".join(wrong)
        return
    draft.order = order


def _store(
    about: Assessment,
    stored: SheetEdit | None,
    change: Change,
    draft: _Draft,
    by: User,
    at: datetime,
    request: HttpRequest | None,
) -> None:
    values = {
        "after_uses": change.after_uses,
        "after_steps": change.after_steps,
        "large": change.large,
        "only_changes": change.only_changes,
        "hidden": [key for key in draft.planned if key in draft.hidden],
        "order": [] if draft.order == draft.planned else draft.order,
    }
    before = {name: getattr(stored or SheetEdit(), name) for name in values}
    if values == before:
        return
    SheetEdit.objects.update_or_create(
        assessment=about,
        defaults={
            **values,
            "version": stored.version + 1 if stored else 1,
            "changed_by": by,
            "changed_at": at,
        },
    )
    record(
        request_or_actor=request or by,
        action="edited care sheet",
        subject=about,
        patient=about.visit.patient,
    )

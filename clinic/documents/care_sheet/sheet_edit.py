"""A care sheet with what the nurse made of it: steps put elsewhere or left off, words added."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Generic

from clinic.documents.care_sheet.build import care_sheet
from clinic.documents.care_sheet.emergency import CLINICIAN_SAYS
from clinic.documents.care_sheet.sheet import Line, Sheet, Step, Use
from clinic.documents.care_sheet.taught_steps import steps_to_explain
from clinic.documents.models import SheetEdit
from clinic.documents.patient_language.unsaid import Phrase, Unsaid, W, typed
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.plans.step_order import is_safety, may_swap, refused, sheet_steps, words_of
from clinic.visits.models import Assessment

EMERGENCY_AS_IT_IS = (
    "This is an emergency sheet: it prints as it is, without what was added or changed before."
)


@dataclass(frozen=True)
class EditableStep(Generic[W]):
    """One step as the nurse sees it. ``number`` as printed, None where it is not;
    ``as_now``: left off because it is done as now, not because it was hidden."""

    key: str
    step: Step[W]
    number: int | None
    safety: bool
    may_rise: bool
    may_sink: bool
    as_now: bool = False

    @property
    def printed(self) -> bool:
        return self.number is not None

    @property
    def hidden(self) -> bool:
        return not (self.printed or self.as_now)


@dataclass(frozen=True)
class EditedSheet(Generic[W]):
    """``sheet`` is what prints; ``steps`` also holds the hidden ones; ``notices``: what of the
    edit no longer fits the plan, and was left out."""

    sheet: Sheet[W]
    steps: tuple[EditableStep[W], ...] = ()
    notices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Arranged:
    """Every step of the plan, in the order to print; those not to print; what fell away."""

    order: tuple[str, ...]
    hidden: frozenset[str]
    notices: tuple[str, ...]


def edit_of(assessment: Assessment) -> SheetEdit | None:
    """What was made of its sheet; None where it prints as planned."""
    return SheetEdit.objects.select_related("changed_by").filter(assessment=assessment).first()


def edited_sheet(
    decided: DecidedPlan, edit: SheetEdit | None, *, large: bool | None = None
) -> EditedSheet[Unsaid]:
    """What prints, not yet said in a language. ``large`` None: as the edit says, else as the
    patient needs it.

    Raises ``ValueError`` while anything is undecided.
    """
    size = _large(decided.assessment, edit, large)
    sheet = care_sheet(decided, large=size)
    if sheet.emergency:
        touched = edit is not None and _says_something(edit)
        return EditedSheet(sheet, notices=(EMERGENCY_AS_IT_IS,) if touched else ())
    keys = sheet_steps(decided.accepted_by_default())
    arranged = arrange(keys, edit)
    told = dict(zip(keys, sheet.steps, strict=True))
    steps = _steps(told, arranged, _as_now(told, decided, edit))
    printed = tuple(one.step for one in steps if one.printed)
    if edit:
        sheet = replace(sheet, only_changes=edit.only_changes)
        printed += (Step(typed(edit.after_steps)),) if edit.after_steps else ()
        sheet = replace(sheet, uses=(*sheet.uses, *_added(edit)))
    return EditedSheet(replace(sheet, steps=printed), steps, arranged.notices)


def arrange(keys: Sequence[str], edit: SheetEdit | None) -> Arranged:
    """``keys``, the plan's own steps in its order, as the edit has them.

    What no longer fits is left out, with a notice; a step that guards against harm is never hidden.
    """
    if edit is None:
        return Arranged(tuple(keys), frozenset(), ())
    gone = [key for key in dict.fromkeys((*edit.order, *edit.hidden)) if key not in keys]
    notices = [f"A step you had changed is no longer in the plan: {named(key)}" for key in gone]
    guarded = [key for key in edit.hidden if key in keys and is_safety(key)]
    notices += [f"A step that guards against harm stays on the sheet: {named(k)}" for k in guarded]
    order = _merged(keys, edit.order) if edit.order else tuple(keys)
    if edit.order:
        fresh = [key for key in keys if key not in edit.order]
        notices += [f"The plan has gained a step since you changed it: {named(k)}" for k in fresh]
    if wrong := refused(order):
        notices += [f"The steps are back in the plan's order. {why}" for why in wrong]
        order = tuple(keys)
    hidden = frozenset(edit.hidden).intersection(keys).difference(guarded)
    return Arranged(order, hidden, tuple(notices))


def named(key: str) -> str:
    """A step in the words of the sheet, or by its key where no rule knows it any more."""
    return words_of(key) or key


def _merged(keys: Sequence[str], order: Sequence[str]) -> tuple[str, ...]:
    """``order`` without what is gone; a step it does not know comes after the one before it in
    the plan."""
    merged = [key for key in order if key in keys]
    for place, key in enumerate(keys):
        if key not in merged:
            after = merged.index(keys[place - 1]) + 1 if place else 0
            merged.insert(after, key)
    return tuple(merged)


def _as_now(
    told: dict[str, Step[Unsaid]], decided: DecidedPlan, edit: SheetEdit | None
) -> frozenset[str]:
    """Keys of steps that are left off: done as now, and alone; none guards against harm."""
    if edit is None or not edit.only_changes:
        return frozenset()
    full = steps_to_explain(decided.assessment.stoma)
    return frozenset(
        key for key, one in told.items() if not (one.mark or is_safety(key) or key in full)
    )


def _steps(
    told: dict[str, Step[Unsaid]], arranged: Arranged, as_now: frozenset[str]
) -> tuple[EditableStep[Unsaid], ...]:
    order, number = arranged.order, 0
    found = []
    for place, key in enumerate(order):
        printed = key not in arranged.hidden and key not in as_now
        number += printed
        found.append(
            EditableStep(
                key=key,
                step=told[key],
                number=number if printed else None,
                safety=is_safety(key),
                may_rise=place > 0 and may_swap(order[place - 1], key),
                may_sink=place + 1 < len(order) and may_swap(key, order[place + 1]),
                as_now=key in as_now and key not in arranged.hidden,
            )
        )
    return tuple(found)


def _added(edit: SheetEdit) -> tuple[Use[Unsaid], ...]:
    if not edit.after_uses:
        return ()
    return (Use(Phrase(CLINICIAN_SAYS), (Line(typed(edit.after_uses)),)),)


def _large(assessment: Assessment, edit: SheetEdit | None, asked: bool | None) -> bool:
    if asked is not None:
        return asked
    if edit and edit.large is not None:
        return edit.large
    return assessment.visit.patient.large_print


def _says_something(edit: SheetEdit) -> bool:
    added = edit.after_uses or edit.after_steps
    return bool(added or edit.hidden or edit.order or edit.only_changes)

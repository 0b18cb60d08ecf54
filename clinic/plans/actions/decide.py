"""Keep the decisions posted with the visit page."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, time
from typing import Any

from django.http import QueryDict
from django.utils import timezone

from clinic.accounts.models import User
from clinic.plans.decidables import Decidable
from clinic.plans.decision_forms import WRITTEN, DecisionForm, Decisions
from clinic.plans.models import Choice, Decision
from clinic.plans.planned import Planned
from clinic.visits.chart import raw_of
from clinic.visits.models import Assessment, PendingEntry
from planning import Plan


@dataclass(frozen=True)
class Signer:
    """Who decides, and when; ``by`` None: a program, where no one looks."""

    by: User | None
    at: datetime


def nobody() -> Signer:
    """A program, now."""
    return Signer(None, timezone.now())


def save_decisions(
    *,
    plan: Plan | Planned,
    assessment: Assessment,
    data: QueryDict,
    accept_rest: bool = False,
    signer: Signer | None = None,
) -> bool:
    """Store what was decided about the words that were shown; True where anything changed.

    An unfinished decision is kept as typed. ``accept_rest``: accept what is undecided as well.
    Call inside the transaction that holds the draft.
    """
    signer = signer or nobody()
    decisions = Decisions(plan, assessment, data=data)
    pending = {e.prefix: e for e in assessment.pending.all() if e.prefix.startswith("decision-")}
    # Every form is stored, so no short cut through any().
    written = [_store(form, assessment, pending, signer) for form in decisions]
    if accept_rest:
        written.append(_accept_seen(decisions, signer) > 0)
    return any(written)


def accept_seen(
    *, plan: Plan | Planned, assessment: Assessment, data: QueryDict, signer: Signer
) -> int:
    """Accept what is undecided, one row each, but only in the words that the clinician had before
    their eyes; what is kept waits for the signature. How many."""
    return _accept_seen(Decisions(plan, assessment, data=data), signer)


def _accept_seen(decisions: Decisions, signer: Signer) -> int:
    seen = [
        form
        for form in decisions
        if form.seen
        and not form.decided
        and form.is_valid()
        and form["choice"].value() in {"", Choice.ACCEPTED, None}
        and not form.stands
        and not _begun_in_words(form)
    ]
    for form in seen:
        at = form.cleaned_data.get("at")
        accept(form.decidable, decisions.assessment, signer, at=at)
    return len(seen)


def accept(
    item: Decidable, assessment: Assessment, signer: Signer, *, at: time | None = None
) -> None:
    """Accept one item as the plan proposes it; ``at``: the time agreed for the next visit."""
    _keep(item, assessment, {**_ACCEPTED, "at": at}, signer)
    assessment.pending.filter(prefix=f"decision-{item.key}").delete()


def accept_kept(decisions: Decisions, signer: Signer) -> int:
    """Accept together what is kept as it is worn; how many. Each has its row, with who and when."""
    kept = decisions.kept()
    _accept_together(kept, decisions.assessment, signer)
    return len(kept)


def accept_all(plan: Plan | Planned, assessment: Assessment) -> None:
    """Accept whatever is undecided: for records made by a program, where no one looks."""
    decisions = Decisions(plan, assessment)
    _accept_together([*decisions.undecided(), *decisions.kept()], assessment, nobody())


def _accept_together(items: list[Decidable], assessment: Assessment, signer: Signer) -> None:
    """As ``accept`` does each of them, in two queries for all."""
    if not items:
        return
    Decision.objects.bulk_create(
        [
            Decision(assessment=assessment, key=item.key, **_row(item, _ACCEPTED, signer))
            for item in items
        ],
        update_conflicts=True,
        unique_fields=["assessment", "key"],
        update_fields=list(_row(items[0], _ACCEPTED, signer)),
    )
    assessment.pending.filter(prefix__in=[f"decision-{item.key}" for item in items]).delete()


#: What is given of an item that is accepted as the plan proposes it.
_ACCEPTED = {"choice": Choice.ACCEPTED, "instead": "", "changed_to": "", "reason": ""}


def _keep(
    item: Decidable, assessment: Assessment, given: dict[str, Any], signer: Signer
) -> Decision:
    decision, _ = Decision.objects.update_or_create(
        assessment=assessment, key=item.key, defaults=_row(item, given, signer)
    )
    return decision


def _row(item: Decidable, given: Mapping[str, Any], signer: Signer) -> dict[str, Any]:
    """As decided about what is proposed: what was chosen before is no longer there to choose."""
    about = item.proposed
    return {
        "choice": given["choice"],
        "chosen": given["instead"],
        "changed_to": given["changed_to"],
        "reason": given["reason"],
        "at": given.get("at"),
        "text": about.text,
        "about": about.about,
        "decided_by": signer.by,
        "decided_at": signer.at,
    }


def _store(
    form: DecisionForm,
    assessment: Assessment,
    pending: dict[str, PendingEntry],
    signer: Signer,
) -> bool:
    prefix = str(form.prefix)
    if form.moved_on:
        return _keep_written(form, assessment, pending)
    if not form.is_bound:
        return False
    if not form.is_valid() or _begun_in_words(form):
        return _keep_as_typed(assessment, prefix, raw_of(form), pending)
    forgotten = prefix in pending and bool(pending[prefix].delete()[0])
    given = form.cleaned_data
    if not given["choice"]:
        return forgotten
    if not form.stale and form.stored is not None and _same(form.stored, given):
        return forgotten
    form.stored, form.stale = _keep(form.decidable, assessment, given, signer), False
    return True


def _begun_in_words(form: DecisionForm) -> bool:
    """Something was written before anything was chosen: it waits for the choice."""
    given = form.cleaned_data
    written = (name for name in WRITTEN if given.get(name))
    return not given["choice"] and any(given[n] != form.initial.get(n) for n in written)


def _same(stored: Decision, given: dict[str, Any]) -> bool:
    was = (stored.choice, stored.chosen, stored.changed_to, stored.reason, stored.at)
    now = (
        *(given[name] for name in ("choice", "instead", "changed_to", "reason")),
        given.get("at"),
    )
    return was == now


def _keep_written(
    form: DecisionForm, assessment: Assessment, pending: dict[str, PendingEntry]
) -> bool:
    """What was written about words that have changed since, without the choice."""
    written = {name: form.initial.get(name) or "" for name in WRITTEN if name in form.fields}
    if not any(written.values()) or form.stored:
        return False
    raw = {form.add_prefix(name): [value] for name, value in written.items()}
    raw[form.add_prefix("about")] = [form.decidable.about]
    return _keep_as_typed(assessment, str(form.prefix), raw, pending)


def _keep_as_typed(
    assessment: Assessment,
    prefix: str,
    raw: dict[str, list[str]],
    pending: dict[str, PendingEntry],
) -> bool:
    if prefix in pending and pending[prefix].data == raw:
        return False
    PendingEntry.objects.update_or_create(
        assessment=assessment, prefix=prefix, defaults={"data": raw}
    )
    return True

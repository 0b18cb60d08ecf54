"""Keep the decisions posted with the visit page."""

from typing import Any

from django.http import QueryDict

from clinic.plans.decision_forms import WRITTEN, Decidable, DecisionForm, Decisions
from clinic.plans.models import Choice, Decision
from clinic.visits.chart import raw_of
from clinic.visits.models import Assessment, PendingEntry
from planning import Plan


def save_decisions(
    *, plan: Plan, assessment: Assessment, data: QueryDict, accept_rest: bool = False
) -> bool:
    """Store what was decided about the words that were shown; True where anything changed.

    An unfinished decision is kept as typed. ``accept_rest``: accept what is undecided, but only
    what the clinician had before their eyes; what is kept waits for the signature. Call inside
    the transaction that holds the draft.
    """
    decisions = Decisions(plan, assessment, data=data)
    pending = {e.prefix: e for e in assessment.pending.all() if e.prefix.startswith("decision-")}
    # Every form is stored, so no short cut through any().
    written = [_store(form, assessment, pending) for form in decisions]
    if accept_rest:
        seen = [form for form in decisions if form.seen and not form.decided and form.is_valid()]
        written += [accept(form.decidable, assessment) for form in seen if not form.stands]
    return any(written)


def accept(item: Decidable, assessment: Assessment) -> bool:
    """Accept one item as the plan says it."""
    as_said = {"choice": Choice.ACCEPTED, "changed_to": "", "reason": "", "at": None}
    _keep(item, assessment, as_said)
    assessment.pending.filter(prefix=f"decision-{item.key}").delete()
    return True


def accept_kept(plan: Plan, assessment: Assessment) -> int:
    """Accept together what is kept as it is worn; how many. Each has its row, with who and when."""
    kept = Decisions(plan, assessment).kept()
    for item in kept:
        accept(item, assessment)
    return len(kept)


def accept_all(plan: Plan, assessment: Assessment) -> None:
    """Accept whatever is undecided: for records made by a program, where no one looks."""
    decisions = Decisions(plan, assessment)
    for item in (*decisions.undecided(), *decisions.kept()):
        accept(item, assessment)


def _keep(item: Decidable, assessment: Assessment, given: dict[str, Any]) -> Decision:
    decision, _ = Decision.objects.update_or_create(
        assessment=assessment, key=item.key, defaults={**given, "text": item.text}
    )
    return decision


def _store(form: DecisionForm, assessment: Assessment, pending: dict[str, PendingEntry]) -> bool:
    prefix = str(form.prefix)
    if form.moved_on:
        return _keep_written(form, assessment, pending)
    if not form.is_bound:
        return False
    if not form.is_valid():
        return _keep_as_typed(assessment, prefix, raw_of(form), pending)
    forgotten = prefix in pending and bool(pending[prefix].delete()[0])
    given = form.cleaned_data
    if not given["choice"]:
        return forgotten
    stored = None if form.stale else form.stored
    if stored and all(getattr(stored, name) == value for name, value in given.items()):
        return forgotten
    form.stored, form.stale = _keep(form.decidable, assessment, given), False
    return True


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

"""Keep the decisions posted with the visit page."""

from django.db import transaction
from django.http import HttpRequest, QueryDict

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.plans.decisions import DecisionForm, Decisions
from clinic.plans.models import Choice, Decision
from clinic.visits.chart import raw_of
from clinic.visits.models import Assessment, PendingEntry, Visit
from clinic.visits.policies import check_can_edit
from planning import Plan


@transaction.atomic
def save_decisions(
    *,
    plan: Plan,
    assessment: Assessment,
    data: QueryDict,
    by: User,
    request: HttpRequest | None = None,
) -> tuple[Decisions, bool]:
    """Store what was decided; an unfinished decision is kept as typed. True where changed."""
    visit = Visit.objects.select_for_update().get(pk=assessment.visit_id)
    check_can_edit(visit)
    decisions = Decisions(plan, assessment, data=data)
    # Every form is stored, so no short cut through any().
    stored = [_store(form, assessment) for form in decisions]
    changed = any(stored)
    if changed:
        _touch(visit, by, request)
        assessment.visit = visit
    return decisions, changed


@transaction.atomic
def accept_the_rest(
    *, plan: Plan, assessment: Assessment, by: User, request: HttpRequest | None = None
) -> None:
    """Accept whatever has not been decided yet."""
    visit = Visit.objects.select_for_update().get(pk=assessment.visit_id)
    check_can_edit(visit)
    decisions = Decisions(plan, assessment)
    waiting = decisions.undecided()
    for item in waiting:
        Decision.objects.update_or_create(
            assessment=assessment,
            key=item.key,
            defaults={
                "text": item.text,
                "choice": Choice.ACCEPTED,
                "changed_to": "",
                "reason": "",
            },
        )
        PendingEntry.objects.filter(assessment=assessment, prefix=f"decision-{item.key}").delete()
    if waiting:
        _touch(visit, by, request)
        assessment.visit = visit


def _touch(visit: Visit, by: User, request: HttpRequest | None) -> None:
    visit.version += 1
    visit.saved_by = by
    visit.save()
    record(request_or_actor=request or by, action="decided on plan", subject=visit)


def _store(form: DecisionForm, assessment: Assessment) -> bool:
    prefix = str(form.prefix)
    waiting = PendingEntry.objects.filter(assessment=assessment, prefix=prefix)
    if not form.is_valid():
        raw = raw_of(form)
        if waiting.filter(data=raw).exists():
            return False
        PendingEntry.objects.update_or_create(
            assessment=assessment, prefix=prefix, defaults={"data": raw}
        )
        return True
    forgotten = bool(waiting.delete()[0])
    if not form.cleaned_data["choice"]:
        return forgotten
    given = {**form.cleaned_data, "text": form.decidable.text}
    stored = form.stored
    if stored and all(getattr(stored, name) == value for name, value in given.items()):
        return forgotten
    form.stored, _ = Decision.objects.update_or_create(
        assessment=assessment, key=form.decidable.key, defaults=given
    )
    form.stale = False
    return True

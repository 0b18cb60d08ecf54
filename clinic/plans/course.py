"""One stoma's rows to the planner's course: signed plans, the wear log, what happened besides."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, time, timedelta
from types import MappingProxyType
from typing import Any

from django.db.models import QuerySet
from django.db.models.fields.json import KeyTransform
from django.db.models.functions import Coalesce
from django.utils import timezone

from clinic.formatting import years
from clinic.one_reading import once_a_reading
from clinic.patient_answers.queries import ratings_of
from clinic.patients.models import Patient, Stoma
from clinic.plans.agreed_baselines import baselines_of
from clinic.plans.measuring_error import errors_at
from clinic.plans.models import Choice, Decision, PlanSnapshot
from clinic.plans.planned import chosen_of, key_made
from clinic.plans.stored_findings import stored_findings
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment
from clinic.visits.wear_log.whole_log import Logged, log_of
from planning.course.record import Course, Event, EventKind, SignedVisit, Worn
from planning.course.report import course_report
from planning.course.results import CourseReport
from planning.inputs.findings import Findings, RemovalReason, StomaKind
from planning.results.plan import Change, ItemKind
from planning.supplies.catalogue import SUPPLIES

#: What is said or asked, not worn: it changes no plan.
_NOT_WORN = {ItemKind.TEACH, ItemKind.REFER, ItemKind.FOLLOW_UP}
_NOTHING: Mapping[str, int] = MappingProxyType({})


def report_of(stoma: Stoma) -> CourseReport:
    """What the course of ``stoma`` answers today."""
    return course_report(course_of(stoma))


def course_of(stoma: Stoma, *, today: date | None = None) -> Course:
    """Everything signed and logged of ``stoma``; eight queries however long its record is."""
    on = today or timezone.localdate()
    snapshots = plans_of(stoma.pk)
    said = ratings_of(snapshot.assessment_id for snapshot in snapshots)
    visits = tuple(
        signed_visit(snapshot, said.get(snapshot.assessment_id, {})) for snapshot in snapshots
    )
    return Course(
        kind=StomaKind(stoma.kind),
        today=on,
        visits=visits,
        worn=worn_of(log_of(stoma)),
        events=tuple(sorted(_events(stoma, visits, _referrals(stoma)), key=lambda e: e.day)),
        surgery=stoma.surgery_date,
        closed=stoma.closed_on,
        baselines=baselines_of(stoma, on),
        errors=errors_at(None if today is None else _end_of(today)),
    )


def _end_of(day: date) -> datetime:
    """The moment until which something was known on ``day``."""
    return timezone.make_aware(datetime.combine(day + timedelta(days=1), time.min))


@once_a_reading
def plans_of(stoma_id: int, *, before: datetime | None = None) -> tuple[PlanSnapshot, ...]:
    """Signed plans of a stoma with their decisions, oldest first. Two queries."""
    plans = _in_order(PlanSnapshot.objects.filter(assessment__stoma_id=stoma_id))
    if before is not None:
        plans = plans.filter(assessment__visit__happened_at__lt=before)
    return tuple(plans)


def plans_of_many(stomas: Collection[int]) -> Iterator[PlanSnapshot]:
    """The same of many stomas by their ids, one stoma after the other; of each plan only what it
    recommends and what is worn, as the rest takes long to read. Two queries."""
    decided = Coalesce("with_choices", "plan")
    found = (
        _in_order(PlanSnapshot.objects.filter(assessment__stoma__in=stomas))
        .select_related("assessment__visit__patient", "assessment__stoma")
        .annotate(asked=KeyTransform("recommendations", decided))
        .annotate(worn=KeyTransform("supplies", decided))
        .defer("plan", "with_choices", "history")
        .order_by("assessment__stoma_id", "assessment__visit__happened_at", "pk")
    )
    for one in found:
        one.plan, one.with_choices = {"recommendations": one.asked, "supplies": one.worn}, None
        yield one


def _in_order(plans: QuerySet[PlanSnapshot]) -> QuerySet[PlanSnapshot]:
    return (
        plans.select_related("assessment__visit__patient")
        .prefetch_related("assessment__decisions")
        # What the plan knew of the past is in the visits before it, and long to read.
        .defer("history")
        .order_by("assessment__visit__happened_at", "pk")
    )


def signed_visit(snapshot: PlanSnapshot, said: Mapping[str, int] = _NOTHING) -> SignedVisit:
    """The visit a plan was signed at, with what was agreed to. ``said``: what the person answered,
    for the drawing alone."""
    assessment = snapshot.assessment
    day = timezone.localdate(assessment.visit.happened_at)
    decisions = {decision.key: decision for decision in assessment.decisions.all()}
    asked = snapshot.decided["recommendations"]
    return SignedVisit(
        day=day,
        findings=aged(stored_findings(snapshot), assessment.visit.patient, day),
        supplies=agreed_supplies(snapshot, decisions.values()),
        changed=tuple(_changed(asked, decisions)),
        said_helped=assessment.last_plan_helped,
        answers=tuple((key, float(rating)) for key, rating in said.items()),
    )


def aged(findings: Findings, patient: Patient, on: date) -> Findings:
    """With the age by the date of birth as it is known now: it may not have been stored, or was
    corrected since."""
    return replace(
        findings, person=replace(findings.person, age_years=years(patient.date_of_birth, on))
    )


def agreed_supplies(snapshot: PlanSnapshot, decisions: Iterable[Decision]) -> frozenset[str]:
    """The plan's supplies, with what was chosen, without those that were changed in words or
    dropped."""
    refused = {
        decision.key
        for decision in decisions
        if decision.choice != Choice.ACCEPTED and chosen_of(decision) is None
    }
    return frozenset(snapshot.decided["supplies"]) - refused


def changes_of(assessments: Iterable[Assessment]) -> dict[int, tuple[str, ...]]:
    """What the plan signed for each changed, in a few words each; those without a plan are left
    out. Two queries, and of each plan only its recommendations."""
    found = (
        PlanSnapshot.objects.filter(assessment__in=list(assessments))
        .annotate(asked=KeyTransform("recommendations", Coalesce("with_choices", "plan")))
        .select_related("assessment")
        .prefetch_related("assessment__decisions")
        .only("assessment__uuid")
    )
    return {
        one.assessment_id: tuple(
            _changed(one.asked, {d.key: d for d in one.assessment.decisions.all()})
        )
        for one in found
    }


def _changed(asked: Iterable[dict[str, Any]], decisions: dict[str, Decision]) -> Iterator[str]:
    """What was new against what was worn before, in a few words each: what the plan asked to
    change and was accepted, and what the clinician did instead of anything it said."""
    for item, decision in _decided(asked, decisions):
        if decision is not None:
            yield decision.changed_words
        elif item["change"] == Change.STOP:
            yield f"stopped: {_short(item['key'], item['text'])}"
        elif item["change"] != Change.KEEP:
            yield _short(item["key"], item["text"])


def begun_of(snapshot: PlanSnapshot) -> list[dict[str, Any]]:
    """The recommendations whose supplies were new at this visit, as they were accepted."""
    decisions = {decision.key: decision for decision in snapshot.assessment.decisions.all()}
    return [
        item
        for item, decision in _decided(snapshot.decided["recommendations"], decisions)
        if decision is None and item["change"] in (Change.START, Change.CHANGE)
    ]


def _decided(
    asked: Iterable[dict[str, Any]], decisions: dict[str, Decision]
) -> Iterator[tuple[dict[str, Any], Decision | None]]:
    """What is worn and was decided on: as the plan says it (None), or in words of one's own."""
    chosen = {key_made(fixed) for fixed in map(chosen_of, decisions.values()) if fixed}
    for item in asked:
        decision = decisions.get(item["key"])
        if item["kind"] in _NOT_WORN or (decision is None and item["key"] not in chosen):
            continue
        if decision is None or item["key"] in chosen or decision.choice == Choice.ACCEPTED:
            yield item, None
        elif decision.choice == Choice.CHANGED:
            yield item, decision


def _short(key: str, text: str) -> str:
    supply = SUPPLIES.get(key)
    words = text.partition(" (")[0] if supply is None else supply.name.replace("flat, ", "flat ")
    return words.partition(",")[0].rstrip(".")


def worn_of(log: Sequence[Logged] | None, *, until: date | None = None) -> tuple[Worn, ...] | None:
    """The log as the planner reads it; ``until``: as it was known on that day.

    A barrier of which no one noted that it came off, though a later one was put on, was worn as
    long as anybody saw it.
    """
    if log is None:
        return None
    return tuple(_worn(barrier) for barrier in log if until is None or barrier.on <= until)


def _worn(barrier: Logged) -> Worn:
    off = barrier.off or (barrier.seen_on if barrier.superseded else None)
    reason = RemovalReason(barrier.reason) if barrier.reason else None
    seen_on = None if off else barrier.seen_on
    return Worn(barrier.on, off, reason, seen_on, barrier.disputed)


def _referrals(stoma: Stoma) -> QuerySet[Referral]:
    return Referral.objects.filter(
        assessment__stoma=stoma, assessment__visit__state="signed"
    ).order_by("made_at", "pk")


def _events(
    stoma: Stoma, visits: Iterable[SignedVisit], referrals: Iterable[Referral]
) -> Iterator[Event]:
    if stoma.surgery_date:
        yield Event(stoma.surgery_date, EventKind.SURGERY, "Surgery")
    for visit in visits:
        if visit.changed:
            yield Event(visit.day, EventKind.PLAN_CHANGE, ", ".join(visit.changed))
    for referral in referrals:
        yield from _referral(referral)
    if stoma.closed_on:
        yield Event(stoma.closed_on, EventKind.CLOSED, "Stoma closed")


def _referral(referral: Referral) -> Iterator[Event]:
    asked = f"{referral.to}, {referral.get_urgency_display().lower()}: {referral.asks}"
    day = timezone.localdate(referral.made_at)
    yield Event(day, EventKind.REFERRAL, asked, waits=referral.answered_at is None)
    if referral.answered_at is not None:
        yield Event(timezone.localdate(referral.answered_at), EventKind.ANSWER, referral.answer)


def course_at(assessment: Assessment, findings: Findings, plans: Sequence[PlanSnapshot]) -> Course:
    """The course up to the visit of ``assessment``, which may not be signed: its own ``findings``
    and what was answered there come last, without what was agreed as known. ``plans``: those
    signed before. The error of measuring is the one known when it was signed, so that later
    repeats never change it. Three queries."""
    day = timezone.localdate(assessment.visit.happened_at)
    stoma = assessment.stoma
    here = SignedVisit(day, findings, said_helped=assessment.last_plan_helped)
    return Course(
        kind=StomaKind(stoma.kind),
        today=day,
        visits=(*(signed_visit(plan) for plan in plans), here),
        worn=worn_of(log_of(stoma), until=day),
        surgery=stoma.surgery_date,
        closed=stoma.closed_on,
        errors=errors_at(assessment.visit.signed_at),
    )

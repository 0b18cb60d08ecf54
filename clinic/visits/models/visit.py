"""One visit: a patient and a clinician, and what was added after it was signed."""

import uuid

import pgtrigger
from django.conf import settings
from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.patients.models import Patient
from clinic.visits.choices import VisitHeld, VisitReason, VisitState
from clinic.visits.models.charted import Charted
from clinic.visits.models.finality import never_emptied

STAYS_THE_PATIENTS = pgtrigger.Trigger(
    name="visit_stays_the_patients",
    when=pgtrigger.Before,
    operation=pgtrigger.Update,
    condition=pgtrigger.Q(old__patient__df=pgtrigger.F("new__patient")),
    func="""
        RAISE EXCEPTION 'A visit stays with its patient.' USING ERRCODE = 'check_violation';
    """,
)

#: Across tables, so asked at the moment of signing: no contradiction is ever made final.
HOLDS_TOGETHER = pgtrigger.Trigger(
    name="visit_holds_together",
    when=pgtrigger.Before,
    operation=pgtrigger.Update,
    condition=pgtrigger.Q(old__state="draft", new__state="signed"),
    func="""
        IF NEW.happened_at > now() + interval '1 day' THEN
            RAISE EXCEPTION 'A visit in the future is not signed.'
                USING ERRCODE = 'check_violation';
        END IF;
        IF EXISTS (
            SELECT 1 FROM visits_assessment a
            JOIN visits_skinassessment s ON s.assessment_id = a.id
            WHERE a.visit_id = NEW.id AND (s.state = 'findings') <> EXISTS (
                SELECT 1 FROM visits_skinfinding f WHERE f.assessment_id = a.id
            )
        ) OR EXISTS (
            SELECT 1 FROM visits_assessment a
            JOIN visits_skinassessment s ON s.assessment_id = a.id
            WHERE a.visit_id = NEW.id AND ((s.wounds = 'present') <> EXISTS (
                SELECT 1 FROM visits_wound w WHERE w.assessment_id = a.id
            ) OR (s.other_stomas = 'present') <> EXISTS (
                SELECT 1 FROM visits_otherstoma o WHERE o.assessment_id = a.id
            ))
        ) OR EXISTS (
            SELECT 1 FROM visits_assessment a
            JOIN visits_abdomenassessment b ON b.assessment_id = a.id
            WHERE a.visit_id = NEW.id AND (b.creases = 'present') <> EXISTS (
                SELECT 1 FROM visits_crease c WHERE c.assessment_id = a.id
            )
        ) OR EXISTS (
            SELECT 1 FROM visits_assessment a
            JOIN visits_wearepisode w ON w.assessment_id = a.id
            WHERE a.visit_id = NEW.id
            AND GREATEST(w."on", w.off) > NEW.happened_at::date + 1
        ) OR EXISTS (
            SELECT 1 FROM visits_assessment a
            JOIN visits_pendingentry p ON p.assessment_id = a.id
            WHERE a.visit_id = NEW.id
        ) THEN
            RAISE EXCEPTION 'This visit contradicts itself and is not signed.'
                USING ERRCODE = 'check_violation';
        END IF;
        RETURN NEW;
    """,
)


class VisitQuerySet(models.QuerySet["Visit"]):
    def signed(self) -> "VisitQuerySet":
        return self.filter(state=VisitState.SIGNED)

    def drafts(self) -> "VisitQuerySet":
        return self.filter(state=VisitState.DRAFT)


@tracked(exclude=["saved_page", "saved_turn"])
class Visit(Charted):
    """Draft until signed; then final. ``version`` counts saves, to notice two people editing."""

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    patient = models.ForeignKey(Patient, on_delete=models.PROTECT, related_name="visits")
    clinician = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="visits"
    )
    happened_at = models.DateTimeField("date and time of the visit")
    reason = models.CharField(
        max_length=30, choices=VisitReason.choices, blank=True, default="", verbose_name="Reason"
    )
    held = models.CharField(
        max_length=20,
        choices=VisitHeld.choices,
        blank=True,
        default="",
        verbose_name="Type of contact",
    )
    reason_words = models.CharField("In their words", max_length=500, blank=True)
    note = models.TextField("Note", blank=True)
    state = models.CharField(
        max_length=10, choices=VisitState.choices, default=VisitState.DRAFT, editable=False
    )
    version = models.PositiveIntegerField(default=1, editable=False)
    # Which open page saved last, and its how-manieth save that was: a page never conflicts
    # with itself, however its saves overtake one another on the way.
    saved_page = models.UUIDField(null=True, editable=False)
    saved_turn = models.PositiveIntegerField(default=0, editable=False)
    saved_at = models.DateTimeField(auto_now=True)
    saved_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", null=True
    )
    signed_at = models.DateTimeField(null=True, editable=False)
    signed_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+", null=True
    )

    objects = VisitQuerySet.as_manager()

    class Meta:
        ordering = ["-happened_at", "-id"]
        indexes = [
            models.Index(fields=["patient", "-happened_at"], name="visit_by_patient"),
            # The day's file asks who was seen on a day, or signed on it.
            models.Index(fields=["happened_at"], name="visit_by_day"),
            models.Index(fields=["signed_at"], name="visit_by_signing"),
            # The first page lists what is unfinished: a handful among everything ever charted.
            models.Index(fields=["clinician"], condition=Q(state="draft"), name="visit_drafts"),
        ]
        constraints = [
            models.CheckConstraint(
                condition=Q(state__in=VisitState.values), name="visit_state_known"
            ),
            models.CheckConstraint(
                condition=Q(reason__in=["", *VisitReason.values]), name="visit_reason_known"
            ),
            models.CheckConstraint(
                condition=Q(held__in=["", *VisitHeld.values]), name="visit_held_known"
            ),
            models.CheckConstraint(
                condition=Q(state="signed", signed_at__isnull=False, signed_by__isnull=False)
                | (~Q(state="signed") & Q(signed_at__isnull=True, signed_by__isnull=True)),
                name="visit_signed_by_and_when",
            ),
        ]
        triggers = [
            pgtrigger.Protect(
                name="visit_final_once_signed",
                operation=pgtrigger.Update | pgtrigger.Delete,
                condition=pgtrigger.Q(old__state__in=["signed", "discarded"]),
            ),
            STAYS_THE_PATIENTS,
            HOLDS_TOGETHER,
            never_emptied("visit_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Visit {self.uuid}"

    @property
    def is_draft(self) -> bool:
        return self.state == VisitState.DRAFT

    @property
    def is_signed(self) -> bool:
        return self.state == VisitState.SIGNED


@tracked()
class Addendum(models.Model):
    """A signed note after the fact; never changed, never removed."""

    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="addenda")
    text = models.TextField("addendum")
    by = models.ForeignKey(settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+")
    at = models.DateTimeField()

    class Meta:
        ordering = ["at", "id"]
        constraints = [models.CheckConstraint(condition=~Q(text=""), name="addendum_not_empty")]
        triggers = [
            pgtrigger.Protect(name="addendum_final", operation=pgtrigger.Update | pgtrigger.Delete),
            never_emptied("addendum_never_emptied"),
            pgtrigger.Trigger(
                name="addendum_to_signed",
                when=pgtrigger.Before,
                operation=pgtrigger.Insert,
                func="""
                    IF NOT EXISTS (
                        SELECT 1 FROM visits_visit v
                        WHERE v.id = NEW.visit_id AND v.state = 'signed'
                    ) THEN
                        RAISE EXCEPTION 'Only a signed visit takes an addendum.'
                            USING ERRCODE = 'check_violation';
                    END IF;
                    RETURN NEW;
                """,
            ),
        ]

    def __str__(self) -> str:
        return f"Addendum {self.pk}"

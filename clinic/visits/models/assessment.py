"""One stoma at one visit."""

import uuid

import pgtrigger
from django.db import models

from clinic.audit.history import tracked
from clinic.patients.models import Stoma
from clinic.visits.choices import SectionKey
from clinic.visits.models.charted import Charted
from clinic.visits.models.fields import words, words_valid, yes_no
from clinic.visits.models.finality import OF_VISIT, final_once_signed, never_emptied
from clinic.visits.models.visit import Visit

FITS_STOMA = pgtrigger.Trigger(
    name="assessment_fits_stoma",
    when=pgtrigger.Before,
    operation=pgtrigger.Insert | pgtrigger.Update,
    # A day of grace: the database's day may not be the clinic's. A draft whose stoma was closed in
    # the meantime can still be written to: its page says what is wrong, and loses nothing.
    func="""
        IF TG_OP = 'UPDATE' THEN
            IF (OLD.stoma_id, OLD.visit_id) = (NEW.stoma_id, NEW.visit_id) THEN
                RETURN NEW;
            END IF;
        END IF;
        IF NOT EXISTS (
            SELECT 1 FROM patients_stoma s JOIN visits_visit v ON v.patient_id = s.patient_id
            WHERE s.id = NEW.stoma_id AND v.id = NEW.visit_id
        ) THEN
            RAISE EXCEPTION 'This stoma is another patient''s.'
                USING ERRCODE = 'check_violation';
        END IF;
        IF EXISTS (
            SELECT 1 FROM patients_stoma s JOIN visits_visit v ON v.id = NEW.visit_id
            WHERE s.id = NEW.stoma_id AND s.closed_on < v.happened_at::date
        ) THEN
            RAISE EXCEPTION 'This stoma was closed before the visit.'
                USING ERRCODE = 'check_violation';
        END IF;
        RETURN NEW;
    """,
)


#: Two open drafts of one stoma would each hold half of what was found. The stoma's row is held
#: while it is asked, so that two who begin at one moment meet there. Drafts that were doubled
#: before this rule stay: each can be signed or discarded.
ONE_OPEN_DRAFT = pgtrigger.Trigger(
    name="one_open_draft_a_stoma",
    when=pgtrigger.Before,
    operation=pgtrigger.Insert | pgtrigger.Update,
    func="""
        IF TG_OP = 'UPDATE' THEN
            IF (OLD.stoma_id, OLD.visit_id) = (NEW.stoma_id, NEW.visit_id) THEN
                RETURN NEW;
            END IF;
        END IF;
        PERFORM 1 FROM patients_stoma s WHERE s.id = NEW.stoma_id FOR NO KEY UPDATE;
        IF EXISTS (
            SELECT 1 FROM visits_visit v WHERE v.id = NEW.visit_id AND v.state = 'draft'
        ) AND EXISTS (
            SELECT 1 FROM visits_assessment a JOIN visits_visit v ON v.id = a.visit_id
            WHERE a.stoma_id = NEW.stoma_id AND a.id IS DISTINCT FROM NEW.id
            AND a.visit_id <> NEW.visit_id AND v.state = 'draft'
        ) THEN
            RAISE EXCEPTION 'This stoma has an open draft already.'
                USING ERRCODE = 'exclusion_violation', CONSTRAINT = 'one_open_draft_a_stoma';
        END IF;
        RETURN NEW;
    """,
)


@tracked()
class Assessment(Charted):
    """What holds the parts together. ``not_looked_at``: sections closed on purpose today."""

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    visit = models.ForeignKey(Visit, on_delete=models.PROTECT, related_name="assessments")
    stoma = models.ForeignKey(Stoma, on_delete=models.PROTECT, related_name="assessments")
    not_looked_at = words("not looked at today", SectionKey)
    recent_antibiotics = yes_no("Antibiotics in the last weeks")
    rod_in_place = yes_no("Rod or bridge under a loop in place")
    convexity_assessed = yes_no(
        "Specialist assessment for convexity",
        help_text="Needed before convexity up to day 30 after surgery or with a fresh separation.",
    )
    convexity_reason = models.CharField(
        "Reason for convexity despite a caution", max_length=300, blank=True
    )
    antifungal_agreed = yes_no("A prescriber agreed to antifungal powder")
    last_plan_helped = yes_no("Did the last plan help?")

    class Meta:
        ordering = ["stoma_id"]
        constraints = [
            models.UniqueConstraint(fields=["visit", "stoma"], name="one_assessment_a_stoma_visit"),
            words_valid("not_looked_at", SectionKey, "assessment_sections_known"),
        ]
        triggers = [
            final_once_signed("assessment_final_once_signed", OF_VISIT),
            FITS_STOMA,
            ONE_OPEN_DRAFT,
            never_emptied("assessment_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Assessment {self.uuid}"

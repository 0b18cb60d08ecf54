"""A barrier of the wear log that was entered between visits: from a paper diary, on the phone."""

import uuid

import pgtrigger
from django.conf import settings
from django.db import models
from django.db.models import F

from clinic.audit.history import tracked
from clinic.patients.models import Stoma
from clinic.visits import choices
from clinic.visits.models.fields import word
from clinic.visits.models.finality import never_emptied
from clinic.visits.models.visit_wear import of_one_barrier

FITS_LIFE_OF_STOMA = pgtrigger.Trigger(
    name="worn_fits_life_of_stoma",
    when=pgtrigger.Before,
    operation=pgtrigger.Insert | pgtrigger.Update,
    # A day of grace: the database's day may not be the clinic's.
    func="""
        IF EXISTS (
            SELECT 1 FROM patients_stoma s WHERE s.id = NEW.stoma_id
            AND (NEW."on" < s.surgery_date OR GREATEST(NEW."on", NEW.off) > s.closed_on)
        ) THEN
            RAISE EXCEPTION 'This barrier was worn before the surgery or after the closing.'
                USING ERRCODE = 'check_violation';
        END IF;
        IF GREATEST(NEW."on", NEW.off) > now()::date + 1 THEN
            RAISE EXCEPTION 'This barrier was worn in the future.'
                USING ERRCODE = 'check_violation';
        END IF;
        RETURN NEW;
    """,
)


@tracked()
class WornBarrier(models.Model):
    """One barrier. ``off`` empty: still on. Whole days; on and off on one day is less than one.

    Unlike a row of a visit it can be corrected and removed; its history keeps what it was.
    """

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    stoma = models.ForeignKey(Stoma, on_delete=models.PROTECT, related_name="worn_barriers")
    on = models.DateField("Put on")
    off = models.DateField("Came off", null=True, blank=True, help_text="Empty: still on.")
    reason = word("Why it came off", choices.RemovalReason)
    circumstance = word("What else was the matter", choices.Circumstance)
    entered_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    entered_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        ordering = ["on", F("off").asc(nulls_last=True), "id"]
        constraints = of_one_barrier("worn", "stoma")
        triggers = [
            FITS_LIFE_OF_STOMA,
            pgtrigger.ReadOnly(name="worn_stays_with_stoma", fields=["stoma"]),
            never_emptied("worn_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Worn {self.pk}"

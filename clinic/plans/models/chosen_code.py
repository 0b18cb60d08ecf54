"""Diagnosis codes as the clinician chose them: coding, not charting."""

import pgtrigger
from django.conf import settings
from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits.models import Assessment
from clinic.visits.models.finality import OF_ASSESSMENT, never_emptied

AFTER_SIGNING = pgtrigger.Trigger(
    name="code_of_a_signed_visit",
    when=pgtrigger.Before,
    operation=pgtrigger.Insert,
    declare=[("visit_state", "TEXT")],
    func=f"""
        SELECT v.state INTO visit_state FROM visits_visit v
            WHERE v.id = ({OF_ASSESSMENT.replace("touched", "NEW")});
        IF visit_state <> 'signed' THEN
            RAISE EXCEPTION 'Codes are chosen for a signed visit.'
                USING ERRCODE = 'check_violation';
        END IF;
        RETURN NEW;
    """,  # noqa: S608 - only our own constant is put in
)


@tracked()
class ChosenCode(models.Model):
    """One code for one stoma at one signed visit; a choice taken back is a row deleted.

    ``title`` and ``release`` as they read on the day it was chosen.
    """

    assessment = models.ForeignKey(Assessment, on_delete=models.PROTECT, related_name="codes")
    code = models.CharField("diagnosis code", max_length=8)
    title = models.CharField(max_length=200)
    release = models.CharField(max_length=60)
    chosen_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, related_name="+"
    )
    chosen_at = models.DateTimeField()

    class Meta:
        ordering = ["id"]
        constraints = [
            models.UniqueConstraint(fields=["assessment", "code"], name="one_choice_a_code"),
            models.CheckConstraint(
                condition=Q(code__regex=r"^[A-Z][0-9][0-9A-Z](\.[0-9A-Z]{1,4})?$"),
                name="chosen_code_looks_like_one",
            ),
        ]
        triggers = [
            AFTER_SIGNING,
            pgtrigger.Protect(name="chosen_code_unchanged", operation=pgtrigger.Update),
            never_emptied("chosen_code_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Chosen code {self.pk}"

"""The plan as it was signed: reproducible years later."""

import uuid
from typing import Any

import pgtrigger
from django.db import models

from clinic.audit.history import tracked
from clinic.visits.models import Assessment
from clinic.visits.models.finality import never_emptied


@tracked()
class PlanSnapshot(models.Model):
    """Findings and history in, plan out, and the version of the rules between them.

    ``with_choices``: the plan made again round what the clinician chose instead; None where
    nothing was.
    """

    uuid = models.UUIDField(default=uuid.uuid4, unique=True, editable=False)
    assessment = models.OneToOneField(Assessment, on_delete=models.PROTECT, related_name="plan")
    rule_set = models.CharField("rule set", max_length=40)
    findings = models.JSONField()
    history = models.JSONField()
    plan = models.JSONField()
    with_choices = models.JSONField("the plan with what was chosen", null=True, blank=True)
    made_at = models.DateTimeField()
    #: The day the plan asked for, on an open day as the clinic's closed days then were; null for
    #: plans signed before it was stored.
    planned_day = models.DateField("planned day of the next visit", null=True)
    planned_day_moved = models.CharField("why that day was moved", max_length=300, blank=True)

    class Meta:
        triggers = [
            pgtrigger.Protect(name="plan_final", operation=pgtrigger.Update | pgtrigger.Delete),
            never_emptied("plan_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Plan {self.uuid}"

    @property
    def decided(self) -> dict[str, Any]:
        """The plan that papers and the course go by."""
        decided: dict[str, Any] = self.plan if self.with_choices is None else self.with_choices
        return decided

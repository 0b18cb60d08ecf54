"""The wear log: each barrier worn, and why it came off."""

import uuid

from django.contrib.postgres.constraints import ExclusionConstraint
from django.contrib.postgres.fields import DateRangeField, RangeOperators
from django.db import models
from django.db.models import F, Func, Q, Value

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.charted import Charted
from clinic.visits.models.fields import one_of, word
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied


class _DateRange(Func):
    """[on, off): two barriers may share the day of the change."""

    function = "DATERANGE"
    output_field = DateRangeField()


def of_one_barrier(prefix: str, owner: str) -> list[models.BaseConstraint]:
    """What holds of any row that is one barrier, put on at ``on`` and taken off at ``off``; no two
    of one ``owner`` at once."""
    return [
        one_of("reason", choices.RemovalReason, f"{prefix}_reason_known"),
        one_of("circumstance", choices.Circumstance, f"{prefix}_circumstance_known"),
        models.CheckConstraint(
            condition=Q(circumstance="") | Q(off__isnull=False),
            name=f"{prefix}_circumstance_once_off",
        ),
        models.CheckConstraint(
            condition=Q(off__isnull=True) | Q(off__gte=F("on")),
            name=f"{prefix}_off_not_before_on",
        ),
        models.CheckConstraint(
            condition=(Q(off__isnull=True) & Q(reason="")) | (Q(off__isnull=False) & ~Q(reason="")),
            name=f"{prefix}_reason_iff_off",
        ),
        ExclusionConstraint(
            name=f"{prefix}_no_overlap",
            # Checked at commit: rows of one save may pass through each other.
            deferrable=models.Deferrable.DEFERRED,
            expressions=[
                (owner, RangeOperators.EQUAL),
                (_DateRange("on", "off", Value("[)")), RangeOperators.OVERLAPS),
            ],
        ),
    ]


@tracked()
class WearEpisode(Charted):
    """One barrier. ``off`` empty: still on. Whole days; 0 is less than a day."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    assessment = models.ForeignKey(Assessment, on_delete=models.CASCADE, related_name="wear_rows")
    position = models.PositiveSmallIntegerField(default=0)
    on = models.DateField("Put on")
    off = models.DateField("Came off", null=True, blank=True, help_text="Empty: still on.")
    reason = word("Why it came off", choices.RemovalReason)
    circumstance = word("What else was the matter", choices.Circumstance)

    class Meta:
        ordering = ["on", "position", "id"]
        constraints = of_one_barrier("wear", "assessment")
        triggers = [
            final_once_signed("wear_final_once_signed", OF_ASSESSMENT),
            never_emptied("wear_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Wear {self.pk}"

    @property
    def days(self) -> int | None:
        """Whole days worn; None while it is still on."""
        return (self.off - self.on).days if self.off else None

"""A product begun, beside the one begun last, which is a column of the system."""

import uuid

from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.charted import Charted
from clinic.visits.models.fields import in_range, measured
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied
from planning.inputs import quantities as q


@tracked()
class BegunProduct(Charted):
    """One more product that was begun; ``days`` before the visit, NULL where it is not known."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    assessment = models.ForeignKey(Assessment, on_delete=models.CASCADE, related_name="begun_rows")
    position = models.PositiveSmallIntegerField(default=0)
    product = models.CharField("Product started", max_length=30, choices=choices.Product.choices)
    days = measured(q.BEGUN_DAYS)

    class Meta:
        ordering = ["position", "id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(product__in=choices.Product.values), name="begun_row_product_known"
            ),
            models.UniqueConstraint(
                fields=["assessment", "product"],
                name="begun_row_product_once",
                # Checked at commit: rows of one save may pass through each other.
                deferrable=models.Deferrable.DEFERRED,
            ),
            in_range("days", q.BEGUN_DAYS, "begun_row_days_range"),
        ]
        triggers = [
            final_once_signed("begun_row_final_once_signed", OF_ASSESSMENT),
            never_emptied("begun_row_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Begun product {self.pk}"

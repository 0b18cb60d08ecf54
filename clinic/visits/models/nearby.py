"""What else lies in the way of a barrier: an open wound, another stoma."""

import uuid

from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.charted import Charted
from clinic.visits.models.fields import hours, hours_valid, in_range, measured, yes_no
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied
from planning.inputs import quantities as q


@tracked()
class Wound(Charted):
    """An open wound near the stoma."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    assessment = models.ForeignKey(Assessment, on_delete=models.CASCADE, related_name="wound_rows")
    position = models.PositiveSmallIntegerField(default=0)
    hours = hours("Hours")
    distance_mm = measured(q.WOUND_DISTANCE)
    length_mm = measured(q.WOUND_LENGTH)
    width_mm = measured(q.WOUND_WIDTH)
    depth_mm = measured(q.WOUND_DEPTH)
    pus = yes_no("Pus")
    effluent_reaches = yes_no("Stool or urine from the stoma reaches it")
    comes_free = yes_no("Stool or urine comes out of the wound itself")

    class Meta:
        ordering = ["position", "id"]
        constraints = [
            hours_valid("hours", "wound_hours_valid"),
            models.CheckConstraint(condition=Q(hours__len__gt=0), name="wound_has_hours"),
            in_range("distance_mm", q.WOUND_DISTANCE, "wound_distance_range"),
            in_range("length_mm", q.WOUND_LENGTH, "wound_length_range"),
            in_range("width_mm", q.WOUND_WIDTH, "wound_width_range"),
            in_range("depth_mm", q.WOUND_DEPTH, "wound_depth_range"),
        ]
        triggers = [
            final_once_signed("wound_final_once_signed", OF_ASSESSMENT),
            never_emptied("wound_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Wound {self.pk}"


@tracked()
class OtherStoma(Charted):
    """Another stoma on the same abdomen, as it lies from this one."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    assessment = models.ForeignKey(
        Assessment, on_delete=models.CASCADE, related_name="other_stoma_rows"
    )
    position = models.PositiveSmallIntegerField(default=0)
    hours = hours("Hours")
    distance_mm = measured(q.OTHER_DISTANCE)
    length_mm = measured(q.OTHER_LENGTH)
    width_mm = measured(q.OTHER_WIDTH)
    rests = yes_no("Gives only mucus")

    class Meta:
        ordering = ["position", "id"]
        constraints = [
            hours_valid("hours", "other_stoma_hours_valid"),
            models.CheckConstraint(condition=Q(hours__len__gt=0), name="other_stoma_has_hours"),
            in_range("distance_mm", q.OTHER_DISTANCE, "other_stoma_distance_range"),
            in_range("length_mm", q.OTHER_LENGTH, "other_stoma_length_range"),
            in_range("width_mm", q.OTHER_WIDTH, "other_stoma_width_range"),
        ]
        triggers = [
            final_once_signed("other_stoma_final_once_signed", OF_ASSESSMENT),
            never_emptied("other_stoma_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Other stoma {self.pk}"

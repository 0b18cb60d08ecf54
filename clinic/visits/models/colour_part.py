"""A part of the stoma whose colour differs from the rest."""

import uuid

from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.charted import Charted
from clinic.visits.models.fields import hours, hours_valid
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied


@tracked()
class ColourPart(Charted):
    """One colour at some hours. Each is judged by itself: a dark part is never averaged away."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    assessment = models.ForeignKey(Assessment, on_delete=models.CASCADE, related_name="colour_rows")
    position = models.PositiveSmallIntegerField(default=0)
    colour = models.CharField("Colour there", max_length=30, choices=choices.Colour.choices)
    hours = hours("Hours")

    class Meta:
        ordering = ["position", "id"]
        constraints = [
            models.CheckConstraint(
                condition=Q(colour__in=choices.Colour.values), name="colour_part_known"
            ),
            hours_valid("hours", "colour_part_hours_valid"),
            models.CheckConstraint(condition=Q(hours__len__gt=0), name="colour_part_has_hours"),
        ]
        triggers = [
            final_once_signed("colour_part_final_once_signed", OF_ASSESSMENT),
            never_emptied("colour_part_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Colour part {self.pk}"

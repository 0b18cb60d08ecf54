"""The abdomen felt lying, sitting and standing."""

import uuid

from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.charted import Charted
from clinic.visits.models.fields import (
    hours,
    hours_valid,
    in_range,
    measured,
    one_of,
    word,
    words,
    words_valid,
    yes_no,
)
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied
from planning.inputs import quantities as q


@tracked()
class AbdomenAssessment(Charted):
    """Contour, firmness, and the bulge beside the stoma if there is one."""

    assessment = models.OneToOneField(Assessment, on_delete=models.CASCADE, related_name="abdomen")
    contour = word("Contour", choices.Contour)
    firmness = word("Firmness", choices.Firmness)
    creases = word("Creases, scars or dips at the stoma", choices.Presence)
    bulge = word("Bulge beside the stoma", choices.Presence)
    bulge_hours = hours("Bulge at")
    bulge_height_mm = measured(q.BULGE_HEIGHT, help_text="Above the skin, standing.")
    bulge_width_mm = measured(q.BULGE_WIDTH)
    bulge_reducible = yes_no("Bulge reducible")
    bulge_painful = yes_no("Bulge painful")
    bulge_new = yes_no("Bulge new")
    bulge_hard = yes_no("Bulge hard")
    bulge_skin_changed = yes_no("Skin over the bulge red or dark")

    class Meta:
        constraints = [
            one_of("contour", choices.Contour, "abdomen_contour_known"),
            one_of("firmness", choices.Firmness, "abdomen_firmness_known"),
            one_of("creases", choices.Presence, "abdomen_creases_known"),
            one_of("bulge", choices.Presence, "abdomen_bulge_known"),
            hours_valid("bulge_hours", "bulge_hours_valid"),
            in_range("bulge_height_mm", q.BULGE_HEIGHT, "bulge_height_range"),
            in_range("bulge_width_mm", q.BULGE_WIDTH, "bulge_width_range"),
            models.CheckConstraint(
                condition=Q(bulge="present", bulge_hours__len__gt=0)
                | (
                    ~Q(bulge="present")
                    & Q(
                        bulge_hours__isnull=True,
                        bulge_height_mm__isnull=True,
                        bulge_width_mm__isnull=True,
                        bulge_reducible__isnull=True,
                        bulge_painful__isnull=True,
                        bulge_new__isnull=True,
                        bulge_hard__isnull=True,
                        bulge_skin_changed__isnull=True,
                    )
                ),
                name="bulge_has_hours",
            ),
        ]
        triggers = [
            final_once_signed("abdomen_final_once_signed", OF_ASSESSMENT),
            never_emptied("abdomen_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Abdomen {self.pk}"


@tracked()
class Crease(Charted):
    """A crease, scar or dip that reaches the stoma."""

    id = models.UUIDField(primary_key=True, default=uuid.uuid4, editable=False)
    assessment = models.ForeignKey(Assessment, on_delete=models.CASCADE, related_name="crease_rows")
    position = models.PositiveSmallIntegerField(default=0)
    hours = hours("Hours")
    depth_mm = measured(q.CREASE_DEPTH)
    postures = words("Shows when", choices.Posture)

    class Meta:
        ordering = ["position", "id"]
        constraints = [
            hours_valid("hours", "crease_hours_valid"),
            models.CheckConstraint(condition=Q(hours__len__gt=0), name="crease_has_hours"),
            in_range("depth_mm", q.CREASE_DEPTH, "crease_depth_range"),
            words_valid("postures", choices.Posture, "crease_postures_known"),
        ]
        triggers = [
            final_once_signed("crease_final_once_signed", OF_ASSESSMENT),
            never_emptied("crease_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Crease {self.pk}"

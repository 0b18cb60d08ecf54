"""The pouching system they arrived in, and the back of the used barrier."""

from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.fields import (
    hours,
    hours_valid,
    in_range,
    measured,
    one_of,
    word,
    words,
    words_valid,
)
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied
from planning.inputs import quantities as q


@tracked()
class PouchingSystem(models.Model):
    """Generic description only. ``erosion``/``leak``: hours read off the back of the barrier."""

    assessment = models.OneToOneField(Assessment, on_delete=models.CASCADE, related_name="system")
    erosion_hours = hours("Barrier melted at")
    leak_hours = hours("Leaked under it at")
    pieces = word("Pieces", choices.Pieces)
    profile = word("Barrier profile", choices.Profile)
    convex_depth_mm = measured(q.CONVEX_DEPTH)
    compressibility = word("Gives under pressure", choices.Degree)
    flexibility = word("Bends", choices.Degree)
    opening_kind = word("Opening", choices.OpeningKind)
    opening_length_mm = measured(q.OPENING_LENGTH)
    opening_width_mm = measured(q.OPENING_WIDTH, help_text="Empty if round.")
    pouch = word("Pouch", choices.PouchKind)
    accessories = words("Also used", choices.Accessory)

    class Meta:
        constraints = [
            hours_valid("erosion_hours", "erosion_hours_valid"),
            hours_valid("leak_hours", "leak_hours_valid"),
            one_of("pieces", choices.Pieces, "system_pieces_known"),
            one_of("profile", choices.Profile, "system_profile_known"),
            one_of("compressibility", choices.Degree, "system_compressibility_known"),
            one_of("flexibility", choices.Degree, "system_flexibility_known"),
            one_of("opening_kind", choices.OpeningKind, "system_opening_kind_known"),
            one_of("pouch", choices.PouchKind, "system_pouch_known"),
            words_valid("accessories", choices.Accessory, "system_accessories_known"),
            in_range("convex_depth_mm", q.CONVEX_DEPTH, "convex_depth_range"),
            models.CheckConstraint(
                condition=Q(profile="convex") | Q(convex_depth_mm__isnull=True),
                name="convex_depth_of_convex",
            ),
            in_range("opening_length_mm", q.OPENING_LENGTH, "opening_length_range"),
            in_range("opening_width_mm", q.OPENING_WIDTH, "opening_width_range"),
        ]
        triggers = [
            final_once_signed("system_final_once_signed", OF_ASSESSMENT),
            never_emptied("system_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Pouching system {self.pk}"

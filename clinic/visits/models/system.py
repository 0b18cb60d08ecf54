"""The pouching system they arrived in, and the back of the used barrier."""

from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.charted import Charted
from clinic.visits.models.fields import (
    an_hour,
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
class PouchingSystem(Charted):
    """Generic description only. ``erosion``/``leak``: hours read off the back of the barrier."""

    assessment = models.OneToOneField(Assessment, on_delete=models.CASCADE, related_name="system")
    erosion_hours = hours("Barrier melted at")
    leak_hours = hours("Leaked under it at")
    pieces = word("Pieces", choices.Pieces)
    profile = word("Barrier profile", choices.Profile)
    convex_depth_mm = measured(q.CONVEX_DEPTH)
    compressibility = word("Compressibility", choices.Compressibility)
    flexibility = word("Flexibility", choices.Flexibility)
    opening_kind = word("Opening", choices.OpeningKind)
    opening_length_mm = measured(q.OPENING_LENGTH)
    opening_width_mm = measured(q.OPENING_WIDTH, help_text="Empty if round.")
    pouch = word("Pouch", choices.PouchKind)
    accessories = words("Also used", choices.Accessory)
    convex_depth = word("Depth by class", choices.ConvexDepth)
    lifts_hours = hours("Barrier lifts at")
    load_hours = hours("Clothing or a strap lies across at")
    placed_towards_hour = models.PositiveSmallIntegerField(
        "Put on off centre, towards", null=True, blank=True
    )
    presses = yes_no("Opening or coupling tight on the stoma")
    more_accessories = words("Other supplies", choices.OtherSupply)
    belt_tight = yes_no("Belt tight: less than two fingers under it")
    tape_border = yes_no("Barrier has a tape border")
    clear_pouch = yes_no("Pouch is clear")
    filter = yes_no("Pouch has a filter")
    begun_product = word("Started last", choices.Product)
    begun_days = measured(q.BEGUN_DAYS)
    leaks = measured(q.LEAKS)
    leak_barriers = measured(q.OF_BARRIERS)
    usual_wear_days = measured(q.USUAL_WEAR)

    class Meta:
        constraints = [
            hours_valid("erosion_hours", "erosion_hours_valid"),
            hours_valid("leak_hours", "leak_hours_valid"),
            one_of("pieces", choices.Pieces, "system_pieces_known"),
            one_of("profile", choices.Profile, "system_profile_known"),
            one_of("compressibility", choices.Compressibility, "system_compressibility_known"),
            one_of("flexibility", choices.Flexibility, "system_flexibility_known"),
            one_of("opening_kind", choices.OpeningKind, "system_opening_kind_known"),
            one_of("pouch", choices.PouchKind, "system_pouch_known"),
            words_valid("accessories", choices.Accessory, "system_accessories_known"),
            words_valid("more_accessories", choices.OtherSupply, "system_more_accessories_known"),
            in_range("convex_depth_mm", q.CONVEX_DEPTH, "convex_depth_range"),
            models.CheckConstraint(
                condition=Q(profile="convex") | Q(convex_depth_mm__isnull=True, convex_depth=""),
                name="convex_depth_of_convex",
            ),
            in_range("opening_length_mm", q.OPENING_LENGTH, "opening_length_range"),
            in_range("opening_width_mm", q.OPENING_WIDTH, "opening_width_range"),
            one_of("convex_depth", choices.ConvexDepth, "convex_depth_class_known"),
            hours_valid("lifts_hours", "lifts_hours_valid"),
            hours_valid("load_hours", "load_hours_valid"),
            an_hour("placed_towards_hour", "placed_towards_hour_range"),
            one_of("begun_product", choices.Product, "begun_product_known"),
            in_range("begun_days", q.BEGUN_DAYS, "begun_days_range"),
            models.CheckConstraint(
                condition=~Q(begun_product="") | Q(begun_days__isnull=True),
                name="begun_days_of_product",
            ),
            in_range("leaks", q.LEAKS, "leaks_range"),
            in_range("leak_barriers", q.OF_BARRIERS, "leak_barriers_range"),
            models.CheckConstraint(
                condition=Q(leaks__isnull=True, leak_barriers__isnull=True)
                | Q(
                    leaks__isnull=False,
                    leak_barriers__isnull=False,
                    leaks__lte=models.F("leak_barriers"),
                ),
                name="leaks_of_barriers",
            ),
            in_range("usual_wear_days", q.USUAL_WEAR, "usual_wear_range"),
        ]
        triggers = [
            final_once_signed("system_final_once_signed", OF_ASSESSMENT),
            never_emptied("system_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Pouching system {self.pk}"

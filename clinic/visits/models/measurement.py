"""The stoma measured at its base, and looked at."""

from functools import reduce
from operator import and_

from django.contrib.postgres.fields import ArrayField
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
    limits,
    measured,
    one_of,
    word,
    yes_no,
)
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied
from planning.inputs import quantities as q

RADII_IN_RANGE = reduce(and_, (Q(**{f"radii_mm__{i}__range": limits(q.RADIUS)}) for i in range(12)))


@tracked()
class StomaMeasurement(Charted):
    """mm throughout; protrusion is signed: negative is below the skin."""

    assessment = models.OneToOneField(
        Assessment, on_delete=models.CASCADE, related_name="measurement"
    )
    shape = word("Shape", choices.Shape)
    length_mm = measured(q.LENGTH, help_text="At the base, longest way across.")
    width_mm = measured(q.WIDTH, help_text="At the base, at right angles to the length.")
    axis_hour = models.PositiveSmallIntegerField(
        "Length points to",
        null=True,
        blank=True,
        help_text="Hour the length points to; leave empty if it runs 12 to 6.",
    )
    protrusion_mm = measured(
        q.PROTRUSION,
        help_text="Lying and sitting; write the lower. Below the skin: a minus sign.",
    )
    widest_mm = measured(q.WIDEST, help_text="If the tip is wider than the base.")
    protrusion_sitting_mm = measured(q.SITTING)
    protrusion_standing_mm = measured(q.STANDING)
    working_mm = measured(q.WORKING)
    working_hour = models.PositiveSmallIntegerField("Working opening at", null=True, blank=True)
    resting_mm = measured(q.RESTING)
    radii_mm = ArrayField(
        measured(q.RADIUS),
        size=12,
        null=True,
        blank=True,
        verbose_name=q.RADIUS.label,
        help_text="Centre to edge at 1 to 12 o'clock, for an irregular stoma.",
    )
    lumen = word("Lumen", choices.LumenPosition)
    lumen_hour = models.PositiveSmallIntegerField("Lumen points to", null=True, blank=True)
    colour = word("Colour", choices.Colour, help_text="The worst, where it differs.")
    colour_known = yes_no("A surgeon has recorded this colour, unchanged since")
    turgor = word("Feel", choices.Turgor)
    oedema = word("Swelling", choices.Oedema)
    junction = word("Mucocutaneous junction", choices.Junction)
    separation_hours = hours("Separated at")
    separation_depth_mm = measured(q.SEPARATION_DEPTH)
    separation_base_visible = yes_no("Base of the gap visible")
    separation_undermined = yes_no("Stool or urine under the skin")
    separation_contaminated = yes_no("Stool, urine or pus in the gap")
    separation_fascia_seen = yes_no("Fascia or bowel at its base")
    prolapse = word("Prolapse", choices.Presence)
    prolapse_extra_mm = measured(q.PROLAPSE_LENGTH)
    prolapse_reducible = yes_no("Reducible")
    prolapse_painful = yes_no("Painful")
    prolapse_new = yes_no("New")
    prolapse_growing = yes_no("Swelling grows")
    bleeding = word("Bleeding", choices.Bleeding)
    deep_cut = yes_no("Deep cut in the stoma")
    bleeds_on_touch = yes_no("Bleeds on touch")
    bleeding_stops_min = measured(q.BLEEDING_STOPS)
    bleeding_stopped_days = measured(q.BLEEDING_STOPPED)
    rubbed = yes_no("Cut or pale line on the mucosa")
    calibre = word("Lumen admits", choices.Calibre)
    bowel_outside = yes_no("Bowel or fat comes out beside the stoma")

    class Meta:
        constraints = [
            in_range("length_mm", q.LENGTH, "stoma_length_range"),
            in_range("width_mm", q.WIDTH, "stoma_width_range"),
            in_range("protrusion_mm", q.PROTRUSION, "stoma_protrusion_range"),
            in_range("widest_mm", q.WIDEST, "stoma_widest_range"),
            in_range("protrusion_sitting_mm", q.SITTING, "stoma_sitting_range"),
            in_range("protrusion_standing_mm", q.STANDING, "stoma_standing_range"),
            in_range("working_mm", q.WORKING, "stoma_working_range"),
            in_range("resting_mm", q.RESTING, "stoma_resting_range"),
            in_range("bleeding_stops_min", q.BLEEDING_STOPS, "stoma_bleeding_stops_range"),
            in_range("bleeding_stopped_days", q.BLEEDING_STOPPED, "stoma_bleed_stopped_range"),
            one_of("calibre", choices.Calibre, "stoma_calibre_known"),
            an_hour("working_hour", "stoma_working_hour_range"),
            an_hour("axis_hour", "stoma_axis_hour_range"),
            an_hour("lumen_hour", "stoma_lumen_hour_range"),
            in_range("separation_depth_mm", q.SEPARATION_DEPTH, "separation_depth_range"),
            in_range("prolapse_extra_mm", q.PROLAPSE_LENGTH, "prolapse_length_range"),
            hours_valid("separation_hours", "separation_hours_valid"),
            one_of("shape", choices.Shape, "stoma_shape_known"),
            one_of("lumen", choices.LumenPosition, "stoma_lumen_known"),
            one_of("colour", choices.Colour, "stoma_colour_known"),
            one_of("turgor", choices.Turgor, "stoma_turgor_known"),
            one_of("oedema", choices.Oedema, "stoma_oedema_known"),
            one_of("junction", choices.Junction, "stoma_junction_known"),
            one_of("prolapse", choices.Presence, "stoma_prolapse_known"),
            one_of("bleeding", choices.Bleeding, "stoma_bleeding_known"),
            models.CheckConstraint(
                condition=Q(radii_mm__isnull=True) | Q(radii_mm__len=12) & RADII_IN_RANGE,
                name="stoma_twelve_radii",
            ),
            models.CheckConstraint(
                condition=(Q(lumen="off_centre") & Q(lumen_hour__isnull=False))
                | Q(lumen="skin_level")
                | (Q(lumen__in=["", "centre"]) & Q(lumen_hour__isnull=True)),
                name="lumen_hour_fits",
            ),
            models.CheckConstraint(
                condition=Q(prolapse="present")
                | Q(
                    prolapse_extra_mm__isnull=True,
                    prolapse_reducible__isnull=True,
                    prolapse_painful__isnull=True,
                    prolapse_new__isnull=True,
                    prolapse_growing__isnull=True,
                ),
                name="prolapse_has_details",
            ),
            models.CheckConstraint(
                condition=Q(junction="separated", separation_hours__len__gt=0)
                | (
                    ~Q(junction="separated")
                    & Q(
                        separation_hours__isnull=True,
                        separation_depth_mm__isnull=True,
                        separation_base_visible__isnull=True,
                        separation_undermined__isnull=True,
                        separation_contaminated__isnull=True,
                        separation_fascia_seen__isnull=True,
                    )
                ),
                name="separation_has_hours",
            ),
        ]
        triggers = [
            final_once_signed("measurement_final_once_signed", OF_ASSESSMENT),
            never_emptied("measurement_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Measurement {self.pk}"

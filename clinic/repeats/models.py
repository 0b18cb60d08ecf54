"""One repeat: the second reading, and the visit's own figures as they stood when it was saved."""

from decimal import Decimal
from typing import Any

from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.repeats.choices import Withdrawn
from clinic.visits.models.fields import in_range, measured
from clinic.visits.models.kept_record import KeptRecord, kept, withdrawn_whole
from planning.inputs import quantities as q

#: Stops a slip of the hand (design value): twice what a barrier of 4 by 4 inches covers.
LARGEST_MM2 = 20_000
FIGURES = ("length_mm", "width_mm", "protrusion_mm", "area_mm2")


def _area(label: str) -> Any:
    """Worked out by the planner from what was charted; NULL is not known."""
    return models.DecimalField(
        label, max_digits=8, decimal_places=2, null=True, blank=True,
        validators=[MinValueValidator(Decimal(0)), MaxValueValidator(Decimal(LARGEST_MM2))],
    )  # fmt: skip


def _area_in_range(field: str, name: str) -> models.CheckConstraint:
    return models.CheckConstraint(
        condition=Q(**{f"{field}__isnull": True}) | Q(**{f"{field}__range": (0, LARGEST_MM2)}),
        name=name,
    )


def _both() -> Q:
    """A figure of the repeat has one of the visit beside it, and at least one pair is there."""
    paired, some = Q(), Q()
    for name in FIGURES:
        paired &= Q(**{f"{name}__isnull": True}) | Q(**{f"first_{name}__isnull": False})
        some |= Q(**{f"{name}__isnull": False})
    return paired & some


@tracked()
class RepeatMeasurement(KeptRecord):
    """Never changes the visit's own figures: ``first_…`` is a copy of them. Lengths in mm.

    ``first_by`` None: it is not known who took them. ``known_before``: the person measuring knew
    them, so that the readings are not independent. ``skin``: the patches the area comes
    from, each with ``hours``, ``inner_mm`` and ``outer_mm``; [] none found, None not measured.
    """

    measured_at = models.DateTimeField("Measured at")
    measured_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", verbose_name="Measured by"
    )
    first_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.PROTECT, related_name="+", null=True, blank=True,
        verbose_name="The visit's own figures were measured by",
    )  # fmt: skip
    known_before = models.BooleanField()
    length_mm = measured(q.LENGTH)
    width_mm = measured(q.WIDTH)
    protrusion_mm = measured(q.PROTRUSION)
    area_mm2 = _area("Damaged skin")
    skin = models.JSONField(null=True, blank=True)
    first_length_mm = measured(q.LENGTH)
    first_width_mm = measured(q.WIDTH)
    first_protrusion_mm = measured(q.PROTRUSION)
    first_area_mm2 = _area("Damaged skin")
    withdrawn_why = models.CharField(max_length=15, choices=Withdrawn, blank=True, editable=False)

    class Meta:
        verbose_name = "repeat measurement"
        ordering = ["recorded_at", "id"]
        constraints = [
            in_range("length_mm", q.LENGTH, "repeat_length_range"),
            in_range("width_mm", q.WIDTH, "repeat_width_range"),
            in_range("protrusion_mm", q.PROTRUSION, "repeat_protrusion_range"),
            in_range("first_length_mm", q.LENGTH, "repeat_first_length_range"),
            in_range("first_width_mm", q.WIDTH, "repeat_first_width_range"),
            in_range("first_protrusion_mm", q.PROTRUSION, "repeat_first_protrusion_range"),
            _area_in_range("area_mm2", "repeat_area_range"),
            _area_in_range("first_area_mm2", "repeat_first_area_range"),
            models.CheckConstraint(condition=_both(), name="repeat_has_a_pair"),
            withdrawn_whole(Withdrawn, "repeat_withdrawn_whole"),
        ]
        triggers = kept("repeat")

    def __str__(self) -> str:
        return f"Repeat {self.pk}"

    @property
    def why_not_counted(self) -> str:
        """In words; "" where it counts towards the clinic's own error."""
        if self.withdrawn_at is not None:
            return f"Withdrawn: {Withdrawn(self.withdrawn_why).label.lower()}."
        if self.known_before:
            return "The visit's own figures were known before measuring."
        if self.first_by_id is None:
            return "It is not known who took the visit's own figures."
        return ""

    @property
    def same_nurse(self) -> bool:
        return self.first_by_id == self.measured_by_id

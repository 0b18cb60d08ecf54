"""What a nurse or surgeon agreed is long-standing in one stoma: today is compared with it."""

from decimal import Decimal
from typing import Final
from uuid import uuid4

import pgtrigger
from django.conf import settings
from django.db import models
from django.db.models import F, Q

from clinic import formatting
from clinic.audit.history import tracked
from clinic.patients.models.fold import known
from clinic.patients.models.stoma import Stoma
from planning.inputs import quantities as q


class KnownKind(models.TextChoices):
    """What can be known and accepted."""

    OUTPUT_TARGET = "output_target", "Output target"
    PROLAPSE = "prolapse", "Prolapse"
    HEIGHT = "height", "Height of the stoma"
    BULGE = "bulge", "Bulge beside the stoma"
    VARICES = "varices", "Dilated veins"
    LIVER_DISEASE = "liver_disease", "Liver disease without dilated veins"
    CONFUSION = "confusion", "Confusion"
    DARK_STOMA = "dark_stoma", "Dark stoma"
    THICK_SKIN = "thick_skin", "Thick skin"
    HEALED_PYODERMA = "healed_pyoderma", "Healed pyoderma"
    CONTACT_BLEEDING = "contact_bleeding", "Drops of blood on wiping"
    PINK_URINE_OR_MUCUS = "pink_urine_or_mucus", "Pink urine or mucus"
    SEPARATION = "separation", "Mucocutaneous separation"
    NARROW_LUMEN = "narrow_lumen", "Narrow lumen"


#: Kinds that have a figure: what it says, in the same range as the same thing on a visit.
FIGURES: Final = {KnownKind(kind): quantity for kind, quantity in q.AGREED.items()}
#: Kinds that can be reducible.
GO_BACK: Final = (KnownKind.PROLAPSE, KnownKind.BULGE)


def _figure_fits() -> Q:
    fits = Q(value__isnull=True)
    for kind, quantity in FIGURES.items():
        limits = Decimal(str(quantity.lowest)), Decimal(str(quantity.highest))
        fits |= Q(kind=kind.value, value__isnull=False, value__range=limits)
    return fits


@tracked()
class KnownState(models.Model):
    """``value`` in the unit of its kind. Never changed: what no longer holds is ended, and agreed
    again. ``ended_on`` empty: it holds, until ``review_by`` has passed."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="known_states")
    kind = models.CharField("What is known", max_length=30, choices=KnownKind)
    value = models.DecimalField(
        "Agreed figure", max_digits=6, decimal_places=1, null=True, blank=True
    )
    reducible = models.BooleanField("Reducible", null=True, blank=True)
    agreed_by = models.CharField("Agreed by", max_length=100)
    agreed_on = models.DateField("Agreed on")
    since = models.DateField("There since", null=True, blank=True)
    review_by = models.DateField("To be reviewed by", null=True, blank=True)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)
    ended_on = models.DateField(null=True, blank=True, editable=False)

    class Meta:
        verbose_name = "known state"
        ordering = ["agreed_on", "id"]
        constraints = [
            models.CheckConstraint(
                condition=known("kind", KnownKind, blank=False), name="known_state_kind_known"
            ),
            models.CheckConstraint(condition=_figure_fits(), name="known_state_figure_fits"),
            models.CheckConstraint(
                condition=Q(reducible__isnull=True) | Q(kind__in=[k.value for k in GO_BACK]),
                name="known_state_goes_back",
            ),
            models.CheckConstraint(
                condition=Q(agreed_by__regex=r"\S"), name="known_state_agreed_by_somebody"
            ),
            models.CheckConstraint(
                condition=Q(since__isnull=True) | Q(since__lte=F("agreed_on")),
                name="known_state_since_before_agreed",
            ),
            models.CheckConstraint(
                condition=Q(review_by__isnull=True) | Q(review_by__gte=F("agreed_on")),
                name="known_state_review_after_agreed",
            ),
            models.CheckConstraint(
                condition=Q(ended_on__isnull=True) | Q(ended_on__gte=F("agreed_on")),
                name="known_state_ended_after_agreed",
            ),
        ]
        triggers = [
            pgtrigger.ReadOnly(name="known_state_only_ended", exclude=["ended_on"]),
            pgtrigger.Protect(name="known_state_kept", operation=pgtrigger.Delete),
        ]

    def __str__(self) -> str:
        return f"Known state {self.pk}"

    @property
    def patient(self) -> models.Model:
        """Whose it is, for the audit trail."""
        return self.stoma.patient

    @property
    def words(self) -> str:
        """``Prolapse, 40 mm, reducible: agreed by Dr Hale, 3 Mar 2026, review by 3 Sep 2026``."""
        said = [KnownKind(self.kind).label]
        if self.value is not None:
            unit = FIGURES[KnownKind(self.kind)].unit
            said.append(f"{formatting.number(self.value)} {unit}")
        if self.reducible is not None:
            said.append("reducible" if self.reducible else "not reducible")
        if self.since:
            said.append(f"since {formatting.day(self.since)}")
        agreed = f"agreed by {self.agreed_by}, {formatting.day(self.agreed_on)}"
        review = f", review by {formatting.day(self.review_by)}" if self.review_by else ""
        return f"{', '.join(said)}: {agreed}{review}"

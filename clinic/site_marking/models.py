"""A marking before surgery, its one or two sites, and where the stoma was made in the end."""

from typing import Any
from uuid import uuid4

import pgtrigger
from django.conf import settings
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from clinic import formatting
from clinic.audit.history import tracked
from clinic.patients.models import Patient, Site, Stoma, StomaKind
from clinic.patients.models.fold import known
from clinic.site_marking.choices import CRITERIA, POSTURES, Rank, Used, Withdrawn
from clinic.visits.models.finality import never_emptied

#: Farther from the navel than any site (mm); stops a slip of the hand (design value).
FARTHEST = 300
#: Half the drawing's width and height, in its own steps.
EDGE = 100


def asked(label: str) -> Any:
    """Yes, no, or NULL: not checked."""
    return models.BooleanField(label, null=True, blank=True)


def words(label: str, most: int = 200) -> Any:
    """Free text; "" is not recorded."""
    return models.CharField(label, max_length=most, blank=True)


@tracked()
class SiteMarking(models.Model):
    """Of a person who may have no stoma yet. Never changed: marked again, the newest counts; a
    mistaken one is withdrawn. ``planned`` "": not known which kind."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    patient = models.ForeignKey(Patient, models.PROTECT, related_name="site_markings")
    marked_on = models.DateField("Marked on")
    marked_by = models.CharField("Marked by", max_length=100)
    planned = models.CharField("Stoma planned", max_length=12, choices=StomaKind, blank=True)
    consent = asked("The person agreed to the marking")
    agreed_with = words("Agreed with, and who was present")
    surgeon_informed = asked("The surgeon was informed")
    surgeon = words("Surgeon", 100)
    wheelchair = asked("Sits in a wheelchair")
    skin_reacts = asked("Skin reacts to ink or film")
    belt_line = words("Belt line, braces")
    scars = words("Scars and folds")
    work = words("Work and sport")
    faith = words("Religion and customs that matter")
    marked_with = words("Marked with")
    note = models.TextField("Note", blank=True, max_length=1000)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)
    withdrawn_why = models.CharField(max_length=15, choices=Withdrawn, blank=True, editable=False)

    class Meta:
        verbose_name = "site marking"
        ordering = ["-marked_on", "-recorded_at", "-id"]
        constraints = [
            models.CheckConstraint(
                condition=known("planned", StomaKind, blank=True)
                & known("withdrawn_why", Withdrawn, blank=True),
                name="marking_words_are_known",
            ),
            models.CheckConstraint(condition=Q(marked_by__regex=r"\S"), name="marking_by_somebody"),
        ]
        triggers = [
            pgtrigger.ReadOnly(name="marking_only_withdrawn", exclude=["withdrawn_why"]),
            pgtrigger.Protect(name="marking_kept", operation=pgtrigger.Delete),
            never_emptied("marking_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Site marking {self.pk}"


class MarkedSite(models.Model):
    """One site. ``side_mm`` and ``height_mm`` from the navel, in the direction of ``quadrant``;
    NULL not measured. ``place_x`` (to the patient's left) and ``place_y`` (to the head) are on the
    drawing, which has no scale: -100 to 100 from the navel."""

    marking = models.ForeignKey(SiteMarking, models.PROTECT, related_name="sites")
    rank = models.CharField(max_length=1, choices=Rank)
    quadrant = models.CharField("Where", max_length=12, choices=Site)
    place_x = models.SmallIntegerField(null=True, blank=True)
    place_y = models.SmallIntegerField(null=True, blank=True)
    side_mm = models.PositiveSmallIntegerField(
        "From the navel to the side", null=True, blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(FARTHEST)],
    )  # fmt: skip
    height_mm = models.PositiveSmallIntegerField(
        "From the navel up or down", null=True, blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(FARTHEST)],
    )  # fmt: skip
    in_rectus = asked(CRITERIA["in_rectus"])
    on_flat_skin = asked(CRITERIA["on_flat_skin"])
    clear_of_edges = asked(CRITERIA["clear_of_edges"])
    below_ribs = asked(CRITERIA["below_ribs"])
    clear_of_belt = asked(CRITERIA["clear_of_belt"])
    seen_by_person = asked(CRITERIA["seen_by_person"])
    barrier_tried = asked(CRITERIA["barrier_tried"])
    lying = asked(POSTURES["lying"])
    sitting = asked(POSTURES["sitting"])
    standing = asked(POSTURES["standing"])
    bending = asked(POSTURES["bending"])

    class Meta:
        ordering = ["rank"]
        constraints = [
            models.UniqueConstraint(fields=["marking", "rank"], name="marked_site_rank_once"),
            models.CheckConstraint(
                condition=known("quadrant", Site, blank=False) & known("rank", Rank, blank=False),
                name="marked_site_words_are_known",
            ),
            models.CheckConstraint(
                condition=Q(place_x__isnull=True, place_y__isnull=True)
                | Q(
                    place_x__isnull=False,
                    place_y__isnull=False,
                    place_x__range=(-EDGE, EDGE),
                    place_y__range=(-EDGE, EDGE),
                ),
                name="marked_site_on_the_drawing",
            ),
            models.CheckConstraint(
                condition=(Q(side_mm__isnull=True) | Q(side_mm__lte=FARTHEST))
                & (Q(height_mm__isnull=True) | Q(height_mm__lte=FARTHEST)),
                name="marked_site_mm_in_range",
            ),
        ]
        triggers = [
            pgtrigger.Protect(
                name="marked_site_final", operation=pgtrigger.Update | pgtrigger.Delete
            ),
            never_emptied("marked_site_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Marked site {self.pk}"

    @property
    def place_words(self) -> str:
        """``Left lower; from the navel 60 mm to the side, 40 mm down``."""
        place = str(Site(self.quadrant).label)
        up = "up" if self.quadrant in (Site.RIGHT_UPPER, Site.LEFT_UPPER) else "down"
        measured = [
            f"{formatting.mm(self.side_mm)} to the side" if self.side_mm is not None else "",
            f"{formatting.mm(self.height_mm)} {up}" if self.height_mm is not None else "",
        ]
        said = ", ".join(part for part in measured if part)
        return f"{place}; from the navel {said}" if said else f"{place}; not measured"


class MarkingPhoto(models.Model):
    """The marked abdomen; re-encoded as every photo, never public."""

    marking = models.OneToOneField(SiteMarking, models.PROTECT, related_name="photo")
    image = models.BinaryField()
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()

    class Meta:
        triggers = [
            pgtrigger.Protect(
                name="marking_photo_final", operation=pgtrigger.Update | pgtrigger.Delete
            ),
            never_emptied("marking_photo_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Photo of marking {self.marking_id}"


@tracked()
class SiteUsed(models.Model):
    """Which of the marked sites the stoma was made at; another one says why."""

    stoma = models.OneToOneField(Stoma, models.PROTECT, related_name="site_used")
    marking = models.ForeignKey(SiteMarking, models.PROTECT, related_name="used")
    used = models.CharField("Made at", max_length=10, choices=Used)
    why = words("Why")
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now=True)

    class Meta:
        constraints = [
            models.CheckConstraint(
                condition=known("used", Used, blank=False), name="site_used_is_known"
            ),
            models.CheckConstraint(
                condition=~Q(used=Used.ANOTHER) | Q(why__regex=r"\S"),
                name="site_used_another_says_why",
            ),
        ]
        triggers = [never_emptied("site_used_never_emptied")]

    def __str__(self) -> str:
        return f"Site used {self.pk}"

    @property
    def patient(self) -> models.Model:
        """Whose it is, for the audit trail."""
        return self.stoma.patient

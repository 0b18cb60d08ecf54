"""One trial from before this record, as the person, a letter or another record says."""

from datetime import date
from uuid import uuid4

import pgtrigger
from django.conf import settings
from django.contrib.postgres.fields import ArrayField
from django.db import models
from django.db.models import Q

from clinic import formatting
from clinic.audit.history import tracked
from clinic.patients.models import Stoma
from clinic.patients.models.fold import known
from clinic.patients.models.sensitivity import PARTIAL_DATE, partial_date_words
from clinic.trials.choices import ConvexDepth, Feel, KnownFrom, Outcome, Profile, Supply
from clinic.visits.models.finality import never_emptied


def _partial(field: str) -> models.CheckConstraint:
    return models.CheckConstraint(
        condition=Q(**{field: ""}) | Q(**{f"{field}__regex": PARTIAL_DATE}),
        name=f"earlier_trial_{field}_is_a_date",
    )


@tracked()
class EarlierTrial(models.Model):
    """``began`` and ``ended``: a day, a month or a year as far as it is known, "" not known.

    Of a barrier known only in part, ``profile``, ``feel`` and ``depth`` hold what is known.
    """

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    stoma = models.ForeignKey(Stoma, models.PROTECT, related_name="earlier_trials")
    began = models.CharField("From", max_length=10, blank=True, validators=[partial_date_words])
    ended = models.CharField("To", max_length=10, blank=True, validators=[partial_date_words])
    profile = models.CharField("Barrier", max_length=10, choices=Profile, blank=True)
    feel = models.CharField("Its feel", max_length=10, choices=Feel, blank=True)
    depth = models.CharField("Depth of the dome", max_length=10, choices=ConvexDepth, blank=True)
    supplies = ArrayField(
        models.CharField(max_length=20, choices=Supply),
        verbose_name="What else was tried",
        default=list,
        blank=True,
    )
    size = models.CharField("Size", max_length=60, blank=True)
    technique = models.CharField("Technique", max_length=200, blank=True)
    outcome = models.CharField("Outcome", max_length=10, choices=Outcome)
    ended_because = models.CharField("Why it ended", max_length=200, blank=True)
    known_from = models.CharField("Source", max_length=15, choices=KnownFrom)
    recorded_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    recorded_at = models.DateTimeField(auto_now_add=True)

    class Meta:
        verbose_name = "earlier trial"
        ordering = ["recorded_at", "id"]
        constraints = [
            _partial("began"),
            _partial("ended"),
            models.CheckConstraint(
                condition=known("profile", Profile, blank=True)
                & known("feel", Feel, blank=True)
                & known("depth", ConvexDepth, blank=True)
                & known("outcome", Outcome, blank=False)
                & known("known_from", KnownFrom, blank=False),
                name="earlier_trial_words_are_known",
            ),
            models.CheckConstraint(
                condition=Q(supplies__contained_by=list(Supply.values)),
                name="earlier_trial_supplies_known",
            ),
            models.CheckConstraint(
                condition=~Q(profile="")
                | ~Q(supplies=[])
                | Q(size__regex=r"\S")
                | Q(technique__regex=r"\S"),
                name="earlier_trial_of_something",
            ),
            models.CheckConstraint(
                condition=Q(depth="") | Q(profile=Profile.CONVEX),
                name="earlier_trial_depth_of_a_dome",
            ),
            models.CheckConstraint(
                condition=Q(feel="") | ~Q(profile=""), name="earlier_trial_feel_of_a_barrier"
            ),
        ]
        triggers = [
            pgtrigger.ReadOnly(name="earlier_trial_stays", fields=["stoma", "uuid"]),
            never_emptied("earlier_trial_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Earlier trial {self.pk}"

    @property
    def patient(self) -> models.Model:
        """Whose it is, for the audit trail."""
        return self.stoma.patient

    @property
    def age_key(self) -> tuple[str, str]:
        """Sorts the oldest first; without any date it counts as oldest."""
        return (self.ended or self.began, self.began)

    @property
    def when_words(self) -> str:
        """``2019 to Mar 2021``; what is not known is said."""
        if not self.began and not self.ended:
            return "when is not known"
        if not self.began:
            return f"until {formatting.partial_day(self.ended)} (start not known)"
        if not self.ended:
            return f"from {formatting.partial_day(self.began)} (end not known)"
        if self.began == self.ended:
            return formatting.partial_day(self.began)
        return f"{formatting.partial_day(self.began)} to {formatting.partial_day(self.ended)}"

    @property
    def what_words(self) -> str:
        """``Convex barrier, soft or flexible, depth not known; ring; opening 35 mm``."""
        parts = [
            self.barrier_words,
            *(Supply(key).label.lower() for key in self.supplies),
            self.size and f"size: {self.size}",
            self.technique and f"technique: {self.technique}",
        ]
        words = "; ".join(part for part in parts if part)
        return words[:1].upper() + words[1:]

    @property
    def barrier_words(self) -> str:
        """What is known of the barrier; "" where none was tried."""
        if not self.profile:
            return ""
        words = [f"{Profile(self.profile).label.lower()} barrier"]
        words.append(Feel(self.feel).label.lower() if self.feel else "feel not known")
        if self.profile == Profile.CONVEX:
            depth = ConvexDepth(self.depth).label.lower() if self.depth else ""
            words.append(depth or "depth not known")
        return ", ".join(words)


def first_day(text: str) -> date:
    """The earliest day that a year, month or day may mean; raises ``ValueError``."""
    year, *rest = (int(part) for part in text.split("-"))
    return date(year, *[*rest, 1, 1][:2])

"""What the clinician did with one recommendation."""

from datetime import date

from django.conf import settings
from django.db import models
from django.db.models import Q

from clinic import formatting
from clinic.audit.history import tracked
from clinic.visits.models import Assessment
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied


class Choice(models.TextChoices):
    ACCEPTED = "accepted", "Accept"
    CHANGED = "changed", "Change"
    DROPPED = "dropped", "Drop"


#: Something else, in the clinician's own words: a note from which nothing is worked out.
OWN_WORDS = "words"


@tracked()
class Decision(models.Model):
    """``key`` is the recommendation's own; ``text`` what it said when decided, so that a plan
    that has moved on since asks again; ``about`` names all that was shown of it.

    ``chosen``: what was chosen from the planner's alternatives, as its code, or that ``changed_to``
    is a note; "" where nothing is chosen from, and for what was decided before there was a choice.
    ``decided_by`` and ``decided_at`` are not known of those either. ``at``: of the next visit
    alone, None where no time is agreed.
    """

    assessment = models.ForeignKey(Assessment, on_delete=models.CASCADE, related_name="decisions")
    key = models.CharField(max_length=120)
    text = models.TextField()
    choice = models.CharField(max_length=10, choices=Choice.choices)
    chosen = models.CharField("chosen instead", max_length=60, blank=True)
    changed_to = models.CharField("what instead", max_length=500, blank=True)
    reason = models.CharField("why", max_length=500, blank=True)
    at = models.TimeField("time", null=True, blank=True)
    about = models.CharField(max_length=16, blank=True)
    decided_by = models.ForeignKey(
        settings.AUTH_USER_MODEL, on_delete=models.PROTECT, null=True, blank=True, related_name="+"
    )
    decided_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        ordering = ["id"]
        constraints = [
            models.UniqueConstraint(fields=["assessment", "key"], name="one_decision_a_key"),
            models.CheckConstraint(
                condition=Q(choice__in=Choice.values), name="decision_choice_known"
            ),
            models.CheckConstraint(
                condition=Q(choice="accepted") | ~Q(reason=""), name="decision_has_reason"
            ),
            models.CheckConstraint(
                condition=Q(at__isnull=True) | Q(key="follow_up"), name="decision_time_of_visit"
            ),
            models.CheckConstraint(
                condition=~Q(choice="changed") | ~Q(changed_to=""), name="decision_says_what"
            ),
            models.CheckConstraint(
                condition=Q(chosen="") | Q(choice="changed"), name="decision_chosen_is_a_change"
            ),
        ]
        triggers = [
            final_once_signed("decision_final_once_signed", OF_ASSESSMENT),
            never_emptied("decision_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Decision {self.pk}"

    @property
    def changed_words(self) -> str:
        """``changed_to``, a date as dates are written everywhere."""
        try:
            return formatting.day(date.fromisoformat(self.changed_to))
        except ValueError:
            return self.changed_to

"""The answers of one person about one stoma at one visit."""

from functools import reduce
from operator import or_
from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.patient_answers.choices import How, Withdrawn
from clinic.patient_answers.questions import BY_KEY, QUESTIONS
from clinic.patients.models.fold import known
from clinic.visits.models.kept_record import KeptRecord, kept, withdrawn_whole

LEAST, MOST = 0, 10


def _rating(key: str) -> Any:
    """0 to 10; NULL was not answered, which is not known."""
    return models.PositiveSmallIntegerField(
        BY_KEY[key].label, null=True, blank=True,
        validators=[MinValueValidator(LEAST), MaxValueValidator(MOST)],
    )  # fmt: skip


@tracked()
class PatientAnswers(KeptRecord):
    """Never changed; typed in wrongly, they are withdrawn and typed in again. There is no total.

    ``pain`` NULL also where pain was charted at the visit itself: it is not asked twice.
    """

    how = models.CharField("How it was answered", max_length=10, choices=How)
    pain = _rating("pain")
    itching = _rating("itching")
    worry = _rating("worry")
    kept_from = _rating("kept_from")
    sure = _rating("sure")
    withdrawn_why = models.CharField(max_length=15, choices=Withdrawn, blank=True, editable=False)

    class Meta:
        verbose_name = "patient's answers"
        ordering = ["recorded_at", "id"]
        constraints = [
            *(
                models.CheckConstraint(
                    condition=Q(**{f"{one.key}__isnull": True})
                    | Q(**{f"{one.key}__range": (LEAST, MOST)}),
                    name=f"answers_{one.key}_range",
                )
                for one in QUESTIONS
            ),
            models.CheckConstraint(
                condition=reduce(or_, (Q(**{f"{one.key}__isnull": False}) for one in QUESTIONS)),
                name="answers_to_something",
            ),
            models.CheckConstraint(
                condition=known("how", How, blank=False), name="answers_how_is_known"
            ),
            models.UniqueConstraint(
                fields=["assessment"],
                condition=Q(withdrawn_at__isnull=True),
                name="answers_once_a_visit",
            ),
            withdrawn_whole(Withdrawn, "answers_withdrawn_whole"),
        ]
        triggers = kept("answers")

    def __str__(self) -> str:
        return f"Answers {self.pk}"

    def rating(self, key: str) -> int | None:
        """What was answered to one question."""
        found: int | None = getattr(self, key)
        return found

"""What comes out, and how the person is."""

from typing import Any

from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.fields import one_of, within, word, words, words_valid, yes_no
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied


def _hours_of_time(label: str, help_text: str = "") -> Any:
    return models.DecimalField(
        label,
        max_digits=5,
        decimal_places=1,
        null=True,
        blank=True,
        validators=[MinValueValidator(0), MaxValueValidator(1000)],
        help_text=help_text,
    )


@tracked()
class OutputAssessment(models.Model):
    """Volume in mL/24 h. ``symptoms`` are those present; the rest were asked about and absent
    only where ``others_absent`` says so."""

    assessment = models.OneToOneField(Assessment, on_delete=models.CASCADE, related_name="output")
    volume_ml_24h = models.PositiveIntegerField(
        "Volume", null=True, blank=True, validators=[MaxValueValidator(20000)]
    )
    consistency = word("Consistency", choices.Consistency)
    watery_for_hours = _hours_of_time("Watery for")
    hours_without_output = _hours_of_time("Nothing out for")
    urine_signs = words("Urine", choices.UrineSign)
    symptoms = words("Today they have", choices.Symptom)
    others_absent = yes_no("Asked about all the others, and they have none of them")
    pain_0_10 = models.PositiveSmallIntegerField(
        "Pain at the stoma, 0 to 10", null=True, blank=True, validators=[MaxValueValidator(10)]
    )

    class Meta:
        constraints = [
            within("volume_ml_24h", 0, 20000, "output_volume_range"),
            within("watery_for_hours", 0, 1000, "output_watery_range"),
            within("hours_without_output", 0, 1000, "output_silence_range"),
            within("pain_0_10", 0, 10, "output_pain_range"),
            one_of("consistency", choices.Consistency, "output_consistency_known"),
            words_valid("urine_signs", choices.UrineSign, "output_urine_known"),
            words_valid("symptoms", choices.Symptom, "output_symptoms_known"),
        ]
        triggers = [
            final_once_signed("output_final_once_signed", OF_ASSESSMENT),
            never_emptied("output_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Output {self.pk}"

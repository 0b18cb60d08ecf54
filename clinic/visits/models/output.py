"""What comes out, and how the person is."""

from django.db import models

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.fields import (
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
class OutputAssessment(models.Model):
    """Volume in mL/24 h, weight in kg. ``symptoms`` are those present; the rest were asked about
    and absent only where ``others_absent`` says so."""

    assessment = models.OneToOneField(Assessment, on_delete=models.CASCADE, related_name="output")
    volume_ml_24h = measured(q.VOLUME)
    consistency = word("Consistency", choices.Consistency)
    watery_for_hours = measured(q.WATERY_FOR)
    hours_without_output = measured(q.NOTHING_FOR)
    weight_kg = measured(q.WEIGHT)
    urine_signs = words("Urine", choices.UrineSign)
    symptoms = words("Today they have", choices.Symptom)
    others_absent = yes_no("Asked about all the others, and they have none of them")
    pain_0_10 = measured(q.PAIN)

    class Meta:
        constraints = [
            in_range("volume_ml_24h", q.VOLUME, "output_volume_range"),
            in_range("watery_for_hours", q.WATERY_FOR, "output_watery_range"),
            in_range("hours_without_output", q.NOTHING_FOR, "output_silence_range"),
            in_range("weight_kg", q.WEIGHT, "output_weight_range"),
            in_range("pain_0_10", q.PAIN, "output_pain_range"),
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

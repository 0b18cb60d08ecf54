"""Earlier trials of one stoma."""

from clinic.trials.models import EarlierTrial


def earlier_trials_of(stoma_id: int) -> list[EarlierTrial]:
    """The oldest first; those without a date before all others. One query."""
    rows = EarlierTrial.objects.filter(stoma_id=stoma_id).select_related("recorded_by")
    return sorted(rows, key=lambda row: row.age_key)

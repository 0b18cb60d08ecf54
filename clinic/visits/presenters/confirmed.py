"""What was found as at the last visit, in words."""

from clinic import formatting
from clinic.visits.models import Confirmation


def confirmation_words(row: Confirmation) -> str:
    """``As on 3 May 2026: looked at by A. Nurse, 14 May 2026 14:05``."""
    against = formatting.day(row.against.visit.happened_at)
    return f"As on {against}: looked at by {row.by.display_name}, {formatting.moment(row.at)}"

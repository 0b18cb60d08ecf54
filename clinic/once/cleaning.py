"""Keys of forms that no page still holds."""

from datetime import datetime, timedelta

from clinic.once.models import SentForm

#: Longer than any page stays open: a session ends after an hour idle (design value).
KEPT = timedelta(days=7)


def forget_before(now: datetime) -> int:
    """Forget the keys older than ``KEPT``; how many."""
    return SentForm.objects.filter(at__lt=now - KEPT).delete()[0]

"""Hold a draft while it is written to, so that a signature and a change never cross."""

from clinic.visits.models import Visit
from clinic.visits.policies import check_can_edit


def locked_draft(visit: Visit) -> Visit:
    """The visit, locked until the transaction ends. Raises ``NotAllowedNow`` once signed."""
    locked = Visit.objects.select_for_update().get(pk=visit.pk)
    check_can_edit(locked)
    return locked

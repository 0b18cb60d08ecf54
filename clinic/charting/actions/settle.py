"""Make one version out of what is stored and a save that came too late."""

from django.db import transaction
from django.http import HttpRequest, QueryDict

from clinic.accounts.models import User
from clinic.charting.page import ChartPage, save_page
from clinic.charting.versions import Versions
from clinic.visits.actions.save import Turn
from clinic.visits.locking import locked_draft
from clinic.visits.models import Assessment, ConflictCopy
from clinic.visits.queries import with_parts


class AlreadySettled(Exception):  # noqa: N818 - not a fault, another page's doing
    """The copy is gone: settled on another page. Nothing was written."""


class NotSettled(Exception):  # noqa: N818 - not a fault, there is more to choose
    """Something was not chosen, or was chosen from what is no longer there. Nothing was written,
    the copy is kept; ``versions`` says what to choose now."""

    def __init__(self, versions: Versions) -> None:
        self.versions = versions
        super().__init__("There is more to choose.")


@transaction.atomic
def settle_copy(
    *,
    assessment: Assessment,
    copy: int,
    post: QueryDict,
    by: User,
    request: HttpRequest | None = None,
) -> ChartPage:
    """Save what was chosen and take the copy away, both or neither.

    ``post`` holds each choice with the values it was made from. Raises ``NotSettled``,
    ``AlreadySettled``, and ``NotAllowedNow`` once the visit is signed.
    """
    # Held from before the comparison until the save: no one's entry comes between them.
    visit = locked_draft(assessment.visit)
    kept = ConflictCopy.objects.filter(pk=copy, assessment=assessment, by=by).first()
    if kept is None:
        raise AlreadySettled
    versions = Versions(with_parts().get(pk=assessment.pk), kept, post)
    if versions.moved_on or versions.unchosen:
        raise NotSettled(versions)
    page = save_page(
        versions.stored, data=versions.merged(), turn=Turn(visit.version), by=by, request=request
    )
    kept.delete()
    return page

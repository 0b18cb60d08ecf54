"""Whose sheets may be printed by whom: the visit's state and the person's rights together."""

from clinic.accounts.models import User
from clinic.accounts.permissions import Right, may
from clinic.documents.kinds import CLINICAL
from clinic.documents.models import PrintedDocument
from clinic.visits.models import Visit


def may_print(user: User, visit: Visit) -> bool:
    """A signed visit's sheet by anyone who prints; a draft's only by anyone who may chart it."""
    return may(user, Right.PRINT) and (visit.is_signed or may(user, Right.CHART))


def may_open(user: User, document: PrintedDocument) -> bool:
    """What was printed, again: a letter is between clinicians; what was printed from a draft is
    for anyone who charts, and for other clinicians once the visit is signed."""
    clinical = may(user, Right.SEE_CLINICAL)
    if not may(user, Right.PRINT) or (document.kind in CLINICAL and not clinical):
        return False
    visit = document.assessment.visit if document.assessment else None
    if document.signed or visit is None:
        return True
    return may(user, Right.CHART) or (clinical and visit.is_signed)

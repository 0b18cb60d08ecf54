"""What the state of a visit allows; who may do it is ``accounts.permissions``."""

from datetime import date

from django.core.exceptions import PermissionDenied

from clinic import formatting
from clinic.patients.models import Stoma
from clinic.visits.models import Visit


class NotAllowedNow(PermissionDenied):
    """The record's state forbids this; the message says why, in words, also to the person."""

    #: A page that nothing else catches says it (accounts/errors.py), and no one was refused.
    is_of_the_record = True


def can_edit(visit: Visit) -> bool:
    """Only a draft changes."""
    return visit.is_draft


def check_can_edit(visit: Visit) -> None:
    """Raises ``NotAllowedNow`` unless ``can_edit``."""
    if not can_edit(visit):
        instead = " Add an addendum instead." if visit.is_signed else ""
        raise NotAllowedNow(f"{draft_ended(visit)}{instead}")


def draft_ended(visit: Visit) -> str:
    """Who ended the draft, and when; its last save was the one that ended it."""
    ended = "This visit was signed" if visit.is_signed else "This draft was discarded"
    who = visit.saved_by.display_name if visit.saved_by else "someone"
    return f"{ended} on {formatting.moment(visit.saved_at)} by {who}."


def can_add_addendum(visit: Visit) -> bool:
    """Only a signed visit takes one."""
    return visit.is_signed


def why_not_assess(stoma: Stoma, on: date) -> str:
    """Why ``stoma`` cannot be assessed on a day; "" where it can."""
    if stoma.closed_on and stoma.closed_on <= on:
        return "This stoma was closed before the visit."
    if stoma.surgery_date and on < stoma.surgery_date:
        return "The visit is before this stoma's surgery."
    return ""

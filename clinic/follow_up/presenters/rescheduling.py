"""Each time a next visit was moved, in words: from which day, by whom and why."""

from __future__ import annotations

from clinic import formatting
from clinic.follow_up.models import FollowUp, Move, MoveReason


def move_sentences(follow_up: FollowUp, *, clinical: bool) -> tuple[str, ...]:
    """The first move first. ``clinical``: with the clinicians' own words, which the front desk
    does not see; nor that somebody is to be seen sooner."""
    return tuple(_sentence(move, clinical=clinical) for move in follow_up.moves.all())


def _sentence(move: Move, *, clinical: bool) -> str:
    was = formatting.day_and_time(move.was, move.was_at)
    became = formatting.day_and_time(move.became, move.became_at)
    hidden = move.reason == MoveReason.SOONER and not clinical
    why = "" if hidden else f": {MoveReason(move.reason).label}"
    own = f" ({move.words})" if clinical and move.words else ""
    late = ", later than asked for, confirmed" if move.late_confirmed else ""
    by = f"{move.by.display_name}, {formatting.moment(move.at)}"
    return f"Moved from {was} to {became}{why}{own}{late}. By {by}"

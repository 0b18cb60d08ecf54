"""Trials typed in from before this record, as the planner reads them."""

from __future__ import annotations

from clinic.trials.choices import Feel, Outcome
from clinic.trials.models import EarlierTrial
from clinic.trials.queries import earlier_trials_of
from planning.inputs.findings import ConvexDepth, Degree, PouchingSystem, Profile, Trial
from planning.supplies.earlier_trials import EarlierOutcome, earlier_trial

_FEEL = {Feel.SOFT: Degree.MORE, Feel.FIRM: Degree.LESS}


def trials_before_record(stoma_id: int) -> tuple[Trial, ...]:
    """The oldest first. One query."""
    return tuple(_trial(row) for row in earlier_trials_of(stoma_id))


def _trial(row: EarlierTrial) -> Trial:
    feel = _FEEL[Feel(row.feel)] if row.feel else None
    convex = row.profile == Profile.CONVEX.value
    barrier = PouchingSystem(
        profile=Profile(row.profile) if row.profile else None,
        convex_depth=ConvexDepth(row.depth) if row.depth else None,
        compressibility=feel if convex else None,
        flexibility=None if convex else feel,
    )
    return earlier_trial(barrier, row.supplies, EarlierOutcome(Outcome(row.outcome).value))

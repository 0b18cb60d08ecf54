"""Nothing in a plan contradicts itself: checks over the finished plan, one file a kind.

In a sound rule set no check finds anything, and tests hold it to that. Where one does, the plan is
still given, without what contradicts it, and a notice says so to the clinician.
"""

from planning.consistency.gate import consistent, faults

__all__ = ["consistent", "faults"]

"""Every statement taken from a published source: what is claimed, what was read for it, and what
there bears it out.

Rules and figures cite a statement, never a source alone. What no source says cites
``common_practice``, ``from_memory`` or ``design_value`` instead, alone or beside a statement: the
statement then carries the finding, and how soon, how much or for whom is ours.
"""

from __future__ import annotations

from typing import Final

from planning.evidence.claims import fitting, output, skin, stoma, supplies
from planning.evidence.claims.claim import Claim, source_id

ALL: Final[tuple[Claim, ...]] = (
    *skin.CLAIMS,
    *stoma.CLAIMS,
    *output.CLAIMS,
    *fitting.CLAIMS,
    *supplies.CLAIMS,
)
#: By id.
CLAIMS: Final[dict[str, Claim]] = {claim.id: claim for claim in ALL}

__all__ = ["ALL", "CLAIMS", "Claim", "source_id"]

"""Stage 4: what the system must do for this stoma, each need with its finding and source."""

from planning.needs.consistency import agreed
from planning.needs.fit import fit_needs
from planning.needs.pouch import pouch_needs
from planning.needs.register import ESSENTIAL, NEEDS
from planning.needs.skin import skin_needs
from planning.ranked_facts import RankedFacts
from planning.results.plan import Need


def needs_of(situation: RankedFacts) -> tuple[Need, ...]:
    """Every need, fit before skin before pouch, each key once."""
    return (*fit_needs(situation), *skin_needs(situation), *pouch_needs(situation))


__all__ = ["ESSENTIAL", "NEEDS", "agreed", "needs_of"]

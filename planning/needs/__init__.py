"""Stage 4: what the system must do for this stoma, each need with its finding and source."""

from planning.needs.agreed import agreed
from planning.needs.fit import fit_needs
from planning.needs.pouch import pouch_needs
from planning.needs.skin import skin_needs
from planning.plan import Need
from planning.situation import Situation

#: Needs that come first; the others are met where nothing of these is given up.
ESSENTIAL = frozenset(
    {
        "lift_rim",
        "flexible_surface",
        "relieve_pressure",
        "level_low_side",
        "fill_crease",
        "cover_gap",
        "absorb_moisture",
        "absorb_wound",
        "treat_yeast",
        "other_adhesive",
        "drain_urine",
        "empty_often",
        "hold_volume",
    }
)


def needs_of(situation: Situation) -> tuple[Need, ...]:
    """Every need, fit before skin before pouch, each key once."""
    return (*fit_needs(situation), *skin_needs(situation), *pouch_needs(situation))


__all__ = ["ESSENTIAL", "agreed", "needs_of"]

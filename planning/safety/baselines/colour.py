"""A dark stoma whose colour a surgeon recorded as usual."""

from __future__ import annotations

from planning.evidence.thresholds import EARLY_ISCHAEMIA
from planning.facts.colour import colours
from planning.facts.derive import Facts
from planning.inputs.findings import Colour, Turgor
from planning.safety.signs import belly_pain


def colour_usual(facts: Facts) -> bool:
    """A dark stoma of which a surgeon recorded this very colour, with every good sign today,
    and no pain that the skin does not explain.

    Never in the first week, nor where the day is not known: there only a look on the same day
    would do, and when the surgeon looked is not recorded. A part of another colour is not what
    the surgeon recorded.
    """
    m, days = facts.findings.measurement, facts.findings.stoma.days_since_surgery
    settled = days is not None and days > EARLY_ISCHAEMIA.value
    good = m.turgor is Turgor.MOIST_SOFT and m.bleeds_on_touch is True
    same = colours(facts) <= {m.colour, Colour.PINK_RED}
    return bool(m.colour_known) and settled and good and same and not belly_pain(facts)

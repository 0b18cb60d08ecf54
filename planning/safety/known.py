"""Whether a prolapse or bulge was there before: agreed, said today, or seen at a visit before."""

from planning.facts.derive import Facts
from planning.inputs.findings import BaselineKind, Bulge, Prolapse
from planning.safety.baselines import was_there


def prolapse_known(prolapse: Prolapse, facts: Facts) -> bool:
    """Not recorded, and no earlier visit had one: it does not count as known."""
    if prolapse.new is not None:
        return not prolapse.new
    before = any(visit.measurement.prolapse for visit in facts.history.previous)
    return before or was_there(facts, BaselineKind.PROLAPSE)


def bulge_known(bulge: Bulge, facts: Facts) -> bool:
    """As for a prolapse."""
    if bulge.new is not None:
        return not bulge.new
    before = any(visit.abdomen.bulges for visit in facts.history.previous)
    return before or was_there(facts, BaselineKind.BULGE)

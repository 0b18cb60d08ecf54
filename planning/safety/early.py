"""The first 30 days after surgery, in which pain and colour count for more."""

from planning.evidence.thresholds import EARLY_DAYS
from planning.facts.derive import Facts


def may_be_early(facts: Facts) -> bool:
    """Within the first 30 days, or the day is not known: then it is not assumed to be later."""
    days = facts.findings.stoma.days_since_surgery
    return days is None or days <= EARLY_DAYS.value

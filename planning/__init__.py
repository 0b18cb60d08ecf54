"""Findings in, plan out. Pure: no Django, no input or output, no clock.

Supports and never replaces a licensed clinician's judgement and local policy.

    plan = recommend(findings, history=History())

raises ``InvalidFindings`` when the findings contradict themselves; ``check`` lists the reasons.
"""

from planning.check import check
from planning.clock import ClockHours
from planning.errors import FieldError, InvalidFindings
from planning.findings import Findings, History, Trial
from planning.pipeline import recommend
from planning.plan import Plan
from planning.rule_set import RULE_SET

__all__ = [
    "RULE_SET",
    "ClockHours",
    "FieldError",
    "Findings",
    "History",
    "InvalidFindings",
    "Plan",
    "Trial",
    "check",
    "recommend",
]

"""Findings in, plan out. Pure: no Django, no input or output, no clock.

Supports and never replaces a licensed clinician's judgement and local policy.

    plan = recommend(findings, history=History())

raises ``InvalidFindings`` when the findings contradict themselves; ``check`` lists the reasons.
The types of the findings are in ``planning.findings``, those of the answer in ``planning.plan``,
plain data of both in ``planning.snapshot``. ``counterfactuals`` says what would change a
recommendation, ``all_rules`` lists every rule, ``findings_schema`` describes a findings file.
"""

from planning.check import check
from planning.clock import ClockHours
from planning.counterfactual import Counterfactual, counterfactuals
from planning.errors import FieldError, InvalidFindings
from planning.findings import Findings, History, Trial
from planning.pipeline import recommend
from planning.plan import Plan
from planning.rule_set import RULE_SET
from planning.rulebook import Rule, all_rules
from planning.schema import findings_schema

__all__ = [
    "RULE_SET",
    "ClockHours",
    "Counterfactual",
    "FieldError",
    "Findings",
    "History",
    "InvalidFindings",
    "Plan",
    "Rule",
    "Trial",
    "all_rules",
    "check",
    "counterfactuals",
    "findings_schema",
    "recommend",
]

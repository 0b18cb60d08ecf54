"""Findings in, plan out. Pure: no Django, no input or output, no clock.

Supports and never replaces a licensed clinician's judgement and local policy.

    plan = recommend(findings, history=History())

raises ``InvalidFindings`` when the findings contradict themselves; ``check`` lists the reasons.
The types of the findings are in ``planning.inputs.findings``, those of the answer in
``planning.results.plan``, plain data of both in ``planning.results.snapshot``. ``counterfactuals``
says what would change a recommendation, ``alternatives`` what may be chosen instead (``Fixed``,
given to ``recommend`` or refused with ``Refused``), ``all_rules`` lists every rule,
``findings_schema`` describes a findings file.
"""

from planning.counterfactual import Counterfactual, counterfactuals
from planning.evidence.rule_set import RULE_SET
from planning.inputs.check import check
from planning.inputs.clock import ClockHours
from planning.inputs.errors import FieldError, InvalidFindings
from planning.inputs.findings import Findings, History, Trial
from planning.inputs.fixed import Fixed, FixedKind, Refused
from planning.inputs.schema import findings_schema
from planning.instead import Alternative, alternatives
from planning.pipeline import recommend
from planning.results.plan import Plan
from planning.rulebook import Rule, all_rules

__all__ = [
    "RULE_SET",
    "Alternative",
    "ClockHours",
    "Counterfactual",
    "FieldError",
    "Findings",
    "Fixed",
    "FixedKind",
    "History",
    "InvalidFindings",
    "Plan",
    "Refused",
    "Rule",
    "Trial",
    "all_rules",
    "alternatives",
    "check",
    "counterfactuals",
    "findings_schema",
    "recommend",
]

"""The stages in order: findings and history in, plan out."""

from planning.check import check
from planning.errors import InvalidFindings
from planning.findings import Findings, History
from planning.plan import CauseRanking, Dimensions, FollowUp, Plan, Urgency
from planning.rule_set import RULE_SET

_NO_HISTORY = History()


def recommend(findings: Findings, history: History = _NO_HISTORY) -> Plan:
    """The plan for one stoma at one visit; raises ``InvalidFindings``."""
    if errors := check(findings):
        raise InvalidFindings(errors)
    return Plan(
        rule_set=RULE_SET,
        urgency=Urgency.ROUTINE,
        headline="",
        leave_alone=False,
        red_flags=(),
        causes=CauseRanking(),
        needs=(),
        recommendations=(),
        runner_up=None,
        dimensions=Dimensions(),
        steps=(),
        quantities=(),
        follow_up=FollowUp(in_days=14, text="See again in 14 days.", because=()),
        call_when=(),
        notices=(),
        missing=(),
        supplies=(),
    )

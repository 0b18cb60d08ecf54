"""Under 16: output by weight, signs of dehydration, growth. No figure for adults."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY
from planning.evidence.thresholds import (
    CHILD_CALL,
    CHILD_NOW,
    CHILD_RISE,
    CHILD_TODAY,
    CHILD_UNCHANGED,
)
from planning.facts.derive import Facts
from planning.facts.weight import weight_now
from planning.inputs.age import AgeGroup
from planning.inputs.findings import StomaKind
from planning.results.plan import Urgency
from planning.safety.child_signs import asked_and_absent, child_clear, child_grave, not_thriving
from planning.safety.drying import clear_signs
from planning.safety.flag import FlagRule, Verdict

TEAM: Final = "paediatric stoma team"
TEAM_TODAY: Final = f"{TEAM}, by telephone"
SURGEONS: Final = "paediatric surgical team or emergency department"
_E, _S, _T = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE
_AT: Final = "output.volume_ml_24h"
_WEIGH: Final = "Weigh, and ask the team how much it is in mL per kg."


def per_kg(facts: Facts) -> float | None:
    """mL/kg in 24 hours from a bowel stoma; None where volume or weight is lacking."""
    volume, kg = facts.findings.output.volume_ml_24h, weight_now(facts.findings)
    if facts.kind is StomaKind.UROSTOMY or volume is None or not kg:
        return None
    return volume / kg


def by_weight(facts: Facts, volume: float, amount: float) -> Verdict | None:
    """By the ``amount`` in mL/kg: 20, 30, 40 in 24 hours; a sign of dehydration one level up; half
    above the own mean a call. 40 or more, unchanged on record and well in every respect: the same
    day."""
    level = _level(amount)
    if level is _E and _unchanged(facts):
        level = _S
    if child_clear(facts) or child_grave(facts):
        level = {None: _T, _T: _S, _S: _E, _E: _E}[level]
    usual = facts.findings.output.usual_ml_24h
    if level is None and usual and volume >= CHILD_RISE.value * usual:
        level = _T
    if level is None:
        return None
    limits = ", ".join(f"{limit.value:g}" for limit in (CHILD_CALL, CHILD_TODAY, CHILD_NOW))
    found = f"Output is {volume:g} mL in a day: {amount:.1f} mL/kg (a child's limits: {limits})."
    signs = (*child_grave(facts), *child_clear(facts))
    return Verdict(
        level,
        found + (f" With {', '.join(signs)}." if signs else ""),
        _AT,
        also="Urine sodium, weight and growth to the team.",
        refer_to=SURGEONS if level is _E else (TEAM_TODAY if level is _T else TEAM),
    )


def _level(amount: float) -> Urgency | None:
    if amount >= CHILD_NOW.value:
        return _E
    if amount >= CHILD_TODAY.value:
        return _S
    return _T if amount >= CHILD_CALL.value else None


def _unchanged(facts: Facts) -> bool:
    days = facts.findings.output.days_at_volume
    return days is not None and days >= CHILD_UNCHANGED.value and asked_and_absent(facts)


def output_rule(rule: FlagRule) -> FlagRule:
    """In place of the rule for adults. Without a weight whatever was charted is the team's."""

    def judge(facts: Facts) -> Verdict | None:
        volume = facts.findings.output.volume_ml_24h
        if volume is None:
            return None
        amount = per_kg(facts)
        if amount is not None and facts.age_group is AgeGroup.CHILD:
            return by_weight(facts, volume, amount)
        adult = rule.judge(facts)
        found = f"Output is charted as {volume:g} mL in a day; no weight is on record."
        urgent = adult is not None and adult.urgency is _E
        return Verdict(_E if urgent else _S, found, _AT, also=_WEIGH)

    return FlagRule(
        "output_to_judge",
        "Output that must be judged by weight",
        TEAM_TODAY,
        "No limit for adults holds.",
        (DESIGN, "childoutput2024/no_study", MEMORY),
        judge,
        "Ask the children's stoma team today if what comes out is too much or too little.",
        told_at={_E: "Your stoma gives too much. A doctor must look now."},
    )


def dry_rule(rule: FlagRule) -> FlagRule:
    """Signs alone: grave ones an emergency, any other the same day."""

    def judge(facts: Facts) -> Verdict | None:
        grave, clear = child_grave(facts), child_clear(facts)
        if not grave and not clear:
            return None
        adult = rule.judge(facts)
        also = "The paediatric team says what to drink."
        found = f"Signs of dehydration or serious illness: {', '.join((*grave, *clear))}."
        worse = grave or len(clear_signs(facts)) > 1
        base = Verdict(_E if worse else _S, found, "person.child_present", also=also)
        return base if adult is None else replace(base, ask=adult.ask, told=adult.told)

    return replace(rule, refer_to=SURGEONS, do="Pulse, refill, weight; bloods by the team.",
                   judge=judge)  # fmt: skip


def _not_growing(facts: Facts) -> Verdict | None:
    signs = not_thriving(facts)
    if not signs:
        return None
    return Verdict(_S, f"Too little sodium may be behind it: {', '.join(signs)}.",
                   "person.child_present")  # fmt: skip


NOT_GROWING: Final = FlagRule(
    "not_growing",
    "A child who does not grow, tires or craves salt",
    TEAM,
    "Weight curve, urine sodium and feeds go to the team. Feeds and salt are theirs to change.",
    ("childsodium2014/growth", DESIGN),
    _not_growing,
    "The children's stoma team must hear today how you grow.",
)

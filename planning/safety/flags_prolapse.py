"""Red flags of a prolapse. Long, or out all the time, is no danger by itself: new, dark, hard,
painful, growing or silent is."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN
from planning.evidence.thresholds import PAIN_STRONG
from planning.facts.derive import Facts
from planning.facts.in_words import joined
from planning.inputs.findings import BaselineKind, Prolapse, SkinKind, Symptom, Turgor
from planning.results.plan import Urgency
from planning.safety.baselines import compared
from planning.safety.baselines.colour import colour_usual
from planning.safety.flag import NURSE, FlagRule, Verdict
from planning.safety.flags_blockage import silent
from planning.safety.flags_colour import dark
from planning.safety.known import prolapse_known

_AT: Final = "measurement.prolapse"
_TODAY: Final = "Your stoma has come out. A surgeon must look today. Do not push it."


def prolapse_trapped(facts: Facts) -> Verdict | None:
    verdicts = [v for p in facts.findings.measurement.prolapse or () if (v := _one(p, facts))]
    return min(verdicts, key=lambda verdict: verdict.urgency.rank, default=None)


def _one(prolapse: Prolapse, facts: Facts) -> Verdict | None:
    m, score = facts.findings.measurement, facts.findings.output.pain_0_10
    severe = bool(prolapse.painful) and (score is None or score >= PAIN_STRONG.value)
    stuck = prolapse.reducible is False
    now = [
        words
        for there, words in (
            (dark(facts) and not colour_usual(facts), "is dark"),
            (m.turgor in (Turgor.HARD, Turgor.COLD), "is hard or cold"),
            (severe, "hurts badly, or how badly is not recorded"),
            (prolapse.painful and prolapse.reducible is not True,
             "hurts and does not go back, or was not tested for it"),
            (facts.feels(Symptom.VOMITING) and silent(facts), "gives nothing, with vomiting"),
        )
        if there
    ]  # fmt: skip
    if now:
        return Verdict(Urgency.EMERGENCY, f"The prolapse {joined(now)}.", _AT)
    known = prolapse_known(prolapse, facts)
    before = compared(facts, BaselineKind.PROLAPSE)
    came_back = before is not None and before.agreed.reducible and stuck
    today = [
        words
        for there, words in (
            (stuck and (came_back or not known), "does not go back, and this is new or not known "
             "to be old"),
            (prolapse.growing, "swells"),
            (prolapse.painful, "hurts"),
            (bool(facts.find(SkinKind.ULCER)) and before is not None and before.worse,
             "has changed beside an ulcer"),
        )
        if there
    ]  # fmt: skip
    if not today:
        return None
    return Verdict(Urgency.SAME_DAY, f"The prolapse {joined(today)}.", _AT)


def prolapse_unasked(facts: Facts) -> Verdict | None:
    """Colour, pain, feel, and whether it goes back decide between a look and an emergency."""
    open_ = [
        words
        for prolapse in facts.findings.measurement.prolapse or ()
        for words in _unasked(prolapse, facts)
    ]
    if not open_:
        return None
    found = f"There is a prolapse; not recorded: {joined(dict.fromkeys(open_))}."
    return Verdict(Urgency.SAME_DAY, found, _AT)


def _unasked(prolapse: Prolapse, facts: Facts) -> list[str]:
    """Going back matters only where it is not known to be old; how it looks where it stays out."""
    m = facts.findings.measurement
    out = prolapse.reducible is not True
    known = prolapse_known(prolapse, facts)
    asked = (
        (prolapse.reducible is None and not known, "whether it goes back"),
        (prolapse.painful is None, "whether it hurts"),
        (out and m.colour is None, "its colour"),
        (out and m.turgor is None, "whether it is soft"),
    )
    return [words for lacking, words in asked if lacking]


def prolapse_new(facts: Facts) -> Verdict | None:
    """A surgeon's opinion, once; sooner where it is longer than what was agreed."""
    prolapses = facts.findings.measurement.prolapse or ()
    before = compared(facts, BaselineKind.PROLAPSE)
    if before is not None and before.worse:
        found = f"The prolapse is not as it was agreed: {joined(before.worse)}."
        return Verdict(Urgency.DAYS, found, _AT)
    fresh = [p for p in prolapses if not prolapse_known(p, facts)]
    if not fresh:
        return None
    new = any(p.new for p in fresh)
    found = "The prolapse is new." if new else "Whether the prolapse is new is not recorded."
    return Verdict(Urgency.TWO_WEEKS, found, _AT)


RULES: Final = (
    FlagRule(
        "prolapse_trapped",
        "Prolapse that is dark, hard, painful, growing or newly fixed",
        "surgeon",
        "Do not try to push it back. Keep it moist and covered, and free it from a tight opening "
        "or rim into a roomy pouch. No sugar, no cold pack.",
        ("atlas/gangrene", DESIGN),
        prolapse_trapped,
        "Your stoma has come out and needs a surgeon now. Do not push it.",
        told_at={Urgency.SAME_DAY: _TODAY},
        adult_figures=True,
    ),
    FlagRule(
        "prolapse_unasked",
        "Prolapse of which too little is recorded",
        NURSE,
        "Ask and look now: does it go back, does it hurt, what colour is it, is it soft? Do not "
        "push it back.",
        (DESIGN,),
        prolapse_unasked,
        within=("prolapse_trapped",),
    ),
    FlagRule(
        "prolapse_new",
        "New or changed prolapse",
        "surgeon",
        "A surgeon's opinion once. An opening for the widest part, nothing rigid, no convexity.",
        (DESIGN,),
        prolapse_new,
        "Your stoma has come out. A surgeon will look within two weeks. Do not push it.",
        within=("prolapse_trapped",),
        told_at={
            Urgency.DAYS: "Your stoma has come out more than before. A surgeon will look within "
            "days. Do not push it."
        },
    ),
)

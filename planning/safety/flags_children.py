"""Red flags without figures for adults: under 16, and where the age is not known.

Output, growth and signs of dehydration are in ``flags_children_output``, by figures for children.

A rule without such a figure holds at any age. A marked one (``FlagRule.adult_figures``) is judged
by its row in ``INSTEAD``, on symptoms alone; without a row its verdict stays, in words without a
figure. What a limit for adults calls danger is therefore never lost, and never less urgent.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.facts.colour import DUSKY, at_hours, colours
from planning.facts.derive import BROKEN, Facts
from planning.facts.in_words import joined
from planning.inputs.age import AgeGroup
from planning.inputs.findings import (
    Bleeding,
    ChildSign,
    Condition,
    SkinKind,
    StomaKind,
    Symptom,
)
from planning.results.plan import Urgency
from planning.safety.child_signs import has_sign
from planning.safety.early import may_be_early
from planning.safety.flag import FlagRule, Verdict
from planning.safety.flags_children_output import (
    NOT_GROWING,
    TEAM,
    TEAM_TODAY,
    dry_rule,
    output_rule,
)
from planning.safety.pain import pain_at
from planning.safety.signs import not_asked

PAST_A_LIMIT: Final = (
    "What was charted is past a limit for adults. There is no limit for children in these rules: "
    f"the {TEAM} judges it."
)

#: Under 16 this flag says more of the same symptoms.
_BLOCKED_HOME: Final = ("blocked_or_vomiting",)

_Judge = Callable[[Facts], Verdict | None]


def rules_without_figures(rules: tuple[FlagRule, ...]) -> tuple[FlagRule, ...]:
    """``rules`` as they hold without any figure for adults, and what is danger under 16 besides."""
    return (*map(without_figures, rules), *ALSO)


def without_figures(rule: FlagRule) -> FlagRule:
    """``rule`` itself, or what judges in its place."""
    if not rule.adult_figures:
        return rule
    instead = INSTEAD.get(rule.key)
    own = replace(rule, judge=_carried(rule)) if instead is None else instead(rule)
    return replace(own, adult_figures=False)


def _carried(rule: FlagRule, found: str = PAST_A_LIMIT) -> _Judge:
    def judge(facts: Facts) -> Verdict | None:
        verdict = rule.judge(facts)
        return None if verdict is None else replace(verdict, found=found)

    return judge


def _said(found: str, within: tuple[str, ...] = ()) -> Callable[[FlagRule], FlagRule]:
    """The verdict of the rule for adults, in words without a figure."""
    return lambda rule: replace(rule, judge=_carried(rule, found), within=(*rule.within, *within))


def _at_least(urgency: Urgency, rule: FlagRule, facts: Facts) -> Urgency:
    """``urgency``, or that of the rule for adults where it is more urgent."""
    verdict = rule.judge(facts)
    found = [urgency] if verdict is None else [urgency, verdict.urgency]
    return min(found, key=lambda one: one.rank)


# --- in place of a rule for adults ----------------------------------------------------------
def _dark(facts: Facts) -> Verdict | None:
    if not colours(facts) & set(DUSKY):
        return None
    found = f"The stoma is dusky, maroon or purple{at_hours(facts, *DUSKY)}."
    return Verdict(Urgency.EMERGENCY, found, "measurement.colour")


def _sunken(rule: FlagRule) -> FlagRule:
    """However little below the skin: how far counts is not known for children."""

    def judge(facts: Facts) -> Verdict | None:
        height = facts.findings.measurement.protrusion_mm
        if height is None or height >= 0 or not may_be_early(facts):
            return None
        urgency = _at_least(Urgency.SAME_DAY, rule, facts)
        found = "The stoma lies below the skin soon after surgery."
        return Verdict(urgency, found, "measurement.protrusion_mm")

    return replace(rule, judge=judge)


def _pain(rule: FlagRule) -> FlagRule:
    def judge(facts: Facts) -> Verdict | None:
        pain = facts.findings.output.pain_0_10
        if not pain:
            return None
        urgency = _at_least(Urgency.SAME_DAY, rule, facts)
        return Verdict(urgency, f"Pain is charted as {pain}.", "output.pain_0_10")

    return replace(
        rule,
        text="Pain",
        refer_to=TEAM_TODAY,
        do="Ask where and since when. No limit of a scale for adults holds.",
        judge=judge,
        told_at={Urgency.SAME_DAY: "You have pain. Call the children's stoma team today."},
    )


def _spurting(facts: Facts) -> Verdict | None:
    if facts.findings.measurement.bleeding is not Bleeding.SPURTING_OR_UNSTOPPED:
        return None
    found = "Blood spurts, or did not stop under firm pressure."
    return Verdict(Urgency.EMERGENCY, found, "measurement.bleeding")


def _watery(rule: FlagRule) -> FlagRule:
    def judge(facts: Facts) -> Verdict | None:
        if not facts.findings.output.watery_for_hours or facts.kind is StomaKind.UROSTOMY:
            return None
        urgency = _at_least(Urgency.SAME_DAY, rule, facts)
        return Verdict(urgency, "Output has been watery.", "output.watery_for_hours")

    return replace(
        rule,
        text="Watery output",
        refer_to=TEAM_TODAY,
        do="Look for signs of dehydration; the team says what to drink.",
        judge=judge,
        patient_text="What comes out is watery. Call the children's stoma team today.",
    )


def _ulcer(facts: Facts) -> Verdict | None:
    undermined, ulcers = facts.find(SkinKind.UNDERMINED_ULCER), facts.find(SkinKind.ULCER)
    hurts = any(pain_at(seen, facts) for seen in ulcers)
    prompted = facts.has(Condition.INFLAMMATORY_BOWEL_DISEASE) or hurts
    seen = undermined or (ulcers if prompted else ())
    if not seen:
        return None
    growing = any(s.finding.enlarging for s in undermined + ulcers)
    found = "An ulcer with a violet, undermined edge, or one with bowel disease or pain."
    return Verdict(Urgency.SAME_DAY if growing else Urgency.DAYS, found, seen[0].path)


def _not_under_16(found: str) -> Callable[[FlagRule], FlagRule]:
    """It rests on a figure for adults alone: under 16 another rule says it, by other signs. Where
    the age is not known it stays, in words."""

    def made(rule: FlagRule) -> FlagRule:
        kept = _carried(rule, found)

        def judge(facts: Facts) -> Verdict | None:
            return None if facts.age_group is AgeGroup.CHILD else kept(facts)

        return replace(rule, judge=judge)

    return made


def _restless(facts: Facts) -> Verdict | None:
    """What pulse is usual at this age is not in these rules."""
    if not facts.feels(Symptom.RESTLESS):
        return None
    return Verdict(Urgency.SAME_DAY, "Newly restless.", "output.present")


def _raw(facts: Facts) -> Verdict | None:
    seen = facts.find(*BROKEN)
    return Verdict(Urgency.DAYS, "Skin is raw or open.", seen[0].path) if seen else None


#: Key of a rule marked ``adult_figures``: the rule made of it. Without a row its verdict is kept.
INSTEAD: Final[Mapping[str, Callable[[FlagRule], FlagRule]]] = {
    "necrosis": _said("The stoma is black, brown or grey, or dark and cold, dry, hard or flaccid."),
    "dusky": lambda rule: replace(rule, judge=_dark),
    "lifeless": _said("The stoma is cold, dry, hard or flaccid."),
    "slough": _said("There is yellow slough on the stoma."),
    "sunken": _sunken,
    "unseen": _said("The stoma's colour is not recorded soon after surgery."),
    "pale": _said("The stoma is very pale."),
    "spurting": lambda rule: replace(rule, judge=_spurting),
    "hernia_trapped": _said(
        "A bulge beside the stoma that hurts, does not go back, or comes with vomiting or "
        "no output."
    ),
    "separation_deep": _said(
        "It runs all round, is deep or of unknown depth, its base is not visible, or effluent gets "
        "beneath the skin."
    ),
    "fever_after_surgery": _said("Fever soon after surgery."),
    "fever": _said("Fever."),
    "pain": _pain,
    "loin_pain": _said("Loin pain."),
    "no_urine": _said("No urine for some time."),
    "little_urine": _said("Very little urine is charted."),
    "blocked_ileostomy": _said("Signs of a blocked bowel.", _BLOCKED_HOME),
    "blocked_colostomy": _said("Signs of a blocked bowel.", _BLOCKED_HOME),
    "blocked_beside_urostomy": _said("Signs of a blocked bowel.", _BLOCKED_HOME),
    "dehydration": dry_rule,
    "high_output": output_rule,
    "watery": _watery,
    "unmeasured_output": lambda rule: replace(
        _said("Signs of dehydration, and the output was not measured.")(rule),
        do="Measure what comes out, and weigh; the team says what to drink.",
    ),
    "output_risen": lambda rule: replace(
        _not_under_16("Output is well above this person's own mean.")(rule),
        do="Ask about drinks, food, medicines and consistency.",
        within=(),
    ),
    "heavy_bleed": _not_under_16("It bleeds, and the pulse is fast."),
    "bleed_stopped": _said("A heavier bleed stopped not long ago."),
    "stent_out": _said("A stent fell out early."),
    "thin_stream": _said("Urine comes in long thin streams."),
    "blood_in_urine": _said("There is blood in the urine."),
    "blood_stopped": _said("Blood in the urine at the last visit, none today; cancer on record."),
    "drug_with_losses": lambda rule: replace(
        _said("Losses while medicines are taken that losses make dangerous.")(rule),
        do="Creatinine and potassium. The prescriber decides.",
    ),
    "urine_infection": _said("Fever, rigors or loin pain with a urostomy."),
    "restless": lambda rule: replace(rule, judge=_restless),
    "drowsy": _said("Newly drowsy."),
    "pyoderma": lambda rule: replace(rule, judge=_ulcer),
    "raw_skin": lambda rule: replace(
        rule,
        text="Raw skin",
        refer_to=TEAM,
        do="The team plans the care of the skin and the fitting.",
        judge=_raw,
    ),
    "fistula": lambda rule: replace(
        rule, do="Pouch both openings. No convexity, belt or firm plate over or near it."
    ),
    "leaks_daily": lambda rule: replace(
        rule, refer_to=TEAM, do="The team plans the fitting.", judge=_carried(rule)
    ),
    "not_healing": lambda rule: replace(
        rule, text="Skin that does not get better", judge=_carried(rule)
    ),
}


# --- danger under 16 besides ----------------------------------------------------------------
def _blocked(facts: Facts) -> Verdict | None:
    """Green vomit is an emergency; not asked, it is asked."""
    vomits, severe = facts.feels(Symptom.VOMITING), facts.feels(Symptom.SEVERE_CRAMPS)
    swollen = facts.feels(Symptom.SWOLLEN_ABDOMEN)
    silent = bool(facts.findings.output.hours_without_output)
    green = has_sign(facts, ChildSign.GREEN_VOMIT)
    if green:
        return Verdict(Urgency.EMERGENCY, "Green vomit.", "person.child_present")
    if (vomits and (swollen or silent)) or (severe and (vomits or swollen or silent)):
        found = "Vomiting or severe cramps, with a swollen abdomen or no output."
        return Verdict(Urgency.EMERGENCY, found, "output.present")
    if vomits:
        open_ = ["is the vomit green"] if green is None else []
        open_ += not_asked(facts, ((Symptom.SWOLLEN_ABDOMEN, "a swollen abdomen"),))
        if facts.findings.output.hours_without_output is None:
            open_.append("hours without output")
        return Verdict(Urgency.SAME_DAY, "Vomiting.", "output.present", ask=joined(open_))
    if severe or swollen:
        found = "Severe cramps, or a swollen abdomen."
        return Verdict(Urgency.SAME_DAY, found, "output.present")
    return None


ALSO: Final = (
    FlagRule(
        "blocked_or_vomiting",
        "The bowel may be blocked",
        "surgeon or emergency department",
        "Green vomit: the emergency department now. Nothing by mouth. Put nothing into the stoma; "
        "no laxatives.",
        ("greenvomit2014/surgical", DESIGN, PRACTICE),
        _blocked,
        "Your bowel may be blocked. Do not eat or drink. Put nothing into the stoma.",
    ),
    NOT_GROWING,
)

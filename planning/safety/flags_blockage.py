"""Red flags of a blocked bowel. Symptoms raise them by themselves; hours without output only add.

A companion sign that was not asked is never read as absent: the flag names it, so that it is
asked before anything else.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import (
    SILENT_COLO,
    SILENT_COLO_PAIN,
    SILENT_ILEO,
    SILENT_ILEO_LONG,
    SILENT_ILEO_PAIN,
)
from planning.facts.derive import Facts
from planning.inputs.findings import Consistency, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety.early import may_be_early
from planning.safety.flag import FlagRule, Verdict
from planning.safety.pain import CRAMPS

_SEVERE: Final = Symptom.SEVERE_CRAMPS
#: Signs of a blockage, in the words of the flag and of the question for what was not asked.
_SIGNS: Final = {
    Symptom.SEVERE_CRAMPS: "severe cramps",
    Symptom.MILD_CRAMPS: "mild cramps",
    Symptom.VOMITING: "vomiting",
    Symptom.SWOLLEN_ABDOMEN: "a swollen abdomen",
    Symptom.NAUSEA: "nausea",
}
#: Companions that can turn a telephone call into an emergency.
_DECISIVE: Final = (Symptom.SEVERE_CRAMPS, Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN)
_NOTHING_EATEN: Final = "Do not eat. Put nothing into the stoma."
#: The sheet's words where it is no emergency.
_TOLD_AT: Final = {
    Urgency.SAME_DAY: "Your bowel may be partly blocked. The team must talk to you today. Until "
    "then eat no solid food. Put nothing into the stoma.",
    Urgency.DAYS: "You have cramps or feel sick. The team will ask you about it within days.",
}


def blocked_ileostomy(facts: Facts) -> Verdict | None:
    """Ileostomy and jejunostomy. Unknown hours with severe cramps count as four or more."""
    if not facts.small_bowel:
        return None
    hours = facts.findings.output.hours_without_output
    quiet = hours is not None and hours >= SILENT_ILEO_PAIN.value
    may_be_quiet = hours is None or quiet
    thin = facts.findings.output.consistency is Consistency.WATERY
    if (
        _blocked(facts, quiet=quiet)
        or (facts.feels(_SEVERE) and (may_be_quiet or thin))
        or (quiet and facts.feels(Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN))
        or (hours is not None and hours >= SILENT_ILEO_LONG.value)
    ):
        return _verdict(facts, Urgency.EMERGENCY)
    signs = facts.feels(Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN, *CRAMPS)
    sick = facts.feels(Symptom.NAUSEA)
    if signs or (sick and may_be_quiet) or (hours is not None and hours >= SILENT_ILEO.value):
        return _verdict(facts, Urgency.SAME_DAY)
    return _verdict(facts, Urgency.DAYS) if sick else None


def blocked_colostomy(facts: Facts) -> Verdict | None:
    """Whether gas passes is not recorded, so silence is not assumed to be plain constipation."""
    if facts.kind is not StomaKind.COLOSTOMY:
        return None
    hours = facts.findings.output.hours_without_output
    quiet = hours is not None and hours >= SILENT_COLO_PAIN.value
    signs = facts.feels(Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN, *CRAMPS)
    if _blocked(facts, quiet=quiet) or (quiet and signs):
        return _verdict(facts, Urgency.EMERGENCY)
    strong = facts.feels(*_DECISIVE)
    mild_only = signs and not strong
    if (
        strong
        or (mild_only and (hours is None or may_be_early(facts)))
        or (hours is not None and hours >= SILENT_COLO.value)
    ):
        return _verdict(facts, Urgency.SAME_DAY)
    return _verdict(facts, Urgency.DAYS) if mild_only or facts.feels(Symptom.NAUSEA) else None


def blocked_beside_urostomy(facts: Facts) -> Verdict | None:
    """The bowel behind a urostomy can be blocked too; nausea there is judged with the urine."""
    if facts.kind is not StomaKind.UROSTOMY:
        return None
    if _blocked(facts, quiet=False):
        return _verdict(facts, Urgency.EMERGENCY)
    if facts.feels(*_DECISIVE) or (facts.feels(*CRAMPS) and may_be_early(facts)):
        return _verdict(facts, Urgency.SAME_DAY)
    return _verdict(facts, Urgency.DAYS) if facts.feels(*CRAMPS) else None


def _blocked(facts: Facts, *, quiet: bool) -> bool:
    """Two signs that say blockage whatever the kind of stoma; one severe one early on."""
    severe, vomits = facts.feels(_SEVERE), facts.feels(Symptom.VOMITING)
    swollen = facts.feels(Symptom.SWOLLEN_ABDOMEN)
    hurts = facts.feels(*CRAMPS)
    bowel_out = bool(facts.bulging or facts.prolapsed)
    signs = sum((hurts, vomits, swollen, quiet))
    return (
        (severe and (vomits or swollen or may_be_early(facts)))
        or (vomits and swollen)
        or (bowel_out and signs >= 2)
    )


def _verdict(facts: Facts, urgency: Urgency) -> Verdict:
    output = facts.findings.output
    felt = [words for sign, words in _SIGNS.items() if sign in output.present]
    hours = output.hours_without_output
    found = felt[:]
    if hours is None:
        found.append("hours without output not recorded")
    elif hours > 0:
        found.append(f"no output for {hours:g} hours")
    open_ = [_SIGNS[sign] for sign in _DECISIVE if facts.asked(sign) is None]
    ask = "" if urgency is Urgency.EMERGENCY else ", ".join(open_)
    at = "output.present" if felt else "output.hours_without_output"
    sentence = ", ".join(found)
    return Verdict(urgency, f"{sentence[:1].upper()}{sentence[1:]}.", at, ask)


def _rule(
    key: str, text: str, do: str, sources: tuple[str, ...], patient_text: str,
    judge: Callable[[Facts], Verdict | None],
) -> FlagRule:  # fmt: skip
    return FlagRule(
        key,
        text,
        "surgeon or emergency department",
        do,
        sources,
        judge,
        patient_text,
        told_at=_TOLD_AT,
        adult_figures=True,
    )


RULES: Final = (
    _rule(
        "blocked_ileostomy",
        "The ileostomy may be blocked",
        "Nothing by mouth with vomiting, strong pain or no "
        "output; else no solid food. Nothing into the stoma, no laxatives, nothing that slows or "
        "thickens the output.",
        ("obstruction", "foodblockage2021", "seekhelp2009", "nhsileostomy", DESIGN),
        f"Your stoma may be blocked. {_NOTHING_EATEN}",
        blocked_ileostomy,
    ),
    _rule(
        "blocked_colostomy",
        "The bowel behind the colostomy may be blocked",
        "Ask whether gas passes: with gas, and otherwise "
        "well, it may be constipation. Nothing into the stoma, no laxatives before an "
        "examination.",
        (PRACTICE, DESIGN),
        f"Your bowel may be blocked. {_NOTHING_EATEN}",
        blocked_colostomy,
    ),
    _rule(
        "blocked_beside_urostomy",
        "The bowel may be blocked",
        "Ask for stool and gas. Nothing by mouth if vomiting.",
        (PRACTICE, DESIGN),
        f"Your bowel may be blocked. {_NOTHING_EATEN}",
        blocked_beside_urostomy,
    ),
)  # fmt: skip

"""Red flags of a blocked bowel. Symptoms raise them by themselves; hours without output only add.

A companion sign that was not asked is never read as absent: what it could lift to an emergency is
seen the same day, and the flag names it, so that it is asked before anything else.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import (
    SILENT_COLO,
    SILENT_COLO_PAIN,
    SILENT_ILEO,
    SILENT_ILEO_DAY,
    SILENT_ILEO_LONG,
    SILENT_ILEO_PAIN,
)
from planning.facts.derive import Facts, still_shrinks
from planning.facts.in_words import joined
from planning.inputs.findings import Condition, Consistency, Medicine, Oedema, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety.early import may_be_early
from planning.safety.flag import FlagRule, Verdict
from planning.safety.pain import CRAMPS, pain_without_cause
from planning.safety.signs import fever

_SEVERE: Final = Symptom.SEVERE_CRAMPS
_CONSTANT: Final = (Symptom.CONSTANT_SEVERE_PAIN, Symptom.RIGID_ABDOMEN)
#: Signs of a blockage, in the words of the flag and of the question for what was not asked.
_SIGNS: Final = {
    Symptom.CONSTANT_SEVERE_PAIN: "constant severe pain",
    Symptom.RIGID_ABDOMEN: "a rigid abdomen",
    Symptom.SEVERE_CRAMPS: "severe cramps",
    Symptom.MILD_CRAMPS: "mild cramps",
    Symptom.VOMITING: "vomiting",
    Symptom.SWOLLEN_ABDOMEN: "a swollen abdomen",
    Symptom.NO_GAS: "no gas",
    Symptom.SPURTING_OUTPUT: "output in spurts",
    Symptom.HARD_MASS: "a hard mass in the abdomen",
    Symptom.NAUSEA: "nausea",
}
#: Companions that can turn a telephone call into an emergency.
_DECISIVE: Final = (Symptom.SEVERE_CRAMPS, Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN)
_NOTHING_EATEN: Final = "Do not eat. Put nothing into the stoma."
#: The sheet's words where it is no emergency.
_TOLD_AT: Final = {
    Urgency.SAME_DAY: "Your bowel may be partly blocked. The team must talk to you today. Until "
    "then eat no solid food. Put nothing into the stoma.",
    Urgency.TELEPHONE: "Your bowel may be partly blocked. Call the team today. Until then eat no "
    "solid food. Put nothing into the stoma.",
    Urgency.DAYS: "You have cramps or feel sick. The team will ask you about it within days.",
}


def silent(facts: Facts) -> bool:
    """No output for as long as counts as a blockage beside pain; never of a urostomy."""
    hours = facts.findings.output.hours_without_output
    if hours is None or facts.kind is StomaKind.UROSTOMY:
        return False
    return hours >= (SILENT_ILEO_PAIN if facts.small_bowel else SILENT_COLO_PAIN).value


def blocked_ileostomy(facts: Facts) -> Verdict | None:
    """Ileostomy and jejunostomy. Unknown hours with severe cramps count as four or more."""
    if not facts.small_bowel:
        return None
    hours = facts.findings.output.hours_without_output
    may_be_quiet = hours is None or silent(facts)
    past = _past(hours)
    if (
        _blocked(facts)
        or (facts.feels(_SEVERE) and (may_be_quiet or _thin(facts)))
        or (silent(facts) and facts.feels(Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN))
        or past is Urgency.EMERGENCY
    ):
        return _verdict(facts, Urgency.EMERGENCY)
    if _partly(facts):
        return _raised(facts)
    strong = facts.feels(Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN, Symptom.NO_GAS)
    if strong or past is Urgency.SAME_DAY or (facts.feels(Symptom.NAUSEA) and may_be_quiet):
        return _verdict(facts, Urgency.SAME_DAY)
    if facts.feels(*CRAMPS):
        early = may_be_early(facts) or hours is None
        return _verdict(facts, Urgency.SAME_DAY if early else _by_telephone(facts))
    if past is not None or facts.feels(Symptom.SPURTING_OUTPUT):
        return _verdict(facts, _by_telephone(facts))
    return _verdict(facts, Urgency.DAYS) if facts.feels(Symptom.NAUSEA) else None


def _past(hours: float | None) -> Urgency | None:
    """Silence alone, without any symptom."""
    if hours is None or hours < SILENT_ILEO.value:
        return None
    if hours >= SILENT_ILEO_LONG.value:
        return Urgency.EMERGENCY
    return Urgency.SAME_DAY if hours >= SILENT_ILEO_DAY.value else Urgency.TELEPHONE


def _thin(facts: Facts) -> bool:
    """Output does not exclude a blockage: it can come thin, foul and in spurts past one."""
    watery = facts.findings.output.consistency is Consistency.WATERY
    return watery or facts.feels(Symptom.SPURTING_OUTPUT)


def _partly(facts: Facts) -> bool:
    """Cramps that are severe, or beside silence, spurts, a swollen stoma or little dark urine."""
    if facts.feels(_SEVERE):
        return True
    more = facts.feels(Symptom.SPURTING_OUTPUT, Symptom.LITTLE_URINE, Symptom.DARK_URINE)
    oedema = facts.findings.measurement.oedema
    swollen = oedema is Oedema.MARKED or (oedema is Oedema.MILD and not still_shrinks(facts))
    return facts.feels(*CRAMPS) and (more or swollen or silent(facts))


def _raised(facts: Facts) -> Verdict:
    """Soon after surgery pain goes up one level."""
    early = may_be_early(facts)
    return _verdict(facts, Urgency.EMERGENCY if early else Urgency.SAME_DAY)


def _by_telephone(facts: Facts) -> Urgency:
    """A call, unless what would make it an emergency was not asked."""
    open_ = any(facts.asked(sign) is None for sign in _DECISIVE)
    return Urgency.SAME_DAY if open_ else Urgency.TELEPHONE


def blocked_colostomy(facts: Facts) -> Verdict | None:
    """Silence counts as plain constipation only where gas is known to pass."""
    if facts.kind is not StomaKind.COLOSTOMY:
        return None
    hours, gas = facts.findings.output.hours_without_output, _gas_passes(facts)
    quiet, hurts = silent(facts), facts.feels(*CRAMPS) or _belly_aches(facts)
    strong = facts.feels(Symptom.VOMITING, Symptom.SWOLLEN_ABDOMEN, _SEVERE)
    if _blocked(facts) or (quiet and (strong or (hurts and gas is False))):
        return _verdict(facts, Urgency.EMERGENCY)
    if strong or gas is False or (quiet and hurts and gas is None):
        return _verdict(facts, Urgency.SAME_DAY)
    if facts.feels(*CRAMPS) and gas is None and hours is None:
        return _verdict(facts, Urgency.SAME_DAY)
    if hours is not None and hours >= SILENT_COLO.value and gas is None:
        return _verdict(facts, Urgency.SAME_DAY)
    if facts.feels(*CRAMPS) and may_be_early(facts):
        return _verdict(facts, Urgency.SAME_DAY)
    if facts.feels(Symptom.HARD_MASS):
        return _verdict(facts, Urgency.TELEPHONE)
    return _verdict(facts, Urgency.DAYS) if facts.feels(*CRAMPS, Symptom.NAUSEA) else None


def _gas_passes(facts: Facts) -> bool | None:
    asked = facts.asked(Symptom.NO_GAS)
    return None if asked is None else not asked


def _belly_aches(facts: Facts) -> bool:
    pain = facts.feels(Symptom.ABDOMINAL_PAIN, Symptom.RISING_PAIN)
    return pain or pain_without_cause(facts) > 0


def overflow(facts: Facts) -> Verdict | None:
    """Liquid stool past a hard mass, in a colostomy: never counted as diarrhoea."""
    liquid = facts.findings.output.consistency in (Consistency.WATERY, Consistency.LIQUID)
    runs = facts.feels(Symptom.SPURTING_OUTPUT) or liquid
    bloated = facts.feels(Symptom.SWOLLEN_ABDOMEN, Symptom.HARD_MASS)
    held = bloated or (facts.feels(Symptom.SPURTING_OUTPUT) and facts.takes(Medicine.OPIOID))
    if facts.kind is not StomaKind.COLOSTOMY or not (runs and held):
        return None
    found = "Liquid stool with a swollen abdomen, a hard mass or an opioid."
    if facts.feels(Symptom.VOMITING, Symptom.NO_GAS):
        return Verdict(Urgency.EMERGENCY, found, "output.consistency")
    asked = {Symptom.VOMITING: "vomiting", Symptom.NO_GAS: "does gas pass"}
    open_ = [words for sign, words in asked.items() if facts.asked(sign) is None]
    return Verdict(Urgency.SAME_DAY, found, "output.consistency", joined(open_))


def constipation(facts: Facts) -> Verdict | None:
    """A silent colostomy in a well person who passes gas."""
    hours = facts.findings.output.hours_without_output
    late = hours is not None and hours >= SILENT_COLO.value
    well = _gas_passes(facts) and not facts.feels(*_SIGNS)
    if facts.kind is not StomaKind.COLOSTOMY or not (late and well):
        return None
    found = f"No stool for {hours:g} hours; gas passes, and there is no sign of a blockage."
    return Verdict(Urgency.DAYS, found, "output.hours_without_output")


def blocked_beside_urostomy(facts: Facts) -> Verdict | None:
    """The bowel behind a urostomy can be blocked too; nausea there is judged with the urine."""
    if facts.kind is not StomaKind.UROSTOMY:
        return None
    if _blocked(facts):
        return _verdict(facts, Urgency.EMERGENCY)
    if facts.feels(*_DECISIVE, Symptom.NO_GAS) or (facts.feels(*CRAMPS) and may_be_early(facts)):
        return _verdict(facts, Urgency.SAME_DAY)
    return _verdict(facts, Urgency.DAYS) if facts.feels(*CRAMPS) else None


def _blocked(facts: Facts) -> bool:
    """What says blockage whatever the kind of stoma; one severe sign early on; with a hernia,
    prolapse or pregnancy any two signs."""
    severe, vomits = facts.feels(_SEVERE), facts.feels(Symptom.VOMITING)
    swollen = facts.feels(Symptom.SWOLLEN_ABDOMEN)
    return (
        facts.feels(*_CONSTANT)
        or (severe and (vomits or swollen or may_be_early(facts)))
        or (vomits and swollen)
        or (_at_risk(facts) and _signs(facts) >= 2)
    )


def _at_risk(facts: Facts) -> bool:
    """One sign is then seen the same day, two are an emergency."""
    return bool(facts.bulging or facts.prolapsed or facts.has(Condition.PREGNANT))


def _signs(facts: Facts) -> int:
    """Signs of a blockage; no stool and no gas are one."""
    silence = silent(facts) or facts.feels(Symptom.NO_GAS)
    each = (
        facts.feels(*CRAMPS),
        facts.feels(Symptom.VOMITING),
        facts.feels(Symptom.SWOLLEN_ABDOMEN),
        facts.feels(Symptom.SPURTING_OUTPUT),
        silence,
    )
    return sum(each) + facts.feels(*_CONSTANT)


def pregnant_blocked(facts: Facts) -> Verdict | None:
    """The obstetric team hears of it beside the surgeon."""
    signs = _signs(facts)
    if not facts.has(Condition.PREGNANT) or not signs:
        return None
    found = "A sign of a blocked bowel in pregnancy."
    now = signs > 1 or facts.feels(*_CONSTANT)
    return Verdict(Urgency.EMERGENCY if now else Urgency.SAME_DAY, found, "output.present")


def _verdict(facts: Facts, urgency: Urgency) -> Verdict:
    if urgency.rank > Urgency.SAME_DAY.rank and _at_risk(facts) and _signs(facts):
        urgency = Urgency.SAME_DAY
    output = facts.findings.output
    felt = [words for sign, words in _SIGNS.items() if sign in output.present]
    hours = output.hours_without_output
    found = felt[:]
    if hours is None:
        found.append("hours without output not recorded")
    elif hours > 0:
        found.append(f"no output for {hours:g} hours")
    ask = "" if urgency is Urgency.EMERGENCY else ", ".join(_open(facts))
    at = "output.present" if felt else "output.hours_without_output"
    sentence = ", ".join(found)
    return Verdict(urgency, f"{sentence[:1].upper()}{sentence[1:]}.", at, ask)


def _open(facts: Facts) -> list[str]:
    """What decides and was not asked."""
    open_ = [_SIGNS[sign] for sign in _DECISIVE if facts.asked(sign) is None]
    if facts.kind is StomaKind.COLOSTOMY and _gas_passes(facts) is None:
        open_.append("does gas pass")
    if may_be_early(facts) and fever(facts) is None:
        open_.append("temperature")
    return open_


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
        (
            "obstruction/four_hours",
            "obstruction/never",
            "foodblockage2021/signs",
            "blockagecard2012/signs",
            "seekhelp2009/blocked",
            "nhsileostomy/six_with_cramps",
            DESIGN,
        ),
        f"Your stoma may be blocked. {_NOTHING_EATEN}",
        blocked_ileostomy,
    ),
    _rule(
        "blocked_colostomy",
        "The bowel behind the colostomy may be blocked",
        "Nothing into the stoma, no laxatives, no irrigation, no bulk fibre and nothing that slows "
        "before a blockage is excluded. Ask the hospital to look for a trapped hernia, a narrowing "
        "and, after cancer, whether it has come back.",
        (PRACTICE, DESIGN),
        f"Your bowel may be blocked. {_NOTHING_EATEN}",
        blocked_colostomy,
    ),
    FlagRule(
        "overflow",
        "Liquid stool past a partial blockage must be thought of",
        "prescriber or surgeon",
        "Nothing that slows, thickens or bulks, no irrigation. Name opioids; look for a hernia and "
        "a narrow stoma. No solid food until seen. Vomiting or no gas makes it an emergency.",
        (PRACTICE, DESIGN),
        overflow,
        f"Your bowel may be blocked. {_NOTHING_EATEN}",
        told_at=_TOLD_AT,
    ),
    FlagRule(
        "constipation",
        "No stool, otherwise well",
        "prescriber",
        "Name what slows the bowel (opioid, iron, anticholinergic) and ask about it; drinks, food, "
        "walking. It turns urgent with pain, swelling, vomiting or no gas.",
        (PRACTICE, DESIGN),
        constipation,
        "No stool has come for some days. The team will ask about your medicines within days.",
        adult_figures=True,
    ),
    _rule(
        "blocked_beside_urostomy",
        "The bowel may be blocked",
        "Ask for stool and gas. Nothing by mouth if vomiting.",
        (PRACTICE, DESIGN),
        f"Your bowel may be blocked. {_NOTHING_EATEN}",
        blocked_beside_urostomy,
    ),
    FlagRule(
        "pregnant_blocked",
        "A blocked bowel in pregnancy",
        "obstetric team, together with the surgeon",
        "It is easily mistaken for sickness of pregnancy or labour. No home measures, no massage.",
        (DESIGN, PRACTICE),
        pregnant_blocked,
        "Your bowel may be blocked. Tell the doctor that you are pregnant.",
        adult_figures=True,
    ),
)  # fmt: skip

"""Red flags of dehydration and of the amount that comes out of a bowel stoma.

Signs count before volumes: a sign raises by itself, whatever was measured.
"""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN
from planning.evidence.thresholds import (
    FRAIL_AGE,
    OUTPUT_CALL,
    OUTPUT_EMERGENCY,
    OUTPUT_MORE,
    OUTPUT_NEW,
    OUTPUT_RISE,
    OUTPUT_RUNNING,
    OUTPUT_URGENT,
    RISK_AGE,
    WATERY_HOURS,
)
from planning.facts.derive import Facts
from planning.facts.vital_signs import feverish
from planning.inputs.age import AgeGroup
from planning.inputs.findings import (
    BaselineKind,
    BloodTests,
    Condition,
    Consistency,
    Medicine,
    StomaKind,
    Symptom,
)
from planning.results.plan import Urgency
from planning.safety import drinks, medicines
from planning.safety.baselines import Compared, compared
from planning.safety.baselines.of_fluid import over_target
from planning.safety.drying import clear_signs, grave_signs, not_asked, soft_signs, urine_unsplit
from planning.safety.flag import FlagRule, Verdict

_E, _S, _T = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE
_AT: Final = "output.volume_ml_24h"
_BLOODS: Final = "Bloods: sodium, potassium, magnesium, creatinine."
_TAKEN: Final = "The physician needs today's results: sodium, potassium, magnesium, creatinine."
_PRESSURE: Final = "Pulse, blood pressure lying and standing."
_FIRST: Final = "Think of infection and of a partial blockage first."
_BY_PHONE: Final = "stoma team, by telephone"
_NUTRITION: Final = "nutrition team, by telephone"


# --- signs ----------------------------------------------------------------------------------
def dehydrated(facts: Facts) -> Verdict | None:
    """One grave sign or two clear ones are an emergency; one clear sign is seen the same day."""
    mind = _mind(facts)
    new = ("new confusion",) if mind is _E else ()
    grave, clear = (*grave_signs(facts), *new), clear_signs(facts)
    if not grave and not clear and mind is None:
        return None
    signs = dict.fromkeys((*grave, *clear)) or {"confusion, known, not compared in full": None}
    return Verdict(
        _E if grave or len(clear) > 1 else _S,
        f"Signs of dehydration, salt loss or serious illness: {', '.join(signs)}.",
        "output.present",
        ask=_how_little(facts) if urine_unsplit(facts) else "",
        also=_besides(facts),
        told=drinks.told(facts),
    )


def _mind(facts: Facts) -> Urgency | None:
    """Confusion, where it is not known and unchanged."""
    if not facts.feels(Symptom.CONFUSION):
        return None
    against = compared(facts, BaselineKind.CONFUSION)
    if against is None or against.worse:
        return _E
    return _S if against.unseen else None


def _how_little(facts: Facts) -> str:
    if facts.age_group is not AgeGroup.ADULT:
        return "how little urine, and since when"
    return "is it under 400 mL in 24 hours, or none for 8 hours"


def _besides(facts: Facts) -> str:
    """What goes beside every flag of dehydration."""
    parts = (drinks.said(facts), medicines.losses(facts), medicines.stool_test_first(facts))
    return " ".join(part for part in parts if part)


# --- volume ---------------------------------------------------------------------------------
def high_output(facts: Facts) -> Verdict | None:
    """By the agreed target; else by volume, day, days running, risks and signs."""
    volume = facts.findings.output.volume_ml_24h
    if facts.kind is StomaKind.UROSTOMY or volume is None:
        return None
    if (against := compared(facts, BaselineKind.OUTPUT_TARGET)) is not None:
        return _by_target(facts, volume, against)
    if volume < OUTPUT_CALL.value:
        return None
    if facts.kind is StomaKind.JEJUNOSTOMY:
        level: Urgency | None = _T
    else:
        level = _by_volume(facts, volume)
    return _verdict(facts, volume, _with_signs(facts, volume, level))


def _by_volume(facts: Facts, volume: float) -> Urgency | None:
    """None: usual for a new stoma. Not known when it was made: as whichever is more urgent.

    The highest step of an older stoma is seen the same day only where blood was taken today and no
    sign was left unasked."""
    limits = (OUTPUT_CALL, OUTPUT_MORE, OUTPUT_URGENT, OUTPUT_EMERGENCY)
    row = sum(volume >= limit.value for limit in limits)
    if (facts.findings.person.age_years or 0) >= FRAIL_AGE.value:
        row = min(row + 1, len(limits))
    day = facts.findings.stoma.days_since_surgery
    new = day is None or day <= OUTPUT_NEW.value
    if row >= 4:
        return _E if new or not bloods_taken(facts) or not_asked(facts) else _S
    if row == 3:
        return _S if new or lasting(facts) or risks(facts) else _T
    if row == 2 or day is None:
        return _T
    return None if day <= OUTPUT_NEW.value else _T


def _with_signs(facts: Facts, volume: float, level: Urgency | None) -> Urgency | None:
    """One clear sign: a level up. Signs beside much output: one a call, two the same day."""
    if clear_signs(facts):
        return _E if level in (_E, _S) else _S
    found = [level]
    if soft := soft_signs(facts):
        found.append(_S if len(soft) > 1 else _T)
    if volume >= OUTPUT_URGENT.value and not_asked(facts):
        found.append(_S)
    raised = [one for one in found if one is not None]
    return min(raised, key=lambda one: one.rank, default=None)


def bloods_taken(facts: Facts) -> bool:
    """Blood was taken today. Not recorded is not taken."""
    return facts.findings.output.blood_tests in (BloodTests.TAKEN, BloodTests.RESULT_KNOWN)


def lasting(facts: Facts) -> bool:
    """Two days running, or not recorded for how long."""
    days = facts.findings.output.days_at_volume
    return days is None or days >= OUTPUT_RUNNING.value


def risks(facts: Facts) -> tuple[str, ...]:
    """What makes losses dangerous, in words. A list of medicines that is not known is one."""
    drugs = (Medicine.ACE_INHIBITOR_OR_ARB, Medicine.DIURETIC, Medicine.SGLT2_INHIBITOR)
    unknown = medicines.list_unknown(facts)
    age = facts.findings.person.age_years or 0
    found = (
        ("age", age >= RISK_AGE.value),
        ("kidney disease", facts.has(Condition.KIDNEY_DISEASE)),
        (medicines.named(facts, drugs), facts.findings.person.takes(*drugs)),
        ("medicines not known", unknown),
        ("fever", feverish(facts)),
        ("chemotherapy", facts.has(Condition.CHEMOTHERAPY_RECENT)),
    )
    return tuple(words for words, holds in found if holds)


def _verdict(facts: Facts, volume: float, level: Urgency | None) -> Verdict | None:
    if level is None:
        return None
    parts = [f"Output is {volume:g} mL in 24 hours", *_for_how_long(facts)]
    signs = (*clear_signs(facts), *soft_signs(facts))
    parts += [f"with {', '.join(signs)}"] if signs else []
    parts += [f"at risk: {', '.join(danger)}"] if (danger := risks(facts)) else []
    parts += ["blood was taken today"] if bloods_taken(facts) else []
    unknown = not_asked(facts) if volume >= OUTPUT_URGENT.value else ()
    unknown = (*unknown, *_bloods_open(facts, level))
    return Verdict(
        level,
        "; ".join(parts) + ".",
        _AT,
        ask=", ".join(unknown),
        also=f"{_do(facts, volume, level)} {_besides(facts)}",
        refer_to=_whom(facts, level),
        told=drinks.told(facts),
    )


def _bloods_open(facts: Facts, level: Urgency) -> tuple[str, ...]:
    """Asked only where the answer could lower the level: not soon after surgery."""
    day = facts.findings.stoma.days_since_surgery
    older = day is not None and day > OUTPUT_NEW.value
    matters = level is _E and older and facts.kind is not StomaKind.JEJUNOSTOMY
    return (
        ("was blood taken today",) if matters and facts.findings.output.blood_tests is None else ()
    )


def _for_how_long(facts: Facts) -> tuple[str, ...]:
    days = facts.findings.output.days_at_volume
    if days is None:
        return ()
    return ("1 day",) if days == 1 else (f"{days:g} days running",)


def _do(facts: Facts, volume: float, level: Urgency) -> str:
    if facts.kind is StomaKind.JEJUNOSTOMY:
        return (
            f"{_BLOODS} {_PRESSURE}" if level is not _T else "Ask for a target: none is on record."
        )
    if level is not _T:
        return f"{_TAKEN if bloods_taken(facts) else _BLOODS} {_PRESSURE} {_FIRST}"
    if volume >= OUTPUT_MORE.value:
        return "Bloods if it does not fall within 48 hours."
    return "Chart it daily."


def _whom(facts: Facts, level: Urgency) -> str:
    if level is _E:
        return "emergency department"
    if level is _S:
        return "physician"
    return _NUTRITION if facts.kind is StomaKind.JEJUNOSTOMY else _BY_PHONE


def _by_target(facts: Facts, volume: float, against: Compared) -> Verdict | None:
    """An agreed target: above it for 2 days, weight or urine under it, or a clear sign: same day.
    A grave sign has a flag of its own."""
    over = over_target(volume, against.agreed)
    others = [words for words in against.worse if not words.startswith("output ")]
    unknown = not_asked(facts) if volume >= OUTPUT_URGENT.value else ()
    if not (over or others or unknown):
        return None
    level = _T if over and not lasting(facts) and not others and not unknown else _S
    target = "" if against.agreed.value is None else f"{against.agreed.value:g} mL"
    found = f"Output is {volume:g} mL in 24 hours; agreed: {target or 'no figure'}."
    if against.worse:
        found += f" Not as agreed: {', '.join(against.worse)}."
    return Verdict(
        level,
        found,
        _AT,
        ask=", ".join(unknown),
        also=f"{_BLOODS if level is _S else 'Measure again tomorrow.'} {_besides(facts)}",
        refer_to="nutrition team or physician" if level is _S else _NUTRITION,
        told=drinks.told(facts),
    )


# --- without a volume, or beyond the own mean ---------------------------------------------------
def watery(facts: Facts) -> Verdict | None:
    """Stands for a volume that was not measured; one that was agreed says more."""
    output = facts.findings.output
    hours = output.watery_for_hours
    if hours is None or hours <= WATERY_HOURS.value or facts.kind is StomaKind.UROSTOMY:
        return None
    measured = output.volume_ml_24h is not None
    if measured and compared(facts, BaselineKind.OUTPUT_TARGET) is not None:
        return None
    return _unmeasured(facts, f"Output has been watery for {hours:g} hours", _T)


def unmeasured_signs(facts: Facts) -> Verdict | None:
    """Thirst and the like beside an output not measured: it may be much. Soft or formed stool
    is not."""
    output = facts.findings.output
    solid = output.consistency in (Consistency.SOFT, Consistency.FORMED)
    may_be_much = facts.small_bowel or output.consistency is Consistency.WATERY
    if output.volume_ml_24h is not None or solid or not may_be_much or not soft_signs(facts):
        return None
    return _unmeasured(facts, "The output was not measured", _T)


def _unmeasured(facts: Facts, found: str, level: Urgency) -> Verdict:
    soft = soft_signs(facts)
    if clear_signs(facts) or len(soft) > 1:
        level = _S
    signs = f"; {', '.join(soft)}" if soft else ""
    return Verdict(
        level,
        f"{found}{signs}.",
        "output.watery_for_hours" if "watery" in found else "output.present",
        also=f"{f'{_BLOODS} {_FIRST} ' if level is _S else ''}{_besides(facts)}",
        refer_to="physician" if level is _S else _BY_PHONE,
        told=drinks.told(facts),
    )


def risen(facts: Facts) -> Verdict | None:
    """500 mL or more above the own mean, 2 days running or not recorded for how long."""
    output = facts.findings.output
    volume, usual = output.volume_ml_24h, output.usual_ml_24h
    if facts.kind is StomaKind.UROSTOMY or volume is None or usual is None:
        return None
    agreed = compared(facts, BaselineKind.OUTPUT_TARGET)
    if volume < usual + OUTPUT_RISE.value or not lasting(facts) or agreed is not None:
        return None
    found = f"Output is {volume:g} mL in 24 hours; usual for this person is {usual:g} mL."
    return Verdict(_T, found, _AT, also=_besides(facts), told=drinks.told(facts))


_MEASURE: Final = "Measure for 24 hours; look again tomorrow."
_ASK: Final = "Ask about drinks, food, medicines and consistency."

RULES: Final = (
    FlagRule(
        "dehydration",
        "Signs of dehydration or serious illness",
        "physician or emergency department",
        f"{_PRESSURE} {_BLOODS}",
        (DESIGN,),
        dehydrated,
        "You may be short of salt and water. A doctor must look now.",
        told_at={_S: "You may be short of salt and water. A doctor must look today."},
        adult_figures=True,
        besides=drinks.TOLD,
    ),
    FlagRule(
        "high_output",
        "High output",
        "physician",
        _ASK,
        ("leicester2005/kidneys", "baker2011/two_litres", "arenas2015/two_days", DESIGN),
        high_output,
        "Your stoma gives too much. A doctor must look now.",
        told_at={
            _S: "Your stoma gives too much. A doctor must look today.",
            _T: "Your stoma gives a lot. Call the team today.",
        },
        adult_figures=True,
        besides=drinks.TOLD,
    ),
    FlagRule(
        "watery",
        "Watery for more than a day",
        _BY_PHONE,
        _MEASURE,
        ("gateshead/watery", DESIGN),
        watery,
        "Your stoma has been watery for over a day. Call the team today.",
        told_at={_S: "Your stoma has been watery for over a day. A doctor must look today."},
        adult_figures=True,
        besides=drinks.TOLD,
    ),
    FlagRule(
        "unmeasured_output",
        "Thirst or dark urine, output not measured",
        _BY_PHONE,
        _MEASURE,
        (DESIGN,),
        unmeasured_signs,
        "You may be short of salt and water. Call the team today.",
        told_at={_S: "You may be short of salt and water. A doctor must look today."},
        adult_figures=True,
        besides=drinks.TOLD,
    ),
    FlagRule(
        "output_risen",
        "Output above this person's own mean",
        _BY_PHONE,
        f"{_ASK} {_MEASURE}",
        (DESIGN,),
        risen,
        "Your stoma gives more than usual. Call the team today.",
        within=("high_output",),
        adult_figures=True,
        besides=drinks.TOLD,
    ),
)

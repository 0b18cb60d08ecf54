"""What would be worse than agreed: output, bleeding, urine and the mind."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Final

from planning.evidence.thresholds import (
    OUTPUT_RISE,
    OUTPUT_RUNNING,
    OUTPUT_URGENT,
    TARGET_SHARE,
    WEIGHT_SUDDEN,
)
from planning.facts.derive import Facts
from planning.facts.vital_signs import feverish
from planning.facts.weight import lost_since_last, weight_now
from planning.inputs.age import AgeGroup
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bleeding,
    Condition,
    Findings,
    Medicine,
    PouchBlood,
    SkinKind,
    StomaKind,
    Symptom,
    UrineSign,
)
from planning.safety.baselines.difference import Difference, unseen
from planning.safety.drying import clear_signs, grave_signs, not_asked

_BLOOD_SEEN: Final = (PouchBlood.ONCE, PouchBlood.SEVERAL_EMPTIES, PouchBlood.CLOTS)
_THINNERS: Final = frozenset({Medicine.ANTICOAGULANT, Medicine.ANTIPLATELET})


# --- output ---------------------------------------------------------------------------------
def alarm_above(agreed_ml: float) -> float:
    """From this volume (mL/24 h) up it is above what was agreed: a quarter, or 500 mL, more."""
    return min(agreed_ml * (1 + TARGET_SHARE.value), agreed_ml + OUTPUT_RISE.value)


def over_target(volume: float, agreed: Baseline) -> bool:
    """A quarter, or 500 mL, above what was agreed."""
    return agreed.value is not None and volume >= alarm_above(agreed.value)


def _output(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    output = facts.findings.output
    volume, days = output.volume_ml_24h, output.days_at_volume
    if volume is None or agreed.value is None:
        yield unseen("output of 24 hours against an agreed figure")
    elif over_target(volume, agreed):
        how = "once" if days is not None and days < OUTPUT_RUNNING.value else "2 days or more"
        yield Difference(f"output {volume:g} mL in 24 hours, {how}")
    yield from _urine(facts, agreed)
    grown = facts.age_group is not AgeGroup.CHILD
    loss = lost_since_last(facts)
    if grown and loss is not None and loss >= WEIGHT_SUDDEN.value:
        yield Difference(f"{loss:.1f} kg lost since the last weighing")
    for sign in (*grave_signs(facts), *clear_signs(facts)):
        yield Difference(sign)
    if not grown or (volume is not None and volume >= OUTPUT_URGENT.value):
        for sign in not_asked(facts):
            yield unseen(sign)
    if weight_now(facts.findings) is None:
        yield unseen("weight")


def _urine(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    urine, least = facts.findings.output.urine_ml_24h, agreed.urine_low_ml_24h
    if least is None:
        return
    if urine is None:
        yield unseen("urine of 24 hours")
    elif urine < least:
        yield Difference(f"urine {urine:g} mL in 24 hours, under the agreed {least:g}")


# --- bleeding -------------------------------------------------------------------------------
def _veins(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    yield from _any_blood(facts)
    if facts.findings.skin is None:
        yield unseen("the skin round the stoma")
    elif new := _new_ring(facts):
        yield Difference(f"dilated veins at new hours ({', '.join(map(str, sorted(new)))})")
    yield from _new_thinner(facts)


def _liver(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    yield from _any_blood(facts)
    if facts.findings.skin is None:
        yield unseen("the skin round the stoma")
    elif facts.find(SkinKind.DILATED_VEINS):
        yield Difference("dilated veins round the stoma")


def _contact(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    """Drops on wiping are what was agreed; anything more is not."""
    bleeding = facts.findings.measurement.bleeding
    if bleeding is None:
        yield unseen("bleeding")
    elif bleeding not in (Bleeding.NONE, Bleeding.ON_WIPING):
        yield Difference("more than drops on wiping")
    yield from _in_pouch(facts)
    if facts.find(SkinKind.DILATED_VEINS):
        yield Difference("dilated veins round the stoma")
    yield from _new_thinner(facts)


def _any_blood(facts: Facts) -> Iterator[Difference]:
    bleeding = facts.findings.measurement.bleeding
    if bleeding is None:
        yield unseen("bleeding")
    elif bleeding is not Bleeding.NONE:
        yield Difference("it bleeds")
    yield from _in_pouch(facts)


def _in_pouch(facts: Facts) -> Iterator[Difference]:
    if facts.findings.output.pouch_blood in _BLOOD_SEEN:
        yield Difference("blood in the pouch")


def _last(facts: Facts) -> Findings | None:
    return facts.history.previous[-1] if facts.history.previous else None


def _new_ring(facts: Facts) -> frozenset[int]:
    """Hours of veins that the visit before did not show; none where it did not look."""
    before = _last(facts)
    if before is None or before.skin is None:
        return frozenset()
    then = ClockHours.union(f.hours for f in before.skin if f.kind is SkinKind.DILATED_VEINS)
    return frozenset(facts.hours_of(SkinKind.DILATED_VEINS)) - frozenset(then)


def _new_thinner(facts: Facts) -> Iterator[Difference]:
    before = _last(facts)
    if before is None:
        return
    noted = Condition.ANTICOAGULANT in facts.findings.person.has - before.person.has
    now, then = facts.findings.person.medicines, before.person.medicines
    if now is not None and then is not None:
        begun = bool((now - then) & _THINNERS)
    else:
        begun = noted and not (then or frozenset()) & _THINNERS
    if begun:
        yield Difference("a blood thinner begun since the last visit")


# --- urine ----------------------------------------------------------------------------------
def _pink(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    output = facts.findings.output
    signs = output.urine_signs
    if signs is None:
        yield unseen("how the urine looks")
    elif UrineSign.CLOTS in signs:
        yield Difference("clots in the urine")
    elif UrineSign.BLOOD in signs:
        yield Difference("red urine")
    elif output.urine_signs_not_asked & {UrineSign.CLOTS, UrineSign.BLOOD}:
        yield unseen("whether there are clots or blood in the urine")
    urine = facts.kind is StomaKind.UROSTOMY
    if urine and (output.volume_ml_24h == 0 or output.hours_without_output):
        yield Difference("no urine comes")
    fever = feverish(facts)
    if fever is None:
        yield unseen("fever")
    elif fever:
        yield Difference("fever")
    yield from _in_pouch(facts)


# --- the mind -------------------------------------------------------------------------------
_ILL: Final = {
    Symptom.RESTLESS: "newly restless",
    Symptom.RIGORS: "rigors",
    Symptom.LOIN_PAIN: "loin pain",
    Symptom.VOMITING: "vomiting",
    Symptom.LOOKS_ILL: "looks ill",
    Symptom.MOTTLED_SKIN: "mottled skin",
}


def _mind(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    """Confusion that is known is as known only where nothing else says that it got worse."""
    for symptom, words in _ILL.items():
        if facts.feels(symptom):
            yield Difference(words)
    for sign in (*grave_signs(facts), *clear_signs(facts)):
        yield Difference(sign)
    fever = feverish(facts)
    if fever is None:
        yield unseen("fever")
    elif fever:
        yield Difference("fever")
    if facts.feels(Symptom.CONFUSION) and facts.asked(Symptom.RESTLESS) is None:
        yield unseen("whether it got worse suddenly")


#: By kind: every respect in which today is not as agreed.
DIFFERENCES: Final[Mapping[BaselineKind, Callable[[Facts, Baseline], Iterator[Difference]]]] = (
    MappingProxyType(
        {
            BaselineKind.OUTPUT_TARGET: _output,
            BaselineKind.VARICES: _veins,
            BaselineKind.LIVER_DISEASE: _liver,
            BaselineKind.CONTACT_BLEEDING: _contact,
            BaselineKind.PINK_URINE_OR_MUCUS: _pink,
            BaselineKind.CONFUSION: _mind,
        }
    )
)

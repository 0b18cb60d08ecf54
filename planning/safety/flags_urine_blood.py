"""Red flags of blood in the urine of a urostomy; blood on the outside is contact bleeding."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN
from planning.facts.colour import colours
from planning.facts.derive import Facts
from planning.inputs.findings import (
    BaselineKind,
    Bleeding,
    Colour,
    Condition,
    Findings,
    PouchBlood,
    Symptom,
    UrineSign,
)
from planning.results.plan import Urgency
from planning.safety import medicines
from planning.safety.baselines import as_known
from planning.safety.flag import FlagRule, Verdict
from planning.safety.flags_urine import less_urine, urostomy
from planning.safety.vital_signs import bleeds_more_easily

_E, _S, _T = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE
_INSIDE: Final = (Bleeding.SEVERAL_EMPTIES, Bleeding.FROM_LUMEN)
_AGAIN: Final = (PouchBlood.SEVERAL_EMPTIES, PouchBlood.CLOTS)
_RED: Final = frozenset({UrineSign.BLOOD, UrineSign.CLOTS})
_TO_UROLOGY: Final = "Cancer on record: urology within two weeks even if it stops."


def blood_in_urine(facts: Facts) -> Verdict | None:
    """Pink once is a call; red, again, or with a blood thinner (or an unknown list) the same day;
    clots, a blocked flow, faint or pale an emergency."""
    if not urostomy(facts):
        return None
    inside = facts.findings.measurement.bleeding in _INSIDE
    signs = facts.findings.output.urine_signs or frozenset()
    pouch = facts.findings.output.pouch_blood
    red = bool(signs & _RED) or inside or pouch in _AGAIN
    pink = UrineSign.PINK in signs or pouch is PouchBlood.ONCE
    if not red and (not pink or as_known(facts, BaselineKind.PINK_URINE_OR_MUCUS)):
        return None
    clots = UrineSign.CLOTS in signs or pouch is PouchBlood.CLOTS
    if clots or _bad(facts):
        level = _E
    else:
        level = _S if red or bleeds_more_easily(facts) is not False else _T
    asked = pouch is not None or clots
    return Verdict(
        level,
        "There is blood in the urine" + (", with clots." if clots else "."),
        "measurement.bleeding" if inside else "output.urine_signs",
        ask="" if asked or level is _E else "are there clots, however small",
        also=_also(facts),
    )


def _bad(facts: Facts) -> bool:
    faint = facts.feels(Symptom.FAINTNESS, Symptom.DIZZY_ON_STANDING)
    pale = Colour.PALE in colours(facts)
    return faint or pale or bool(less_urine(facts))


def _also(facts: Facts) -> str:
    parts = (medicines.bleeding(facts), _TO_UROLOGY if facts.has(Condition.CANCER) else "")
    return " ".join(part for part in parts if part)


def blood_stopped(facts: Facts) -> Verdict | None:
    """Cancer on record, blood at the visit before and none today."""
    if not urostomy(facts) or not facts.has(Condition.CANCER) or blood_in_urine(facts):
        return None
    before = facts.history.previous[-1] if facts.history.previous else None
    if before is None or not _bled(before):
        return None
    found = "Blood in the urine at the last visit, none today; cancer is on record."
    return Verdict(Urgency.TWO_WEEKS, found, "output.urine_signs")


def _bled(found: Findings) -> bool:
    signs = found.output.urine_signs or frozenset()
    seen = bool(signs & (_RED | {UrineSign.PINK})) or found.measurement.bleeding in _INSIDE
    return seen or found.output.pouch_blood in (PouchBlood.ONCE, *_AGAIN)


RULES: Final = (
    FlagRule(
        "blood_in_urine",
        "Blood in the urine of a urostomy",
        "urologist or physician",
        "With clots, or where the flow stops, it is an emergency. Blood count, kidney function; "
        "think of infection. Do not stop blood thinners and do not blame them alone.",
        ("urostomytips/blood", DESIGN),
        blood_in_urine,
        "There is blood in your urine. A doctor must look now.",
        told_at={
            _S: "There is blood in your urine. A doctor must look today.",
            _T: "There is blood in your urine. Call the team today.",
        },
        adult_figures=True,
    ),
    FlagRule(
        "blood_stopped",
        "Blood in the urine that has stopped, with cancer on record",
        "urologist",
        "It is looked into even though it stopped.",
        ("urostomytips/blood", DESIGN),
        blood_stopped,
        "There was blood in your urine. A doctor will look within two weeks.",
        adult_figures=True,
    ),
)

"""Which of the medicines already taken a flag must name to their prescriber.

The nurse starts, stops and doses none of them, and neither does the plan.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Final

from planning.facts.derive import Facts
from planning.inputs.findings import Condition, Medicine, SkinKind, StomaKind, Symptom
from planning.safety.vital_signs import anticoagulated, bleeds_more_easily

WORDS: Final[Mapping[Medicine, str]] = {
    Medicine.OPIOID: "an opioid",
    Medicine.IRON: "iron",
    Medicine.ANTICHOLINERGIC: "an anticholinergic",
    Medicine.LAXATIVE: "a laxative",
    Medicine.MAGNESIUM_ANTACID: "a magnesium antacid",
    Medicine.ANTIDIARRHOEAL: "an antidiarrhoeal",
    Medicine.ACID_REDUCER: "an acid reducer",
    Medicine.DIURETIC: "a diuretic",
    Medicine.ACE_INHIBITOR_OR_ARB: "an ACE inhibitor or ARB",
    Medicine.SGLT2_INHIBITOR: "an SGLT2 inhibitor",
    Medicine.METFORMIN: "metformin",
    Medicine.NSAID: "an NSAID",
    Medicine.COATED_OR_SLOW_RELEASE: "coated or slow-release tablets",
    Medicine.NICORANDIL: "nicorandil",
    Medicine.STEROID: "a steroid",
    Medicine.BIOLOGIC: "a biologic",
    Medicine.ANTICOAGULANT: "an anticoagulant",
    Medicine.ANTIPLATELET: "an antiplatelet",
    Medicine.ANTIBIOTIC: "an antibiotic",
    Medicine.NARROW_RANGE: "a medicine with a narrow range (such as digoxin, lithium, warfarin or "
    "an antiepileptic)",
}
#: They slow the bowel, or thicken what it holds.
SLOWING: Final = (Medicine.ANTIDIARRHOEAL, Medicine.OPIOID, Medicine.ANTICHOLINERGIC)
THICKENING: Final = (Medicine.OPIOID, Medicine.IRON, Medicine.ANTICHOLINERGIC)
#: They make losses larger, or losses make them dangerous.
WITH_LOSSES: Final = (
    Medicine.LAXATIVE,
    Medicine.MAGNESIUM_ANTACID,
    Medicine.DIURETIC,
    Medicine.ACE_INHIBITOR_OR_ARB,
    Medicine.SGLT2_INHIBITOR,
    Medicine.METFORMIN,
    Medicine.NSAID,
    Medicine.NARROW_RANGE,
)
_LIST_UNKNOWN: Final = "The list of medicines is not known: ask for it."


def taken(facts: Facts, among: tuple[Medicine, ...]) -> tuple[Medicine, ...]:
    """Those of ``among`` that are taken, in that order."""
    return tuple(m for m in among if m in (facts.findings.person.medicines or frozenset()))


def named(facts: Facts, among: tuple[Medicine, ...]) -> str:
    """In words; "" where none of them is on the list."""
    return " and ".join(WORDS[medicine] for medicine in taken(facts, among))


def list_unknown(facts: Facts) -> bool:
    return facts.findings.person.medicines is None


# --- sentences for a flag, "" where there is nothing to name -----------------------------------
def slowing(facts: Facts) -> str:
    """For a possible blockage or infection: what slows the bowel, and what thickens stool."""
    found = named(facts, tuple(dict.fromkeys((*SLOWING, *THICKENING))))
    if found:
        return f"Name to the prescriber: {found}, taken now. Nothing that slows the bowel is added."
    return _LIST_UNKNOWN if list_unknown(facts) else ""


def thickening(facts: Facts) -> str:
    """For thick or lacking stool: what can cause it."""
    found = named(facts, THICKENING)
    if found:
        return f"Name to the prescriber: {found}, which can thicken or stop stool."
    return _LIST_UNKNOWN if list_unknown(facts) else ""


def losses(facts: Facts) -> str:
    """For much output or signs of dehydration."""
    found = named(facts, WITH_LOSSES)
    if found:
        return f"Tell the prescriber today of: {found}. The nurse stops none of it."
    return _LIST_UNKNOWN if list_unknown(facts) else ""


def stool_test_first(facts: Facts) -> str:
    """For much output after antibiotics."""
    recent = facts.findings.person.takes(Medicine.ANTIBIOTIC)
    if recent or facts.has(Condition.RECENT_ANTIBIOTICS):
        return "After antibiotics: a stool test is asked for before anything slows the bowel."
    return ""


def bleeding(facts: Facts) -> str:
    """For every bleed beyond a trace, and for blood in urine."""
    taken_now = (Medicine.ANTICOAGULANT, Medicine.ANTIPLATELET)
    found = named(facts, taken_now) or ("an anticoagulant" if anticoagulated(facts) else "")
    if found:
        return f"Name {found} to the person who looks after it; never stop it."
    return "Ask for blood thinners." if bleeds_more_easily(facts) is None else ""


def masked_fever(facts: Facts) -> str:
    """For illness without fever."""
    found = named(facts, (Medicine.STEROID, Medicine.BIOLOGIC))
    return f"Say that {found} is taken: it can hide fever." if found else ""


# --- things to know that are no danger by themselves ------------------------------------------
def cranberry(facts: Facts) -> str:
    """With a urostomy, cranberry is what people reach for."""
    if facts.kind is not StomaKind.UROSTOMY or anticoagulated(facts) is False:
        return ""
    return "Cranberry never with warfarin." if anticoagulated(facts) else (
        "Cranberry never with warfarin: ask whether it is taken."
    )  # fmt: skip


def pancaking(facts: Facts) -> str:
    """Thick stool alone is routine; what thickens it is named."""
    return thickening(facts) if facts.feels(Symptom.THICK_STICKING_STOOL) else ""


def ulcer_seen(facts: Facts) -> bool:
    return bool(facts.find(SkinKind.ULCER, SkinKind.UNDERMINED_ULCER))

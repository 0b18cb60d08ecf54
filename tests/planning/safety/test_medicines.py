"""Medicines already taken (facts of 2026, section 7): named to their prescriber, never changed."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.findings import (
    Condition,
    Consistency,
    Findings,
    Medicine,
    Person,
    SkinKind,
    StomaKind,
    Symptom,
)
from planning.results.plan import Urgency
from planning.safety import medicines
from planning.safety.red_flags import RULES
from tests.planning.builders import seen, situation, well

E, S, D = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.DAYS
COLO, URO = {"kind": StomaKind.COLOSTOMY}, {"kind": StomaKind.UROSTOMY}


def taking(*taken: Medicine, **changes: Any) -> Person:
    usual: dict[str, Any] = {
        "sensitivities": frozenset(),
        "has_not": frozenset(Condition),
        "medicines": frozenset(taken),
        "age_years": 40,
    }
    return Person(**(usual | changes))


def asked(person: Person, *present: Symptom, **changes: Any) -> Findings:
    felt = frozenset(present)
    return well(**({"person": person, "present": felt,
                    "absent": frozenset(Symptom) - felt} | changes))  # fmt: skip


ULCER = (seen(SkinKind.ULCER),)
ROWS: list[tuple[str, Findings, Urgency | None]] = [
    # kidney and potassium medicines: from 1500 mL or with a sign
    *((key, asked(taking(drug), volume_ml_24h=volume), expected)
      for key in ("drug_with_losses",)
      for drug in (Medicine.DIURETIC, Medicine.ACE_INHIBITOR_OR_ARB, Medicine.SGLT2_INHIBITOR,
                   Medicine.METFORMIN, Medicine.NSAID)
      for volume, expected in ((1500.0, S), (1499.0, None))),
    ("drug_with_losses", asked(taking(Medicine.DIURETIC), Symptom.LIMB_CRAMPS), S),
    ("drug_with_losses", asked(taking(Medicine.METFORMIN), Symptom.VOMITING), S),
    ("drug_with_losses", asked(taking(Medicine.DIURETIC), Symptom.VOMITING), None),
    ("drug_with_losses", asked(taking(Medicine.NSAID), **URO, volume_ml_24h=1500.0), None),
    # never for an ileostomy
    ("laxative_with_ileostomy", asked(taking(Medicine.LAXATIVE)), D),
    ("laxative_with_ileostomy", asked(taking(Medicine.MAGNESIUM_ANTACID)), D),
    ("laxative_with_ileostomy", asked(taking(Medicine.LAXATIVE), **COLO), None),
    # seen whole
    ("tablets_whole", asked(taking(), tablets_whole=True), D),
    ("tablets_whole", asked(taking(), tablets_whole=None), None),
    *(("tablets_whole", asked(taking(Medicine.STEROID), sign, tablets_whole=True), E)
      for sign in (Symptom.FAINTNESS, Symptom.VOMITING, Symptom.LIMB_WEAKNESS)),
    ("tablets_whole", asked(taking(), Symptom.VOMITING, tablets_whole=True), D),
    ("tablets_whole",
     asked(replace(taking(), medicines=None), Symptom.VOMITING, tablets_whole=True), S),
    # nicorandil
    ("nicorandil", asked(taking(Medicine.NICORANDIL), skin=ULCER), D),
    ("nicorandil",
     asked(taking(Medicine.NICORANDIL), skin=(seen(SkinKind.UNDERMINED_ULCER),)), D),
    ("nicorandil", asked(taking(Medicine.NICORANDIL), skin=(seen(SkinKind.EROSION),)), None),
    ("nicorandil", asked(taking(), skin=ULCER), None),
]  # fmt: skip


@pytest.mark.parametrize(("key", "found", "level"), ROWS)
def test_a_medicine(key: str, found: Findings, level: Urgency | None) -> None:
    raised = {flag.key: flag.urgency for flag in recommend(found).red_flags}
    assert raised.get(key) is level


def facts_of(person: Person, *present: Symptom, **changes: Any) -> Any:
    return situation(asked(person, *present, **changes)).facts


def test_what_slows_is_named_for_a_possible_blockage_or_infection() -> None:
    said = medicines.slowing(facts_of(taking(Medicine.ANTIDIARRHOEAL, Medicine.OPIOID)))
    assert said.startswith("Name to the prescriber: an antidiarrhoeal and an opioid, taken now.")
    assert medicines.slowing(facts_of(taking())) == ""
    assert "not known" in medicines.slowing(facts_of(taking(medicines=None)))
    assert "iron" in medicines.thickening(facts_of(taking(Medicine.IRON)))


def test_after_antibiotics_a_stool_test_comes_before_anything_slows() -> None:
    for person in (
        taking(Medicine.ANTIBIOTIC),
        taking(has=frozenset({Condition.RECENT_ANTIBIOTICS}), has_not=frozenset()),
    ):
        flag = recommend(asked(person, volume_ml_24h=1600.0)).red_flags[0]
        assert "stool test is asked for before anything slows the bowel" in flag.do
    none = recommend(asked(taking(), volume_ml_24h=1600.0)).red_flags[0]
    assert "stool test" not in none.do


def notices(found: Findings) -> str:
    return " ".join(notice.text for notice in recommend(found, History()).notices)


def test_things_to_know_that_are_no_danger() -> None:
    assert "can hide fever" in notices(asked(taking(Medicine.STEROID)))
    assert "can hide fever" not in notices(asked(taking()))
    new = asked(taking(Medicine.DIURETIC), days_since_surgery=42)
    assert "written plan for sick days" in notices(new)
    old = asked(taking(Medicine.DIURETIC), days_since_surgery=43)
    assert "written plan for sick days" not in notices(old)
    colostomy = asked(taking(Medicine.DIURETIC), days_since_surgery=42, **COLO)
    assert "written plan for sick days" not in notices(colostomy)
    thick = asked(taking(Medicine.OPIOID), Symptom.THICK_STICKING_STOOL, **COLO,
                  consistency=Consistency.FORMED)  # fmt: skip
    assert "an opioid, which can thicken or stop stool" in notices(thick)
    assert recommend(thick).urgency is Urgency.ROUTINE


def test_cranberry_never_with_warfarin() -> None:
    on = taking(Medicine.ANTICOAGULANT, has_not=frozenset())
    assert "Cranberry never with warfarin." in notices(asked(on, **URO))
    unknown = taking(medicines=None, has_not=frozenset())
    assert "Cranberry never with warfarin: ask" in notices(asked(unknown, **URO))
    assert "Cranberry" not in notices(asked(taking(), **URO))
    assert "Cranberry" not in notices(asked(on))


#: What a plan may not tell anybody to do with a medicine.
_ORDERS = re.compile(
    r"\b(start|begin|stop|pause|halve|double|increase|reduce|give)s? (the |this |that )?"
    r"(drug|medicine|diuretic|steroid|warfarin|loperamide|opioid|antibiotic)|\bmg\b",
    re.IGNORECASE,
)


def test_no_flag_orders_a_medicine() -> None:
    for rule in RULES:
        for words in (rule.do, rule.patient_text or "", *rule.told_at.values()):
            said = re.sub(r"(never|not|nothing) \w+ \w+", "", str(words))
            assert not _ORDERS.search(said), rule.key

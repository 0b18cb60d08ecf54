"""What would make a finding an emergency and was not asked is named in the flag."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import recommend
from planning.inputs.findings import StomaKind, Symptom
from tests.planning.safety.dangers import all_good

URO = {"kind": StomaKind.UROSTOMY}
DAY_9 = {"days_since_surgery": 9}


def asked(key: str, gone: frozenset[Symptom], **changes: Any) -> str:
    """What the flag ``key`` asks for now, where ``gone`` were not asked."""
    found = all_good(**changes)
    output = replace(found.output, absent=found.output.absent - gone)
    if Symptom.FEVER in gone:
        vitals = replace(output.vitals, temperature_c=None, highest_c=None)
        output = replace(output, vitals=vitals)
    flags = recommend(replace(found, output=output)).red_flags
    do = next(flag.do for flag in flags if flag.key == key)
    return do.partition(".")[0] if do.startswith("Ask now") else ""


@pytest.mark.parametrize(
    ("key", "changes", "sign", "words"),
    [
        ("no_urine", {**URO, "hours_without_output": 2.5}, Symptom.LOIN_PAIN, "loin pain"),
        ("no_urine", {**URO, "hours_without_output": 2.5}, Symptom.VOMITING, "vomiting"),
        ("little_urine", {**URO, "volume_ml_24h": 380.0}, Symptom.LOIN_PAIN, "loin pain"),
        ("little_urine", {**URO, "volume_ml_24h": 380.0}, Symptom.LIMB_WEAKNESS, "weak limbs"),
        (
            "urine_infection",
            {**URO, "volume_ml_24h": 1500.0, "present": frozenset({Symptom.LOIN_PAIN})},
            Symptom.VOMITING,
            "vomiting",
        ),
        (
            "fever_after_surgery",
            {**DAY_9, "present": frozenset({Symptom.FEVER})},
            Symptom.MILD_CRAMPS,
            "cramps",
        ),
        (
            "fever_after_surgery",
            {**DAY_9, "present": frozenset({Symptom.FEVER})},
            Symptom.ABDOMINAL_PAIN,
            "pain in the belly",
        ),
        (
            "pain",
            {
                **DAY_9,
                "pain_0_10": 2,
                "present": frozenset({Symptom.ABDOMINAL_PAIN}),
            },
            Symptom.FEVER,
            "temperature",
        ),
    ],
)
def test_a_companion_not_asked_is_named_and_one_asked_is_not(
    key: str, changes: dict[str, Any], sign: Symptom, words: str
) -> None:
    assert words in asked(key, frozenset({sign}), **changes)
    assert words not in asked(key, frozenset(), **changes)

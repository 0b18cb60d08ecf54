"""Temperature and pulse of somebody newly restless: usual is seen within days, else today."""

from __future__ import annotations

import pytest

from planning.facts.derive import derive
from planning.inputs.findings import History, Symptom, Vitals
from planning.results.plan import Urgency
from planning.safety.flags_restless import restless
from tests.planning.builders import well


@pytest.mark.parametrize(
    ("vitals", "urgency"),
    [
        (Vitals(temperature_c=36.0, pulse=100.0), Urgency.DAYS),
        (Vitals(temperature_c=37.9, pulse=100.0), Urgency.DAYS),
        (Vitals(temperature_c=35.9, pulse=100.0), Urgency.SAME_DAY),
        (Vitals(temperature_c=38.0, pulse=100.0), Urgency.SAME_DAY),
        (Vitals(temperature_c=36.0, pulse=101.0), Urgency.SAME_DAY),
        (Vitals(temperature_c=36.0), Urgency.SAME_DAY),
        (Vitals(pulse=80.0), Urgency.SAME_DAY),
    ],
)
def test_restless_with_usual_and_unusual_signs(vitals: Vitals, urgency: Urgency) -> None:
    """Design values: 36.0 to 37.9 degrees, a pulse of up to 100."""
    found = well(
        present=frozenset({Symptom.RESTLESS}),
        absent=frozenset({Symptom.CANNOT_KEEP_FLUIDS, Symptom.CONFUSION}),
        vitals=vitals,
    )
    verdict = restless(derive(found, History()))
    assert verdict is not None
    assert verdict.urgency is urgency

"""The one line on top of a plan."""

from __future__ import annotations

from planning import recommend
from planning.inputs.findings import Condition, Person, SkinKind
from tests.planning.builders import LOW, seen, well

LIVER = Person(sensitivities=frozenset(), has=frozenset({Condition.LIVER_DISEASE}), age_years=50)


def test_what_is_only_more_likely_is_no_cause_of_whole_skin() -> None:
    """Liver disease makes veins likelier; on whole skin the headline names the leak."""
    low = {"protrusion_mm": 2.0, "leak": LOW, "person": LIVER}
    assert recommend(well(**low)).headline == "Stoma too low"
    veins = recommend(well(**low, skin=(seen(SkinKind.DILATED_VEINS),)))
    assert veins.headline.startswith("Varices")


def test_skin_that_was_not_looked_at_is_not_whole() -> None:
    plan = recommend(well(protrusion_mm=2.0, leak=LOW, person=LIVER, skin=None))
    assert plan.headline.startswith("Varices")

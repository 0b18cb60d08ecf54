"""A plan signed before a list was asked in two groups claims nothing of the later words."""

from typing import Any

import pytest

from clinic.plans.models import PlanSnapshot
from clinic.plans.stored_findings import stored_findings
from clinic.visits.choices import OtherSupply, UrineLook
from planning.results.snapshot import findings_to_dict
from tests.planning.builders import well


def snapshot(*, older: bool, **changes: Any) -> PlanSnapshot:
    """Not stored. ``older``: without the names that say what was not asked."""
    data = findings_to_dict(well(**changes))
    if older:
        del data["system"]["accessories_not_asked"]
        del data["output"]["urine_signs_not_asked"]
    return PlanSnapshot(findings=data)


def test_none_of_the_first_words_says_nothing_of_the_later() -> None:
    found = stored_findings(snapshot(older=True, accessories=frozenset(), urine_signs=frozenset()))
    assert found.system is not None
    assert found.system.accessories_not_asked == set(OtherSupply.values)
    assert found.output.urine_signs_not_asked == set(UrineLook.values)


@pytest.mark.parametrize("ticked", ["tape", "pouch_cover", "lubricant"])
def test_a_later_word_that_was_ticked_was_asked_with_the_others(ticked: str) -> None:
    found = stored_findings(snapshot(older=True, accessories=frozenset({ticked}))).system
    assert found is not None
    assert found.accessories_not_asked == set()


def test_what_was_not_recorded_and_what_says_itself_what_was_asked_stay() -> None:
    unknown = well(accessories=None, urine_signs=None)
    for older in (True, False):
        kept = stored_findings(snapshot(older=older, accessories=None, urine_signs=None))
        assert kept == unknown
    asked = well(accessories=frozenset(), urine_signs=frozenset())
    whole = snapshot(older=False, accessories=frozenset(), urine_signs=frozenset())
    assert stored_findings(whole) == asked
    assert (
        stored_findings(PlanSnapshot(findings=findings_to_dict(well(system=None)))).system is None
    )

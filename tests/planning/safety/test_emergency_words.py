"""An emergency's page: a clear pouch only where the colour matters, and no visit tomorrow; of
liver disease, what is asked before anything presses."""

from __future__ import annotations

import pytest

from planning import recommend
from planning.inputs.findings import Colour, Condition, Findings, Person, SkinKind
from tests.planning.builders import ALL, seen, well

DARK = well(colour=Colour.BLACK_BROWN_GREY)
OUTSIDE = well(bowel_outside=True)
LIVER = Person(has=frozenset({Condition.LIVER_DISEASE}))


def worn(found: Findings) -> str:
    return next(r.text for r in recommend(found).recommendations if r.key == "meanwhile")


def test_a_clear_pouch_only_where_the_colour_matters() -> None:
    assert "clear if at hand" in worn(DARK)
    assert "clear" not in worn(OUTSIDE)


def test_after_an_emergency_no_visit_is_planned() -> None:
    assert recommend(OUTSIDE).follow_up.text == "Ask the next day how it went."
    assert "tomorrow" not in recommend(DARK).follow_up.text


@pytest.mark.parametrize(("last", "said"), [(True, True), (False, False)])
def test_in_the_last_weeks_of_life_an_emergency_follows_the_care_plan(
    last: bool, said: bool
) -> None:
    weeks = frozenset({Condition.LAST_WEEKS_OF_LIFE})
    person = Person(sensitivities=frozenset(), has=weeks if last else frozenset())
    items = recommend(well(bowel_outside=True, person=person)).recommendations
    told = [item for item in items if "agreed care plan" in item.text]
    assert bool(told) is said
    assert all("palliative team" in item.text and item.patient_text is None for item in told)


def test_before_anything_presses_the_liver_team_is_asked() -> None:
    def says(found: Findings) -> bool:
        return any("liver team was asked" in n.text for n in recommend(found).notices)

    assert says(well(person=LIVER))
    assert not says(well())
    assert not says(well(person=LIVER, skin=(seen(SkinKind.DILATED_VEINS, ALL),)))

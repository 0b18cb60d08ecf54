"""A visit in one line: what was found, most telling first; what was not recorded says nothing."""

from typing import Any

import pytest

from clinic.visits.presenters.in_short import NOTHING, found_in_short, system_in_short
from tests.clinic.plans.signed_visits import reread
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("traits", "line"),
    [
        (
            {"leaking": True},
            "Leak at 5 to 7 o'clock; raw, shallow erosion, at 5 to 7 o'clock; height 24 mm",
        ),
        ({"well_fitting": True}, "No leak; skin intact; height 24 mm"),
        (
            {
                "well_fitting": True,
                "measurement__colour": "dusky",
                "measurement__bleeding": "on_wiping",
                "output__symptoms": ["vomiting"],
            },
            "Vomiting; stoma dusky or maroon; bleeding: a little, on wiping; no leak; skin intact; "
            "height 24 mm",
        ),
        (
            {"well_fitting": True, "system__leak_hours": None, "measurement__protrusion_mm": None},
            "Skin intact",
        ),
        (
            {
                "well_fitting": True,
                "system__erosion_hours": [6],
                "measurement__junction": "separated",
                "measurement__separation_hours": [3],
            },
            "Mucocutaneous separation at 3 o'clock; no leak; barrier melted at 6 o'clock; skin "
            "intact; height 24 mm",
        ),
        ({"hernia": True}, "No leak; skin intact; bulge at 1 to 4 o'clock; height 24 mm"),
        ({"prolapse": True}, "Prolapse; no leak; skin intact; height 60 mm"),
        ({}, NOTHING),
    ],
)
def test_found(traits: dict[str, Any], line: str) -> None:
    assert found_in_short(reread(AssessmentFactory(**traits))) == line


def test_what_was_worn_is_said_as_charted() -> None:
    charted = AssessmentFactory(well_fitting=True, system__accessories=["ring", "belt"])
    assert system_in_short(reread(charted)) == ("one-piece", "flat", "drainable", "ring, belt")
    assert system_in_short(reread(AssessmentFactory())) == ()

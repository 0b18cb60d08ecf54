"""How much paper the planner's own plans take."""

import pytest

from clinic.plans.draft_plan import draft_plan
from tests.clinic.documents import made_visits, paper

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize(
    ("situation", "normal", "large"),
    [
        ("well_fitting", 2, 4),
        ("prolapse", 2, 4),
        ("leaking", 2, 4),
        ("contact_reaction", 2, 4),
        ("retracted", 2, 4),
        ("hernia", 2, 4),
    ],
)
def test_pages(situation: str, normal: int, large: int) -> None:
    made = made_visits.signed_as_planned(situation)
    for is_large, most in ((False, normal), (True, large)):
        pages = paper.page_texts(made_visits.printed(made_visits.sheet_of(made, large=is_large)))
        assert len(pages) <= most
        for page in pages:
            assert made.visit.patient.record_number in page


def test_twelve_findings_are_all_shown() -> None:
    made = made_visits.assessed()
    made_visits.everything_found(made)
    plan = draft_plan(made_visits.fresh(made)).plan
    assert plan is not None
    made_visits.decide(made, plan)
    sheet = made_visits.sheet_of(made)
    text = paper.whole_text(made_visits.printed(sheet))
    for mark in sheet.marks:
        assert mark.words in text

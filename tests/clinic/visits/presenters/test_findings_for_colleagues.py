"""What a letter says of a visit's findings."""

import pytest

from clinic.visits.models import BegunProduct, ColourPart
from clinic.visits.presenters.findings_for_colleagues import finding_lines
from clinic.visits.presenters.summary import summary_of
from tests.clinic.plans.signed_visits import reread
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


def test_a_dark_part_of_the_stoma_is_told_as_that_part_and_first() -> None:
    found = AssessmentFactory(leaking=True)
    ColourPart.objects.create(assessment=found, colour="pale", hours=[9], position=1)
    ColourPart.objects.create(
        assessment=found, colour="black_brown_grey", hours=[3, 4, 5], position=2
    )
    first, second, *_ = finding_lines(reread(found))
    assert first == "Part of the stoma at 3 to 5 o'clock: black, brown or grey"
    assert second == "Part of the stoma at 9 o'clock: very pale"
    (stoma,) = (part for part in summary_of(reread(found)) if part.title == "Stoma")
    assert set(stoma.rows) == {first, second}


def test_every_product_begun_is_said_with_its_day_or_that_nobody_knows_it() -> None:
    found = AssessmentFactory(leaking=True)
    found.system.begun_product, found.system.begun_days = "paste", 2
    found.system.save()
    BegunProduct.objects.create(assessment=found, product="ring", days=1)
    BegunProduct.objects.create(assessment=found, product="film", position=1)
    lines = finding_lines(reread(found))
    assert any("started last: paste; days ago: 2 days" in line for line in lines)
    assert "Also started: ring, 1 day ago" in lines
    assert "Also started: protectant film, on a day not known" in lines

"""What the visit page refuses, in words, beside which field."""

import uuid

import pytest
from django.http import QueryDict

from clinic.visits.chart import Chart
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts
from tests.clinic.visits.posting import posted, with_row
from tests.clinic.visits.refused import KEY, REFUSED, ROWS_REFUSED, with_refused_row
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db


def errors_of(assessment: Assessment, data: QueryDict) -> dict[str, list[str]]:
    chart = Chart(with_parts().get(pk=assessment.pk), data=data)
    chart.check()
    return chart.errors()


@pytest.mark.parametrize("case", REFUSED)
def test_refused_beside_its_field(case: str) -> None:
    changes, field, words = REFUSED[case]
    assessment = AssessmentFactory()
    errors = errors_of(assessment, posted(assessment, **changes))
    assert words in " ".join(errors.get(field, [])), errors


@pytest.mark.parametrize("case", ROWS_REFUSED)
def test_a_row_is_refused_beside_its_field(case: str) -> None:
    kind, _, field, words = ROWS_REFUSED[case]
    assessment = AssessmentFactory()
    errors = errors_of(assessment, with_refused_row(assessment, case))
    assert words in " ".join(errors.get(f"{kind}-{KEY}-{field}", [])), errors


def test_two_barriers_at_once_are_refused() -> None:
    assessment = AssessmentFactory()
    second = str(uuid.uuid4())
    data = posted(assessment)
    with_row(data, "wear", KEY, on="2025-05-01", off="2025-05-04", reason="leak")
    with_row(data, "wear", second, on="2025-05-03", off="2025-05-05", reason="planned")
    assert "overlaps" in errors_of(assessment, data)[f"wear-{second}-on"][0]


def test_a_barrier_still_on_ends_when_another_is_put_on() -> None:
    assessment = AssessmentFactory()
    data = posted(assessment)
    with_row(data, "wear", KEY, on="2025-05-01")
    with_row(data, "wear", str(uuid.uuid4()), on="2025-05-03")
    assert "when did this one" in errors_of(assessment, data)[f"wear-{KEY}-off"][0]


def test_barriers_that_share_the_day_of_the_change_are_accepted() -> None:
    assessment = AssessmentFactory()
    data = posted(assessment)
    with_row(data, "wear", KEY, on="2025-05-01", off="2025-05-03", reason="leak")
    with_row(data, "wear", str(uuid.uuid4()), on="2025-05-03")
    assert errors_of(assessment, data) == {}


def test_a_part_of_another_colour_asks_for_the_colour_of_the_whole_and_is_kept() -> None:
    assessment = AssessmentFactory()
    data = with_row(posted(assessment), "colourpart", KEY, colour="dusky", hours=[3])
    assert "colour too" in errors_of(assessment, data)["stoma-colour"][0]
    data = posted(assessment, stoma__colour="pink_red")
    with_row(data, "colourpart", KEY, colour="dusky", hours=[3, 4])
    assert errors_of(assessment, data) == {}
    second = str(uuid.uuid4())
    with_row(data, "colourpart", second, colour="purple", hours=[4, 5])
    assert "at these hours" in errors_of(assessment, data)[f"colourpart-{second}-hours"][0]


def test_each_product_is_begun_once_and_its_day_may_be_unknown() -> None:
    assessment = AssessmentFactory()
    data = posted(assessment, system__begun_product="ring")
    with_row(data, "begun", KEY, product="paste")
    assert errors_of(assessment, data) == {}
    second = str(uuid.uuid4())
    with_row(data, "begun", second, product="ring", days="3")
    assert "named already" in errors_of(assessment, data)[f"begun-{second}-product"][0]


def test_the_parts_of_a_stoma_that_was_not_looked_at_are_asked_about() -> None:
    assessment = AssessmentFactory()
    data = posted(assessment, whole__not_looked_at=["stoma"])
    with_row(data, "colourpart", KEY, colour="dusky", hours=[3])
    assert "not looked at" in errors_of(assessment, data)["whole-not_looked_at-stoma"][0]

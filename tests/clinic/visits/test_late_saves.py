"""Saves that come late, early or twice: what counts as a second person, and what does not."""

import uuid

import pytest

from clinic.visits.actions.save import ConflictError, Saved, Turn, save_chart
from clinic.visits.chart import Chart
from clinic.visits.merging import differences
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts
from tests.clinic.visits.posting import posted, with_row
from tests.factories.visits import AssessmentFactory


def reread(assessment: Assessment) -> Assessment:
    return with_parts().get(pk=assessment.pk)


def save(assessment: Assessment, turn: Turn, **changes: str) -> Saved:
    fresh = reread(assessment)
    data = posted(fresh, **changes)
    return save_chart(assessment=fresh, data=data, turn=turn, by=fresh.visit.clinician)


@pytest.mark.django_db
def test_a_late_repetition_is_no_conflict() -> None:
    assessment = AssessmentFactory.create()
    version = assessment.visit.version
    save(assessment, Turn(version), stoma__length_mm="30")
    again = save(assessment, Turn(version), stoma__length_mm="30.0")
    assert not again.changed
    assert not assessment.conflict_copies.exists()


@pytest.mark.django_db
def test_a_late_difference_is_one() -> None:
    assessment = AssessmentFactory.create()
    version = assessment.visit.version
    save(assessment, Turn(version), stoma__length_mm="30")
    with pytest.raises(ConflictError):
        save(assessment, Turn(version), stoma__length_mm="31")


@pytest.mark.django_db
def test_a_page_never_conflicts_with_itself_however_its_saves_arrive() -> None:
    assessment = AssessmentFactory.create()
    version, page = assessment.visit.version, uuid.uuid4()
    second = save(assessment, Turn(version, page, 2), stoma__length_mm="30", stoma__width_mm="28")
    assert second.changed
    late = save(assessment, Turn(version, page, 1), stoma__length_mm="3")
    assert not late.changed
    same = save(assessment, Turn(version, page, 3), stoma__length_mm="30")
    assert not same.changed
    older = save(assessment, Turn(version, page, 2), stoma__length_mm="3")
    assert not older.changed
    third = save(assessment, Turn(version, page, 4), stoma__length_mm="31")
    assert third.changed
    assert float(reread(assessment).measurement.length_mm) == 31
    assert not assessment.conflict_copies.exists()


@pytest.mark.django_db
def test_another_page_in_between_is_a_conflict() -> None:
    assessment = AssessmentFactory.create()
    version, mine, other = assessment.visit.version, uuid.uuid4(), uuid.uuid4()
    save(assessment, Turn(version, mine, 1), stoma__length_mm="30")
    save(assessment, Turn(version + 1, other, 1), stoma__length_mm="31")
    with pytest.raises(ConflictError):
        save(assessment, Turn(version + 1, mine, 2), stoma__length_mm="32")


@pytest.mark.django_db
def test_two_late_pages_of_one_person_are_both_kept() -> None:
    assessment = AssessmentFactory.create()
    version = assessment.visit.version
    save(assessment, Turn(version), stoma__length_mm="30")
    for page, typed in ((uuid.uuid4(), "41"), (uuid.uuid4(), "42")):
        with pytest.raises(ConflictError):
            save(assessment, Turn(version, page, 1), stoma__length_mm=typed)
    kept = [copy.data["stoma-length_mm"] for copy in assessment.conflict_copies.all()]
    assert kept == [["41"], ["42"]]


@pytest.mark.django_db
def test_differences_name_the_row() -> None:
    """A finding that only one side has is named by its number and the words of its choices."""
    assessment = AssessmentFactory.create()
    key = "0d9f2f0e-6b0c-4a3e-9d0e-3f1c1e6b7a11"
    mine = with_row(posted(reread(assessment)), "finding", key, kind="ulcer", hours=[6])
    found = differences(dict(mine.lists()), Chart(reread(assessment)))
    words = {difference.label: difference.mine_words for difference in found}
    assert words["Finding 1: Kind"] == "Ulcer"
    assert words["Finding 1: Hours"] == "6"
